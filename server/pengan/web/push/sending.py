"""Messages sent as they come due, one by one, each by one process alone; given up where it goes wrong for too long."""

from __future__ import annotations

import json
import logging
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from sqlalchemy import or_, select, update
from sqlalchemy.orm import Session

from pengan.engine.clock.nights import night_at
from pengan.engine.clock.zones import clock_of
from pengan.engine.document.document import Document
from pengan.engine.journal.alarm import Gravity
from pengan.engine.message import saying
from pengan.words.names import SiteNames
from pengan.words.say import say
from pengan.words.wall import SiteWall

from ..alarms.filing import message_in
from ..alarms.models import Alarm, AlarmLook
from ..alarms.names import GRAVITIES
from ..database import reading
from ..people.models import Device, Person
from ..people.rights import role_at
from ..people.spoken import reader_for
from ..sites.models import SiteCopy
from ..sites.operations import document_in
from .calling import Answer, Outcome, Where
from .models import PushMessage, PushSubscription
from .wishes import forget

LEASE_S = 60
MOST_TRIES = 6
FIRST_WAIT_S = 30
LONGEST_TEXT = 600
"""A push service takes some 4 KB, encryption included (RFC 8030, section 7.2)."""
IT_ENDED = saying("push.it_ended", "{said} It was over at {end_at}.")
Call = Callable[[Where, str, bool, str], Answer]
logger = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Due:
    """A message whose time has come."""

    site: str
    alarm: str
    team: str
    device: str
    person: str
    waited: bool
    tries: int


def send_next(session: Session, worker: str, now: int, real: int, call: Call) -> Outcome | None:
    """Send the message that is due longest. None: none is due. Nobody is called inside a transaction."""
    due = _claim(session, worker, now, real)
    if due is None:
        return None
    with reading(session):
        ready = _written(session, due, now)
    answer = Answer(Outcome.NEVER) if ready is None else call(*ready)
    with session.begin():
        _settle(session, due, answer, now)
    if ready is not None and answer.outcome is not Outcome.TAKEN:
        logger.warning("a message could not be pushed", extra={"code": answer.outcome.value})
    return answer.outcome


def _claim(session: Session, worker: str, now: int, real: int) -> Due | None:
    waiting = _waiting(now, real)
    with reading(session):
        if session.scalar(waiting.with_only_columns(PushMessage.site)) is None:
            return None
    with session.begin():
        row = session.scalars(waiting.with_for_update(skip_locked=True)).one_or_none()
        if row is None:
            return None
        row.worker, row.until, row.tries = worker, real + LEASE_S, row.tries + 1
        return Due(row.site, row.alarm, row.team, row.device, row.person, row.waited, row.tries)


def _waiting(now: int, real: int) -> Any:
    free = or_(PushMessage.until.is_(None), PushMessage.until <= real)
    return select(PushMessage).where(PushMessage.due <= now, free).order_by(PushMessage.due).limit(1)


def _written(session: Session, due: Due, now: int) -> tuple[Where, str, bool, str] | None:
    """What is sent where; None where there is nothing to tell any more, or nobody to tell it to."""
    where = session.get(PushSubscription, (due.team, due.device), populate_existing=True)
    alarm = session.get(Alarm, (due.site, due.alarm), populate_existing=True)
    person = session.get(Person, (due.team, due.person), populate_existing=True)
    device = session.get(Device, (due.team, due.device), populate_existing=True)
    if where is None or alarm is None or person is None or where.person != due.person:
        return None
    if device is None or device.ended_at is not None:
        return None
    if role_at(session, due.person, due.site) is None or session.get(SiteCopy, due.site) is None:
        return None
    knows = session.get(AlarmLook, (due.site, due.alarm, due.person)) is not None
    if knows or (alarm.ended_at is not None and not due.waited):
        return None
    text = _text(alarm, person, document_in(session, due.site).document, now)
    urgent = alarm.gravity >= Gravity.GRAVE
    return Where(where.endpoint, where.p256dh, where.auth), text, urgent, alarm.id[:32]


def _text(alarm: Alarm, person: Person, document: Document, now: int) -> str:
    """What the service worker shows, in the person's language and units."""
    reader, clock = reader_for(person.language, person.units, person.hour_cycle), clock_of(document.site)
    night = night_at(clock, alarm.opened_at)
    names = SiteNames(document, SiteWall(clock, night.starts - 86_400, max(night.ends, now)))
    told = say(message_in(alarm.said), reader, names)
    if alarm.ended_at is not None:
        told = say(IT_ENDED(said=told, end_at=alarm.ended_at), reader, names)
    shown = {
        "site": alarm.site, "alarm": alarm.id, "title": document.site.name or alarm.site, "text": told[:LONGEST_TEXT],
        "language": reader.language, "gravity": GRAVITIES[alarm.gravity - 1],
    }  # fmt: skip
    return json.dumps(shown, ensure_ascii=False, separators=(",", ":"))


def _settle(session: Session, due: Due, answer: Answer, now: int) -> None:
    row = session.get(PushMessage, (due.site, due.alarm, due.device), with_for_update=True, populate_existing=True)
    if answer.outcome is Outcome.GONE:
        forget(session, due.team, due.device)
    elif row is not None and (answer.outcome is not Outcome.LATER or due.tries >= MOST_TRIES):
        session.delete(row)
    elif row is not None:
        wait = max(answer.wait_s, FIRST_WAIT_S * 2 ** (due.tries - 1))
        session.execute(
            update(PushMessage)
            .where(PushMessage.site == due.site, PushMessage.alarm == due.alarm, PushMessage.device == due.device)
            .values(due=now + wait, worker=None, until=None)
        )
