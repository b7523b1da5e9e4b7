"""Days of a forecast become the site's weather: edits in the service's name, as those of a weather station are.

A day that was observed is left alone, and so is a forecast that somebody else wrote, or has taken away. A record is
only written anew where the forecast has moved by more than matters to a planting: the history stays readable.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from types import MappingProxyType

from pengan.engine.document.values import read_value

from ...sync.groups import Values as Record
from ...sync.groups import record_values
from ...sync.working import Held, Key
from ..readings import DAY_KINDS, Values

TABLE = "weather"
MATTERS: Mapping[str, float] = MappingProxyType(
    {
        "high_degc": 1.0,
        "low_degc": 1.0,
        "dew_degc": 1.0,
        "humidity_pct": 5.0,
        "wind_mps": 0.5,
        "solar_mj": 1.0,
        "rain_mm": 1.0,
    }
)
"""By how much a figure has to move (common practice, no source: each is worth some tenths of a millimetre a day)."""


def wanted(records: Mapping[Key, Held], days: Mapping[date, Values], source: str, height_m: float) -> dict[Key, Record]:
    """The records that these days change, as they should be."""
    known = {
        (str(held.values["day"]), str(held.values.get("kind", "observed"))): key
        for key, held in records.items()
        if key[0] == TABLE and not held.removed
    }
    found: dict[Key, Record] = {}
    for day, values in days.items():
        if (day.isoformat(), "observed") in known:
            continue
        key = known.get((day.isoformat(), "forecast")) or (TABLE, f"forecast.{day}")
        held = records.get(key)
        if held is not None and (
            held.removed or held.values.get("source") != source or not _moved(held.values, values)
        ):
            continue
        found[key] = _record(day, values, source, height_m)
    return found


def _moved(before: Record, values: Values) -> bool:
    for name, least in MATTERS.items():
        old, new = before.get(name), values.get(name)
        if (old is None) != (new is None):
            return True
        if isinstance(old, int | float) and new is not None and abs(new - old) >= least:
            return True
    return False


def _record(day: date, values: Values, source: str, height_m: float) -> Record:
    height = {"wind_height_m": height_m} if "wind_mps" in values else {}
    given = {"day": day.isoformat(), "kind": "forecast", "source": source, **values, **height}
    return record_values(TABLE, given)


def sound(days: Mapping[date, Values]) -> dict[date, Values]:
    """The days without figures that the weather table would not take: what cannot be is not told."""
    kept = {
        day: {name: value for name, value in values.items() if read_value(DAY_KINDS[name], value)[1] is None}
        for day, values in days.items()
    }
    return {day: values for day, values in kept.items() if values}
