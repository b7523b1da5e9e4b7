"""Notices about the nights to come, kept until their night is over: clock changes, and what edits did to nights."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy import delete, select
from sqlalchemy.orm import Session

from pengan.engine.clock.nights import night_at, night_on
from pengan.engine.clock.zones import SiteClock
from pengan.engine.message import Message
from pengan.engine.plan.sheet import NightSheet

from ..sync.models import Edit
from .models import NightNotice
from .told import CLOCK_CODES, Told, clock_told

TAKEN = "taken"


@dataclass(frozen=True, slots=True)
class Notice:
    """One thing to know about a night. `people` made the edits that brought it about; empty for what nobody did."""

    night: str
    message: Message
    people: tuple[str, ...]
    revision: int | None
    made_at: int

    def as_json(self) -> dict[str, object]:
        """The shape it has in answers."""
        return {
            "night": self.night,
            "message": self.message.as_json(),
            "people": list(self.people),
            "revision": self.revision,
            "made_at": self.made_at,
        }


def keep_clock_changes(session: Session, site: str, clock: SiteClock, nights: list[date], now: int) -> None:
    """Keep a notice of each change of the clock in these nights; one that no longer comes is taken back."""
    first, last = night_on(clock, nights[0]), night_on(clock, nights[-1])
    changes = {change.at: change for change in clock.changes(first.starts, last.ends)}
    outdated = delete(NightNotice).where(NightNotice.site == site, NightNotice.code.in_(CLOCK_CODES))
    session.execute(outdated.where(NightNotice.subject.not_in(changes)))
    for at, change in changes.items():
        night = night_at(clock, at).date.isoformat()
        _keep(session, site, night, clock_told(night, change), at, (), now)


def keep_changed_nights(
    session: Session,
    site: str,
    nights: Iterable[tuple[NightSheet, NightSheet]],
    told: Told,
    *,
    after: int,
    revision: int,
    now: int,
) -> None:
    """Keep notices of nights, each with the sheet it had at revision `after`, and the one it has at `revision`.

    Where nobody is named as the editor, somebody at the server put another document in place: that is told to all.
    """
    people = editors(session, site, after, revision)
    for before, sheet in nights:
        for message in told.of(before, sheet):
            _keep(session, site, sheet.night, message, revision, people, now)


def editors(session: Session, site: str, after: int, revision: int) -> tuple[str, ...]:
    """The people whose edits led from one revision to another."""
    found = select(Edit.person).distinct().where(Edit.site == site, Edit.outcome == TAKEN)
    people = session.scalars(found.where(Edit.revision > after, Edit.revision <= revision))
    return tuple(sorted(person for person in people if person))


def drop_past(session: Session, site: str, tonight: date) -> None:
    """Let go of notices about nights that are over. Last night's stay one more day: nobody may have looked."""
    oldest = (tonight - timedelta(1)).isoformat()
    session.execute(delete(NightNotice).where(NightNotice.site == site, NightNotice.night < oldest))


def notices_of(session: Session, site: str, person: str | None) -> list[Notice]:
    """The site's notices by night, without those of nobody's but this person's own edits: they were there."""
    kept = select(NightNotice).where(NightNotice.site == site)
    rows = session.scalars(kept.order_by(NightNotice.night, NightNotice.subject, NightNotice.code))
    return [notice for row in rows if (notice := _read(row)).people != (person,)]


def _keep(
    session: Session, site: str, night: str, message: Message, subject: int, people: tuple[str, ...], now: int
) -> None:
    """Keep a notice; one that is there already keeps the time at which it was first made."""
    kept = session.get(NightNotice, (site, night, message.code, subject))
    if kept is None:
        kept = NightNotice(site=site, night=night, code=message.code, subject=subject, made_at=now)
        session.add(kept)
    kept.params, kept.people = json.dumps(dict(message.params)), json.dumps(people)


def _read(row: NightNotice) -> Notice:
    params: Mapping[str, str | int | float | None] = json.loads(row.params)
    revision = None if row.code in CLOCK_CODES else row.subject
    return Notice(row.night, Message(row.code, params), tuple(json.loads(row.people)), revision, row.made_at)
