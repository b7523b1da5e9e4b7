"""A batch of readings as a weather station sends it, read into base units: what is sound, and every fault by its row.

Days are of the site's calendar; hours begin at an instant. Limits are those of the document's weather: whatever is odd
but possible is kept, and flagged by the engine when it is read.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, fields, replace
from datetime import date, datetime, timedelta
from fractions import Fraction

from pengan.engine.clock.zones import SiteClock
from pengan.engine.document.fault import Fault
from pengan.engine.document.fields import Kind, kind_of
from pengan.engine.document.need_tables import Weather
from pengan.engine.document.read import MISSING, UNKNOWN_FIELD
from pengan.engine.document.values import read_value, shown
from pengan.engine.message import Message, saying
from pengan.words.units import BASE_SUFFIXES, QUANTITIES

HOUR_S = 3600
MOST_DAYS, MOST_HOURS = 400, 1000
HOURS_KEPT_DAYS = 60
"""How long hours wait for the rest of their day, and for corrections."""

unknown_unit = saying("weather.unknown_unit", "{given} is no unit of this field. Units are: {choices}.")
no_moment = saying("weather.no_moment", "{given} is no instant. Write it with its offset, as {example}.")
not_on_the_hour = saying("weather.not_on_the_hour", "{given} is not the beginning of an hour on the site's clock.")
not_yet = saying("weather.not_yet", "{given} has not come yet: only what was observed is taken.")
too_old = saying("weather.too_old", "{given} is too long ago: hours are taken up to {days_count} days later.")

_KINDS: Mapping[str, Kind] = {item.name: kind_of(item) for item in fields(Weather)}
DAY_KINDS: Mapping[str, Kind] = {name: _KINDS[name] for name in _KINDS if name not in ("id", "day", "kind", "source")}
DAY_FIELDS = tuple(DAY_KINDS)
HOUR_FIELDS: Mapping[str, Kind] = {
    "mean_degc": _KINDS["high_degc"],
    "high_degc": _KINDS["high_degc"],
    "low_degc": _KINDS["low_degc"],
    "humidity_pct": _KINDS["humidity_pct"],
    "wind_mps": _KINDS["wind_mps"],
    "wind_height_m": _KINDS["wind_height_m"],
    "solar_mj": replace(_KINDS["solar_mj"], most=10),
    "sunshine_h": replace(_KINDS["sunshine_h"], most=1),
    "rain_mm": replace(_KINDS["rain_mm"], most=500),
}
_WATTS = "wm2"
"""Mean W/m² over the row's span, as most sensors give it: 1 W/m² for an hour is 0.0036 MJ/m²."""
_WATTS_MJ = {"days": Fraction(864, 10_000), "hours": Fraction(36, 10_000)}
Values = dict[str, float | None]


@dataclass
class Batch:
    """What could be read: by day, by the instant an hour begins, and what is wrong. None clears a day's field."""

    days: dict[date, Values] = field(default_factory=dict)
    hours: dict[int, Values] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Reader:
    """Reads rows for a site at an instant; `units` names each field's unit."""

    clock: SiteClock
    now: int
    units: Mapping[str, str]
    batch: Batch

    def day(self, place: int, row: Mapping[str, object]) -> None:
        """One row of a day. A row with a fault is left out whole, so that whoever sent it can send it again."""
        where, wrong = f"days.{place}", len(self.batch.faults)
        given, fault = read_value(_KINDS["day"], row["day"]) if "day" in row else (None, MISSING())
        if fault is None and date.fromisoformat(str(given)) > self.clock.wall(self.now).date():
            fault = not_yet(given=str(given))
        if fault is not None:
            self._fault(where, "day", fault)
        values = self._values("days", where, row, DAY_KINDS, "day")
        if len(self.batch.faults) == wrong:
            self.batch.days[date.fromisoformat(str(given))] = values

    def hour(self, place: int, row: Mapping[str, object]) -> None:
        """One row of an hour."""
        where, wrong = f"hours.{place}", len(self.batch.faults)
        starts, fault = self._starts(row.get("starts"))
        if fault is not None:
            self._fault(where, "starts", fault)
        values = self._values("hours", where, row, HOUR_FIELDS, "starts")
        if len(self.batch.faults) == wrong:
            self.batch.hours[starts] = values

    def _starts(self, given: object) -> tuple[int, Message | None]:
        if given is None:
            return 0, MISSING()
        try:
            moment = datetime.fromisoformat(given) if isinstance(given, str) else None
        except ValueError:
            moment = None
        if moment is None or moment.tzinfo is None or not 1970 < moment.year < 9999:
            return 0, no_moment(given=shown(given), example="2026-07-10T13:00:00+01:00")
        starts = int(moment.timestamp())
        if moment.microsecond or (starts + self.clock.offset(starts)) % HOUR_S:
            return 0, not_on_the_hour(given=shown(given))
        if starts + HOUR_S > self.now + HOUR_S // 4:  # a station's clock may be a little fast
            return 0, not_yet(given=shown(given))
        if starts < self.now - timedelta(days=HOURS_KEPT_DAYS).total_seconds():
            return 0, too_old(given=shown(given), days_count=HOURS_KEPT_DAYS)
        return starts, None

    def _values(self, span: str, where: str, row: Mapping[str, object], kinds: Mapping[str, Kind], key: str) -> Values:
        values: Values = {}
        for name, given in row.items():
            if name == key:
                continue
            if name not in kinds:
                self._fault(where, name[:80], UNKNOWN_FIELD(fields=", ".join((key, *kinds))))
                continue
            value, fault = self._value(span, name, given, kinds[name])
            if fault is not None:
                self._fault(where, name, fault)
            values[name] = value
        return values

    def _value(self, span: str, name: str, given: object, kind: Kind) -> tuple[float | None, Message | None]:
        if given is None:
            return None, None
        if name in self.units and isinstance(given, int | float) and not isinstance(given, bool):
            given = in_base(span, name, self.units[name], given)
        value, fault = read_value(kind, given)
        return (value if isinstance(value, int | float) and fault is None else None), fault

    def _fault(self, where: str, name: str, message: Message) -> None:
        self.batch.faults.append(Fault(None, None, f"{where}.{name}", message))


def read_batch(
    clock: SiteClock,
    now: int,
    units: Mapping[str, str],
    days: Sequence[Mapping[str, object]],
    hours: Sequence[Mapping[str, object]],
) -> Batch:
    """The whole batch. A unit that is not known is a fault, and then no row is read by it."""
    batch = Batch()
    batch.faults.extend(
        Fault(None, None, f"units.{name[:80]}", unknown_unit(given=unit[:40], choices=", ".join(units_of(name))))
        for name, unit in units.items()
        if unit not in units_of(name)
    )
    if batch.faults:
        return batch
    reader = _Reader(clock, now, units, batch)
    for place, row in enumerate(days):
        reader.day(place, row)
    for place, row in enumerate(hours):
        reader.hour(place, row)
    return batch


def units_of(name: str) -> tuple[str, ...]:
    """The units a field may be sent in."""
    if name not in HOUR_FIELDS and name not in DAY_FIELDS:
        return ()
    quantity = BASE_SUFFIXES.get(name.rpartition("_")[2])
    own = (name.rpartition("_")[2],) if quantity is None else tuple(QUANTITIES[quantity].units)
    return (*own, _WATTS) if quantity == "radiation" else own


def in_base(span: str, name: str, unit: str, given: float) -> float:
    """A figure in its field's base unit, exact but for the last rounding."""
    if unit == _WATTS:
        return float(Fraction(given) * _WATTS_MJ[span])
    quantity = BASE_SUFFIXES.get(name.rpartition("_")[2])
    if quantity is None:
        return given
    measured = QUANTITIES[quantity].units[unit]
    return float(Fraction(str(given)) * measured.factor + measured.offset)
