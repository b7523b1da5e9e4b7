"""Each day's reference evapotranspiration by the best rung its weather reaches, and which rung that was.

From the top: `given` (worked out elsewhere and handed in), `hourly` (the sum of a day of complete hours), `full`
(Penman-Monteith from temperatures, humidity, radiation or sunshine, and wind), `filled` (the same with something
estimated by FAO-56 chapter 3), `temperature` (Hargreaves, FAO-56 eq. 52), `normal` (the month's normal) and `none`.
What `quality` bars is not used, so an impossible reading shows as a lower rung with a flag beside it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import fsum, radians

from ..message import Message, saying
from . import air, filling, radiation
from .filling import ASSUMED, Filling
from .hargreaves import hargreaves_mm
from .normals import Normals
from .penman import FAO56, Field, Form, Worked, reference_day, reference_hour
from .quality import Flag, flags_of, hour_flags, usable
from .weather import DayWeather, HourWeather

RUNGS = ("given", "hourly", "full", "filled", "temperature", "normal", "none")
HOURS = 24
"""Of a day on which clocks do not change; the caller's clock knows the others."""

NOTHING_KNOWN = saying(
    "need.no_weather", "{day_date}: no weather and no normal for the month. The water balance stops before this day."
)
HOURS_MISSING = saying(
    "need.hours_missing",
    "{day_date}: of the day's hours {hours_count} can be used; they are not added up, as some are missing.",
)


@dataclass(frozen=True, slots=True)
class ReferenceDay:
    """One day: millimetres (None on the rung `none`), the rung, how each input was come by, and what is odd."""

    day: date
    et_mm: float | None
    rung: str
    hows: tuple[str, ...] = ()
    source: str = ""
    row: str = ""
    worked: Worked | None = None
    flags: tuple[Flag, ...] = ()
    messages: tuple[Message, ...] = ()


@dataclass(frozen=True, slots=True)
class Station:
    """The weather station and how its days are worked out."""

    field: Field
    form: Form = FAO56
    filling: Filling = Filling()
    normals: Normals | None = None


def reference_days(
    station: Station,
    first: date,
    last: date,
    seen: Mapping[date, DayWeather],
    hours: Mapping[date, Sequence[HourWeather]] | None = None,
    hours_in: Callable[[date], int] = lambda _day: HOURS,
) -> tuple[ReferenceDay, ...]:
    """Every date from first to last, observed or not. `hours_in` says how many hours a date has on the site's clock."""
    dates = [first + timedelta(days=number) for number in range((last - first).days + 1)]
    by_hour = hours or {}
    return tuple(reference_on(station, day, seen.get(day), by_hour.get(day, ()), hours_in(day)) for day in dates)


def reference_on(
    station: Station, day: date, seen: DayWeather | None, hours: Sequence[HourWeather] = (), hours_in_day: int = HOURS
) -> ReferenceDay:
    """One date. Evapotranspiration below nothing counts as none (dew is not handed to the plants)."""
    flags = flags_of(seen, station.field) if seen is not None else ()
    used = usable(seen, flags) if seen is not None else DayWeather(day=day)
    messages: tuple[Message, ...] = ()
    if used.et_mm is not None:
        return ReferenceDay(day, used.et_mm, "given", row=used.row, flags=flags)
    if hours:
        odd = {hour: hour_flags(hour, station.field) for hour in hours}
        whole = [hour for hour in hours if not odd[hour]]
        flags = (*flags, *(flag for hour in hours for flag in odd[hour]))
        if complete(whole, hours_in_day):
            et = max(0.0, fsum(hour.et_mm for hour in hourly_day(station.form, station.field, whole)))
            source = f"{station.form.source}, by the hour"
            return ReferenceDay(day, et, "hourly", source=source, row=used.row, flags=flags)
        messages = (HOURS_MISSING(day_date=day.isoformat(), hours_count=len(whole)),)
    return _by_the_day(station, day, used, flags, messages)


def _by_the_day(
    station: Station, day: date, seen: DayWeather, flags: tuple[Flag, ...], messages: tuple[Message, ...]
) -> ReferenceDay:
    high, low = seen.high_c, seen.low_c
    if high is None or low is None:
        return _by_normal(station, day, seen.row, flags, messages)
    if station.filling.alone == "hargreaves" and _only_temperatures(seen):
        et = max(0.0, hargreaves_mm(station.field, day.timetuple().tm_yday, high, low))
        return ReferenceDay(
            day, et, "temperature", source="FAO-56 eq. 52", row=seen.row, flags=flags, messages=messages
        )
    worked, hows = penman_day(station, seen, high, low)
    rung = "filled" if ASSUMED.intersection(hows) else "full"
    et = max(0.0, worked.et_mm)
    return ReferenceDay(day, et, rung, hows, station.form.source, seen.row, worked, flags, messages)


def penman_day(station: Station, seen: DayWeather, high: float, low: float) -> tuple[Worked, tuple[str, ...]]:
    """Penman-Monteith from whatever was observed, and how each input was come by."""
    number = seen.day.timetuple().tm_yday
    vapour, vapour_how = filling.vapour_kpa(seen, high, low, station.filling)
    solar, solar_how = filling.solar_mj(seen, station.field, number, high, low, station.filling)
    wind, wind_how = filling.wind_mps(seen, station.filling)
    worked = reference_day(
        station.form, station.field, number,
        high_c=high, low_c=low, vapour_kpa=vapour, wind_mps=wind, solar_mj=solar,
    )  # fmt: skip
    return worked, (vapour_how, solar_how, wind_how)


def _only_temperatures(seen: DayWeather) -> bool:
    others = (
        seen.dew_c, seen.dampest_pct, seen.humidity_pct, seen.solar_mj, seen.sunshine_h, seen.wind_mps,
    )  # fmt: skip
    return all(other is None for other in others)


def _by_normal(
    station: Station, day: date, row: str, flags: tuple[Flag, ...], messages: tuple[Message, ...]
) -> ReferenceDay:
    normal = station.normals.on(day) if station.normals else None
    if normal is None or station.normals is None:
        said = NOTHING_KNOWN(day_date=day.isoformat())
        return ReferenceDay(day, None, "none", row=row, flags=flags, messages=(*messages, said))
    return ReferenceDay(
        day, normal, "normal", source=station.normals.source, row=row, flags=flags, messages=messages
    )  # fmt: skip


def complete(hours: Sequence[HourWeather], hours_in_day: int = HOURS) -> bool:
    """Whether a day's hours follow each other without a gap and make up a day."""
    middles = sorted(hour.day.toordinal() * 24 + hour.utc_middle_h for hour in hours)
    steps = zip(middles, middles[1:], strict=False)
    return len(middles) == hours_in_day and all(abs(b - a - 1) < 1e-6 for a, b in steps)


def hourly_day(form: Form, field: Field, hours: Sequence[HourWeather]) -> tuple[Worked, ...]:
    """Hours in time's order. While the sun is low, the share of clear sky is that of the last hour with a high sun.

    Before the first such hour it is that first hour's (ASCE-EWRI p. 35-36); without any it counts as clear.
    """
    ordered = sorted(hours, key=lambda hour: (hour.day, hour.utc_middle_h))
    ratios = [_ratio(form, field, hour) for hour in ordered]
    going = next((ratio for ratio in ratios if ratio is not None), 1.0)
    worked = []
    for hour, ratio in zip(ordered, ratios, strict=True):
        going = going if ratio is None else ratio
        worked.append(_hour(form, field, hour, going))
    return tuple(worked)


def _ratio(form: Form, field: Field, hour: HourWeather) -> float | None:
    """The hour's share of clear sky; None while the sun stands too low to tell."""
    latitude, number = radians(field.latitude_deg), hour.day.timetuple().tm_yday
    angle = radiation.hour_angle(field.longitude_deg, number, hour.utc_middle_h)
    if radiation.sun_height(latitude, number, angle) < radiation.LOW_SUN:
        return None
    return _hour(form, field, hour, None).cloud_ratio


def _hour(form: Form, field: Field, hour: HourWeather, ratio: float | None) -> Worked:
    return reference_hour(
        form, field, hour.day.timetuple().tm_yday,
        utc_middle_h=hour.utc_middle_h, mean_c=hour.mean_c,
        vapour_kpa=air.saturation_kpa(hour.mean_c) * hour.humidity_pct / 100,
        wind_mps=air.wind_at_two_metres(hour.wind_mps, hour.wind_height_m), solar_mj=hour.solar_mj, ratio=ratio,
    )  # fmt: skip
