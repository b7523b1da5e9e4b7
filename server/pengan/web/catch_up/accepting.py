"""Somebody accepts the rest of tonight: it is kept with who and when, and tonight is planned from it at once.

It may come late, from a phone that had no signal, and doubled: an id is taken once.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlalchemy import update
from sqlalchemy.orm import Session

from pengan.engine.catch_up.rest import Way
from pengan.engine.clock.nights import night_at
from pengan.engine.clock.zones import clock_of
from pengan.engine.document.document import Document
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.message import saying

from ..ahead.models import PlanningJob
from ..ahead.queue import AT_ONCE, NIGHTS, lock_for_sheets
from ..journal.names import PERSON
from ..journal.storing import store
from ..journal.wording import saying_so
from ..people.rights import Actor, require
from ..problems import Problem
from ..sites.operations import document_in
from .kept import Accepted, keep, read_promises
from .models import CaughtUp

AHEAD_S = 15 * 60
"""A phone's clock may be that far ahead of the server's, as for the journal."""

other_person = saying("catch_up.other_person", "Somebody else accepted this. It waits on this phone for that person.")
night_over = saying("catch_up.night_over", "That night is over: what was accepted for it changes nothing any more.")
not_in_night = saying("catch_up.not_in_night", "That moment does not lie in that night, or is still to come.")
unknown_part = saying("catch_up.unknown_part", "The site has no such supply or controller.")
ACCEPTED_CLOCK = saying("catch_up.accepted_clock", "Accepted the rest of the night: it keeps to the clock.")
ACCEPTED_RECOVER = saying(
    "catch_up.accepted_recover", "Accepted the rest of the night: what was missed is made up for, as far as it fits."
)


@dataclass(frozen=True, slots=True)
class Acceptance:
    """What somebody accepted, as a phone tells it; see `models.py`."""

    id: str
    night: str
    at: int
    way: Way
    effort: int
    promised: tuple[Mapping[str, Any], ...] = ()


def accept(session: Session, actor: Actor, site: str, given: Acceptance, now: int, person: str) -> None:
    """Keep it and have tonight planned. The same again, even at the same moment, changes nothing.

    Raises `Problem` unless the actor may edit the site and it is their own, and where the night is over.
    """
    if person != actor.person:
        raise Problem(401, other_person())
    with session.begin():
        require(session, actor, site, "edit")
        lock_for_sheets(session, site)
        if session.get(CaughtUp, (site, given.night, given.id)) is None:
            _hold_to_tonight(document_in(session, site).document, given, now)
            if keep(session, site, given.night, _accepted(given, PERSON + actor.person, now), now):
                wake(session, site)
    with session.begin():  # of its own, so that whoever fills the journal never keeps a night waiting
        store(session, site, [_note(given, PERSON + actor.person, now)], now)


def _hold_to_tonight(document: Document, given: Acceptance, now: int) -> None:
    tonight = night_at(clock_of(document.site), now)
    if date.fromisoformat(given.night) < tonight.date:
        raise Problem(409, night_over())
    if given.night != tonight.date.isoformat() or not tonight.starts <= given.at <= now + AHEAD_S:
        raise Problem(422, not_in_night())
    for one in read_promises(given.promised):
        known = one.supply in {None, *document.supplies} and one.controller in {None, *document.controllers}
        if not known:
            raise Problem(422, unknown_part())


def _accepted(given: Acceptance, by: str, now: int) -> Accepted:
    promised = read_promises(given.promised)
    return Accepted(given.id, min(given.at, now), given.way, given.effort, promised, by, worked_out=False)


def wake(session: Session, site: str) -> None:
    """Have the site planned now. One that nobody has planned yet is in nobody's queue, and found there soon."""
    job = update(PlanningJob).where(PlanningJob.site == site)
    session.execute(job.values(due=AT_ONCE, stage=NIGHTS, tries=0))


def _note(given: Acceptance, by: str, now: int) -> Entry:
    said = ACCEPTED_CLOCK if given.way is Way.KEEP else ACCEPTED_RECOVER
    return saying_so(Entry(f"catch-up-{given.id}", min(given.at, now), Kind.NOTE, by), said())
