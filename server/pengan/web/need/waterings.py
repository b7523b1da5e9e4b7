"""What past nights brought each hydrozone: as it was written down, else as the last sheet in force says.

What is written down is what came, as far as the journal told (see `came.py`). A night that nobody wrote down, at sites
without a turn by need, counts as run as its sheet had it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy import select
from sqlalchemy.orm import Session

from pengan.engine.document.document import Document
from pengan.engine.need.days import Inflow
from pengan.engine.need.site.nights import Watered
from pengan.engine.need.site.watered import watered_by

from ..nights.models import StoredSheet
from ..nights.stored import sheet_in
from .models import NightWatering

KEPT_DAYS = 400
"""How far back balances are worked out again, and night sheets are kept."""


@dataclass(frozen=True, slots=True)
class Watering:
    """One hydrozone's night. `inflow` is None where no station of it has a rate."""

    hydrozone: str
    night: date
    volume_l: float
    inflow: Inflow | None
    depletion_mm: float | None = None


def waterings(session: Session, site: str, document: Document, first: date, last: date) -> list[Watering]:
    """All that is known of these nights, in order. Belongs to the caller's transaction."""
    kept = kept_waterings(session, site, first, last)
    written = {one.night for one in kept}
    unwritten = sheets_in_force(session, site, first, last)
    found = [*kept, *(one for night, sheet in unwritten if night not in written for one in of_sheet(document, sheet))]
    return sorted(found, key=lambda one: (one.night, one.hydrozone))


def kept_waterings(session: Session, site: str, first: date, last: date) -> list[Watering]:
    """What was written down of these nights."""
    rows = session.scalars(
        select(NightWatering)
        .where(NightWatering.site == site)
        .where(NightWatering.night.between(first.isoformat(), last.isoformat()))
        .order_by(NightWatering.night, NightWatering.hydrozone)
    )
    return [_read(row) for row in rows]


def _read(row: NightWatering) -> Watering:
    depth = None if row.applied_mm is None else Inflow(row.applied_mm, row.ran_off_mm or 0.0, row.uneven_mm or 0.0)
    return Watering(row.hydrozone, date.fromisoformat(row.night), row.volume_l, depth, row.depletion_mm)


def sheets_in_force(session: Session, site: str, first: date, last: date) -> Iterator[tuple[date, StoredSheet]]:
    """Of each of these nights the sheet that phones had last; one that was only asked for where there is no other."""
    rows = session.scalars(
        select(StoredSheet)
        .where(StoredSheet.site == site, StoredSheet.night.between(first.isoformat(), last.isoformat()))
        .order_by(StoredSheet.night, StoredSheet.number.is_not(None), StoredSheet.revision, StoredSheet.number)
    )
    newest = {row.night: row for row in rows}
    yield from ((date.fromisoformat(night), newest[night]) for night in sorted(newest))


def of_sheet(document: Document, stored: StoredSheet) -> list[Watering]:
    """What a stored sheet brings each hydrozone if it runs as it stands."""
    night = date.fromisoformat(stored.night)
    brought = watered_by(document, sheet_in(stored).runs)
    return [Watering(zone, night, one.volume_l, one.inflow) for zone, one in brought.items()]


def as_watered(found: list[Watering]) -> Watered:
    """Their depths, as the engine asks for them."""
    known: dict[str, dict[date, Inflow]] = {}
    for one in found:
        if one.inflow is not None:
            known.setdefault(one.hydrozone, {})[one.night] = one.inflow
    return known


def since(night: date) -> date:
    """The first night that is looked at for a balance up to this one."""
    return night - timedelta(days=KEPT_DAYS)
