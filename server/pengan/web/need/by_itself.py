"""Seasonal percentages that a program takes by itself, once a day, within the limits it was given."""

from __future__ import annotations

from collections.abc import Mapping

from sqlalchemy import select
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.clock.nights import night_at
from pengan.engine.clock.zones import clock_of
from pengan.engine.need.site.suggestions import suggestions

from ..ahead.queue import queue
from ..database import reading
from ..sites.operations import SiteDocument
from ..sync.groups import Values, with_parts
from ..sync.importing import edit_records
from ..sync.models import Edit
from ..sync.nudges import nudge
from ..sync.taking import Sender
from ..sync.working import Held, Key

USUAL_PCT = 100


def take_suggestions(session: Session, found: SiteDocument, now: int) -> bool:
    """Give each program that may the percentage that is suggested; whether the document has changed.

    A program that the server has changed since noon is left alone: somebody may have set it back.
    """
    if not any(program.seasonal_by_itself_pct for program in found.document.programs.values()):
        return False
    night = night_at(clock_of(found.document.site), now)
    wanted = {
        one.program: (one.from_pct, one.to_pct) for one in suggestions(found.document, night.date)[0] if one.by_itself
    }
    with reading(session):
        done = _taken_since(session, found.site, night.starts)
    left = {program: step for program, step in wanted.items() if program not in done}
    if not left:
        return False
    with session.begin():
        copy = edit_records(session, found.site, lambda records: _steps(records, left), Sender("", None, Instant(now)))
        if copy is not None:
            queue(session, found.site, copy.revision)
    if copy is not None:
        nudge(found.site, copy.counter)
    return copy is not None


def _taken_since(session: Session, site: str, instant: int) -> set[str]:
    own = select(Edit.record).where(
        Edit.site == site, Edit.record_table == "programs", Edit.field == "seasonal_pct", Edit.person == ""
    )
    return set(session.scalars(own.where(Edit.at >= instant, Edit.outcome == "taken")))


def _steps(records: Mapping[Key, Held], left: Mapping[str, tuple[int, int]]) -> dict[Key, Values]:
    """Only where the percentage is still the one that the suggestion was made for."""
    wanted: dict[Key, Values] = {}
    for program, (before, after) in left.items():
        held = records.get(("programs", program))
        if held is not None and not held.removed and held.values.get("seasonal_pct", USUAL_PCT) == before:
            now = None if after == USUAL_PCT else after
            wanted["programs", program] = with_parts(held.values, {"seasonal_pct": now})
    return wanted
