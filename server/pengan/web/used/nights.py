"""Single nights for whoever reckons with them: what the journal told of one, and what came in those reckoned up."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from pengan.engine.clock.nights import Night
from pengan.engine.journal.before import OF_OUTAGES
from pengan.engine.journal.entry import Entry, Kind

from ..journal.inserting import ENTRIES
from ..journal.storing import entries_in
from .models import UsedNight, UsedWater

DAY_S = 86_400
OUTAGE_DAYS = 30
"""How far back an outage may have begun that was never told to be over."""


def told_of_night(session: Session, site: str, night: Night, kinds: Collection[Kind]) -> list[Entry]:
    """A night's entries of these kinds, after the words about outages of the days before it. Inside a transaction."""
    before = _of_kinds(session, site, night.starts - OUTAGE_DAYS * DAY_S, night.starts, OF_OUTAGES)
    return [*before, *_of_kinds(session, site, night.starts, night.ends, kinds)]


def _of_kinds(session: Session, site: str, starts: int, ends: int, kinds: Collection[Kind]) -> list[Entry]:
    """In the order of occurrence, which the database is not asked for: to have it, it would go through all that
    happened meanwhile, readings and all, instead of the few of these kinds."""
    wanted = (
        select(ENTRIES)
        .where(ENTRIES.c.site == site, ENTRIES.c.kind.in_([kind.value for kind in kinds]))
        .where(ENTRIES.c.at >= starts, ENTRIES.c.at < ends)
    )
    return entries_in(sorted(session.execute(wanted), key=lambda row: (row.at, row.number)))


def came_by_hydrozone(session: Session, site: str, first: date, last: date) -> dict[tuple[date, str], float]:
    """Litres that came to each hydrozone in nights of which something was told. Belongs to the caller's transaction."""
    came = func.sum(UsedWater.delivered_ml + UsedWater.assumed_ml + UsedWater.beyond_ml)
    told = select(UsedNight.night).where(UsedNight.site == site, UsedNight.told.is_(True))
    rows = (
        select(UsedWater.night, UsedWater.hydrozone, came.label("came"))
        .where(UsedWater.site == site, UsedWater.night.between(first.isoformat(), last.isoformat()))
        .where(UsedWater.night.in_(told), UsedWater.hydrozone != "")
        .group_by(UsedWater.night, UsedWater.hydrozone)
    )
    return {(date.fromisoformat(row.night), row.hydrozone): int(row.came) / 1000 for row in session.execute(rows)}
