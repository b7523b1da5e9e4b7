"""Alarms read back: those that are open first, or in the order in which they changed, for whoever keeps a copy."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import timedelta
from typing import Any, Literal

from sqlalchemy import ColumnElement, Select, and_, or_, select
from sqlalchemy.orm import Session

from pengan.engine.clock.nights import night_at
from pengan.engine.clock.zones import SiteClock, clock_of
from pengan.engine.document.document import Document
from pengan.engine.message import saying
from pengan.words.names import SiteNames
from pengan.words.wall import SiteWall

from ..database import reading
from ..people.rights import Actor, require
from ..problems import Problem
from ..sites.operations import document_in
from ..sync.answering import names_of
from .models import Alarm, AlarmLook, Watched
from .names import MOST_ON_A_PAGE

COPIED_NIGHTS = 7
"""A fresh copy holds what is open, and what the latest nights showed."""
OPEN, ENDED = "0", "1"
State = Literal["open", "ended", "all"]

no_such_page = saying("alarm.no_such_page", "{given} is no page. Give back the “next” of the page before.")


@dataclass(frozen=True, slots=True)
class Seen:
    """Who has seen an alarm, and when first."""

    person: str
    at: int


@dataclass(frozen=True, slots=True)
class Page:
    """Alarms with who has seen them, people's names where the reader may know them, and how to go on.

    `newest` is the count of the site's changes when this was read; `until` the instant up to which open ones last.
    """

    alarms: Sequence[Alarm]
    seen: Mapping[str, Sequence[Seen]]
    names: Mapping[str, str]
    next: str | None
    newest: int
    until: int
    document: Document
    clock: SiteClock

    def spoken(self) -> SiteNames:
        """The names of records and the site's clock, over the time that these alarms are about."""
        first = min((alarm.opened_at for alarm in self.alarms), default=self.until)
        return SiteNames(self.document, SiteWall(self.clock, first - 8 * 86_400, self.until + 86_400))


def alarms_at(
    session: Session, actor: Actor | None, site: str, state: State, page: str | None, limit: int, now: int
) -> Page:
    """A page: open ones first, each kind with the newest first. Raises `Problem` where the actor may not read."""
    wanted = select(Alarm).where(Alarm.site == site)
    if state != "all":
        wanted = wanted.where(Alarm.ended_at.is_(None) if state == "open" else Alarm.ended_at.is_not(None))
    if page is not None:
        wanted = wanted.where(_beyond(page))
    order = (Alarm.ended_at.is_not(None), Alarm.opened_at.desc(), Alarm.id)
    with reading(session):
        role = require(session, actor, site, "read")
        found = session.scalars(wanted.order_by(*order).limit(limit + 1)).all()
        last = found[limit - 1] if len(found) > limit else None
        return _page(session, site, found[:limit], None if last is None else _place(last), now, role is not None)


def alarms_since(session: Session, actor: Actor | None, site: str, since: int, limit: int, now: int) -> Page:
    """A page of those that changed after the count `since`. `next` is the count to go on from; None: no more."""
    with reading(session):
        role = require(session, actor, site, "read")
        return changed_since(session, site, since, limit, now, role is not None)


def changed_since(session: Session, site: str, since: int, limit: int, now: int, with_people: bool) -> Page:
    """The same inside the caller's transaction, who has asked for the right to read."""
    wanted = select(Alarm).where(Alarm.site == site, Alarm.change > since).order_by(Alarm.change)
    if since == 0:
        wanted = wanted.where(_worth_copying(session, site, now))
    found = session.scalars(wanted.limit(limit + 1)).all()
    after = str(found[limit - 1].change) if len(found) > limit else None
    return _page(session, site, found[:limit], after, now, with_people)


def alarms_for_copy(session: Session, site: str, since: int, now: int, with_people: bool) -> Page | None:
    """What a phone's copy lacks; None where nothing has changed. Inside the caller's transaction."""
    newest = newest_change(session, site)
    if since == newest:
        return None
    return changed_since(session, site, since if since < newest else 0, MOST_ON_A_PAGE, now, with_people)


def one_alarm(session: Session, actor: Actor, site: str, alarm: str, now: int) -> Page:
    """One alarm as a page, for whoever has just done something about it."""
    with reading(session):
        require(session, actor, site, "note")
        return _page(session, site, [session.get_one(Alarm, (site, alarm))], None, now, True)


def newest_change(session: Session, site: str) -> int:
    """The count of the changes of the site's alarms. Inside a transaction."""
    return session.scalar(select(Watched.changes).where(Watched.site == site)) or 0


def _worth_copying(session: Session, site: str, now: int) -> ColumnElement[bool]:
    clock = clock_of(document_in(session, site).document.site)
    first = night_at(clock, now).date - timedelta(days=COPIED_NIGHTS)
    return or_(Alarm.ended_at.is_(None), Alarm.last_night >= first.isoformat())


def _page(session: Session, site: str, alarms: Sequence[Alarm], after: str | None, now: int, with_people: bool) -> Page:
    ids = [alarm.id for alarm in alarms]
    looks: Select[Any] = select(AlarmLook).where(AlarmLook.site == site, AlarmLook.alarm.in_(ids))
    seen: dict[str, list[Seen]] = {}
    if with_people:
        for look in session.scalars(looks.order_by(AlarmLook.at, AlarmLook.person)):
            seen.setdefault(look.alarm, []).append(Seen(look.person, look.at))
    people = {one.person for ones in seen.values() for one in ones}
    people |= {id for alarm in alarms for id in (alarm.explained_by, _person_in(alarm.ended_by)) if id}
    names = names_of(session, people) if with_people else {}
    document = document_in(session, site).document
    newest = newest_change(session, site)
    return Page(alarms, seen, names, after, newest, now, document, clock_of(document.site))


def _person_in(by: str | None) -> str | None:
    return by.removeprefix("person:") if by and by.startswith("person:") else None


def _place(alarm: Alarm) -> str:
    return f"{OPEN if alarm.ended_at is None else ENDED}.{alarm.opened_at}.{alarm.id}"


def _beyond(page: str) -> ColumnElement[bool]:
    state, at, id = [*page.split("."), "", ""][:3]
    if state not in (OPEN, ENDED) or not (at.isascii() and at.isdigit() and len(at) < 16):
        raise Problem(422, no_such_page(given=page[:40]))
    after = or_(Alarm.opened_at < int(at), and_(Alarm.opened_at == int(at), Alarm.id > id))
    is_open = Alarm.ended_at.is_(None)
    return or_(and_(is_open, after), ~is_open) if state == OPEN else and_(~is_open, after)
