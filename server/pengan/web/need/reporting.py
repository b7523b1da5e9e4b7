"""What a weather station sends becomes the site's weather: edits in the station's name, so that the history tells."""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from sqlalchemy import update
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.clock.zones import clock_of
from pengan.engine.document.fault import Fault

from ..database import reading
from ..problems import Problem, fields_wrong
from ..sites.models import SiteCopy
from ..sites.operations import document_in
from ..sync.groups import Values as Record
from ..sync.groups import record_values, with_parts
from ..sync.importing import edit_records
from ..sync.nudges import nudge
from ..sync.taking import Sender
from ..sync.working import Held, Key
from .hours import gathered, keep_hours
from .models import WeatherStation
from .readings import Batch, Values, read_batch
from .stations import Reporter

TABLE = "weather"
Row = Mapping[str, object]


@dataclass(frozen=True, slots=True)
class Taken:
    """How many rows were taken, the days that have changed by them, and what is wrong with the other rows."""

    days: int
    hours: int
    changed: tuple[date, ...]
    faults: tuple[Fault, ...]


def take_readings(
    session: Session,
    sender: Reporter,
    units: Mapping[str, str],
    days: Sequence[Row],
    hours: Sequence[Row],
    now: Instant,
) -> Taken:
    """Take in what is sound. Raises a 422 `Problem` with every fault where there are faults and nothing is sound."""
    with reading(session):
        clock = clock_of(document_in(session, sender.site).document.site)
    batch = read_batch(clock, now, units, days, hours)
    if batch.faults and not batch.days and not batch.hours:
        raise Problem(422, fields_wrong(), batch.faults)
    with session.begin():
        copy, changed = _write(session, sender, batch, now)
    if copy is not None:
        nudge(sender.site, copy.counter)
    return Taken(len(batch.days), len(batch.hours), changed, tuple(batch.faults))


def _write(session: Session, sender: Reporter, batch: Batch, now: Instant) -> tuple[SiteCopy | None, tuple[date, ...]]:
    """A day that is sent as one holds over the same day's hours that come with it."""
    heard = update(WeatherStation).where(WeatherStation.team == sender.team, WeatherStation.id == sender.id)
    session.execute(heard.values(heard_at=now), execution_options={"synchronize_session": False})
    keep_hours(session, sender.site, sender.id, batch.hours, now)
    session.flush()
    document = document_in(session, sender.site).document
    by_hour = gathered(session, document, clock_of(document.site), sender.id, batch.hours)
    days = {day: by_hour.get(day, {}) | batch.days.get(day, {}) for day in sorted({*by_hour, *batch.days})}
    changed: list[date] = []
    by = Sender(sender.id, None, now)
    copy = edit_records(
        session, sender.site, lambda records: _wanted(records, days, batch.days, sender.name, changed), by
    )
    return copy, tuple(changed)


def _wanted(
    records: Mapping[Key, Held],
    days: Mapping[date, Values],
    sent: Container[date],
    station: str,
    changed: list[date],
) -> dict[Key, Record]:
    """Each day's record with what came; what the station does not send of it stays as it is."""
    known = {
        str(held.values["day"]): key
        for key, held in records.items()
        if key[0] == TABLE and not held.removed and held.values.get("kind", "observed") == "observed"
    }
    wanted: dict[Key, Record] = {}
    for day, values in days.items():
        key = known.get(day.isoformat()) or _own(records, day)
        before = records[key].values if key in records and not records[key].removed else {}
        new = record_values(TABLE, {name: value for name, value in values.items() if value is not None})
        cleared = {name: None for name in values if name not in new}
        if before.get("source") != station and day not in sent:
            cleared = {}  # what hours cannot tell is taken back only from what the station itself had said
        after = with_parts({"day": day.isoformat(), **before}, {**cleared, **new})
        if after != before:
            wanted[key] = with_parts(after, {"source": station})
            changed.append(day)
    return wanted


def _own(records: Mapping[Key, Held], day: date) -> Key:
    """A new record's key. One that was removed is restored under its own."""
    names = (f"observed.{day}" + (f".{number}" if number else "") for number in range(len(records) + 1))
    return next(
        key for name in names if (key := (TABLE, name)) not in records or records[key].values.get("day") == str(day)
    )
