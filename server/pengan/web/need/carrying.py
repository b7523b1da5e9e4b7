"""The balance moves on: what the night past brought is written down, and the soil's water of the new day with it.

A hydrozone has one record of soil water that is worked out; each noon it takes on the new day. It is worked out from
what somebody last measured, over all the weather and all nights since, so that an observation that comes late changes
every day from its own on. A night is what the journal tells that came, as far as it told within a day after the night
(see `came.py`). All of it may run twice, or beside another process: what is the same already is left alone.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from sqlalchemy import update
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.clock.nights import night_at
from pengan.engine.clock.zones import clock_of
from pengan.engine.document.document import Document
from pengan.engine.need.site.watered import mornings

from ..ahead.queue import queue, upsert
from ..database import reading
from ..sites.operations import SiteDocument
from ..sync.groups import Values, record_values
from ..sync.importing import edit_records
from ..sync.nudges import nudge
from ..sync.taking import Sender
from ..sync.working import Held, Key
from .came import as_they_came, told_late
from .models import NightWatering
from .starts import earliest_starts
from .waterings import Watering, as_watered, kept_waterings, sheets_in_force, since

TABLE = "soil_water"
PLACES = 2
"""Hundredths of a millimetre: less is not worth an edit."""
Mornings = Mapping[str, Mapping[date, float]]


@dataclass(frozen=True, slots=True)
class _Past:
    """A site's past nights: those written down, those that are new, those of which other things were told since, and
    the mornings that follow from all."""

    site: str
    today: date
    kept: Sequence[Watering]
    new: Sequence[Watering]
    changed: Sequence[Watering]
    mornings: Mornings


def carry_on(session: Session, found: SiteDocument, now: int) -> bool:
    """Bring a site's balances up to the day that `now` falls in; whether the document has changed."""
    document = found.document
    if not any(turn.mode == "need" for turn in document.turns.values()):
        return False
    today = night_at(clock_of(document.site), now).date
    past = _past(session, found.site, document, today)
    with session.begin():
        _write_down(session, past)
        copy = edit_records(session, found.site, lambda records: _wanted(records, past), Sender("", None, Instant(now)))
        if copy is not None:
            queue(session, found.site, copy.revision)
    if copy is not None:
        nudge(found.site, copy.counter)
    return copy is not None


def _past(session: Session, site: str, document: Document, today: date) -> _Past:
    first, last = since(today), today - timedelta(days=1)
    with reading(session):
        kept = kept_waterings(session, site, first, last)
        written = {one.night for one in kept if one.inflow is not None or one.volume_l}
        sheets = [one for one in sheets_in_force(session, site, first, last) if one[0] not in written]
        new = as_they_came(session, document, sheets)
        before = max((night for night in written if new and night < last), default=None)
        changed = _changed(kept, told_late(session, document, before)) if before else []
    found = as_watered([*kept, *new, *changed])
    starts = earliest_starts(document, kept, last)
    return _Past(site, today, kept, new, changed, mornings(document, last, found, starts))


def _changed(kept: Sequence[Watering], anew: Sequence[Watering]) -> list[Watering]:
    """Of a night's hydrozones those that were brought something else than was written down."""
    known = {(one.hydrozone, one.night): one for one in kept}
    found = ((known.get((one.hydrozone, one.night)), one) for one in anew)
    return [
        one if before is None else replace(one, depletion_mm=before.depletion_mm)
        for before, one in found
        if before is None or (before.volume_l, before.inflow) != (one.volume_l, one.inflow)
    ]


def _write_down(session: Session, past: _Past) -> None:
    """What is new of nights, and of mornings what has changed."""
    known = {(one.hydrozone, one.night): one for one in past.kept}
    for one in past.new:
        if (one.hydrozone, one.night) not in known:
            _keep(session, past.site, one)
            known[one.hydrozone, one.night] = one
    for one in past.changed:
        _keep(session, past.site, one)
        known[one.hydrozone, one.night] = one
    for zone, days in past.mornings.items():
        for day, depletion in days.items():
            _keep_morning(session, past.site, known, (zone, day - timedelta(days=1)), round(depletion, 4))


def _keep_morning(
    session: Session, site: str, known: Mapping[tuple[str, date], Watering], key: tuple[str, date], depletion: float
) -> None:
    one = known.get(key)
    if one is None:
        _keep(session, site, Watering(key[0], key[1], 0.0, None, depletion))
    elif one.depletion_mm is None or abs(one.depletion_mm - depletion) > 1e-4:
        row = update(NightWatering).where(NightWatering.site == site, NightWatering.hydrozone == key[0])
        night = row.where(NightWatering.night == key[1].isoformat())
        session.execute(night.values(depletion_mm=depletion), execution_options={"synchronize_session": False})


def _keep(session: Session, site: str, one: Watering) -> None:
    depth = one.inflow
    key = {"site": site, "hydrozone": one.hydrozone, "night": one.night.isoformat()}
    given = {
        "volume_l": one.volume_l,
        "applied_mm": depth and depth.applied_mm,
        "ran_off_mm": depth and depth.ran_off_mm,
        "uneven_mm": depth and depth.uneven_mm,
        "depletion_mm": one.depletion_mm,
    }
    upsert(session, NightWatering, key, given)


def _wanted(records: Mapping[Key, Held], past: _Past) -> dict[Key, Values]:
    """Each hydrozone's worked-out record on today. What somebody said of today's soil holds beside no other."""
    latest: dict[str, tuple[str, Key]] = {}
    told: set[str] = set()
    for key, held in records.items():
        if key[0] != TABLE or held.removed:
            continue
        zone, day = str(held.values["hydrozone"]), str(held.values["day"])
        if held.values.get("how") == "worked_out":
            latest[zone] = max(latest.get(zone, ("", key)), (day, key))
        elif day == past.today.isoformat():
            told.add(zone)
    wanted: dict[Key, Values] = {}
    for zone, days in past.mornings.items():
        owner, (day, mine) = records.get(("hydrozones", zone)), latest.get(zone, ("", _own(records, zone)))
        if zone in told or owner is None or owner.removed or day > past.today.isoformat():
            continue
        wanted[mine] = _record(zone, past.today, days[past.today])
    return wanted


def _own(records: Mapping[Key, Held], zone: str) -> Key:
    """A new record's key: one that nobody has used, a removed one's not either."""
    names = (f"worked.{zone}"[:60] + (f".{number}" if number else "") for number in range(len(records) + 1))
    return next((TABLE, name) for name in names if (TABLE, name) not in records)


def _record(zone: str, day: date, depletion: float) -> Values:
    given = {"hydrozone": zone, "day": day.isoformat(), "depletion_mm": round(depletion, PLACES), "how": "worked_out"}
    return record_values(TABLE, given)
