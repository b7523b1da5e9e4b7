"""What is odd about a row of weather. It is flagged and shown; nothing is ever repaired.

A `barred` flag is about something that cannot be: the reading is left aside and the day steps down its ladder, which
says so. Any other flag is a doubt: the reading is used, and a person should look. Limits from physics name their
source; the others are marked "common practice, no source".
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import radians

from ..message import Message, saying
from . import radiation
from .penman import Field
from .weather import DayWeather, HourWeather

COLDEST_C, HOTTEST_C = -90.0, 60.0
"""Common practice, no source: a little beyond what has been measured on earth."""
STRONGEST_MPS = 60.0
STRONG_MPS = 12.0
"""Common practice, no source: a day's mean above it is a storm, or km/h."""
WETTEST_MM = 300.0
"""Common practice, no source: beyond it a gauge is more often wrong than right."""
MOST_ET_MM = 25.0
"""Common practice, no source."""
OVER_CLEAR = 1.10
"""Common practice, no source: the simple clear-sky formula is good to a few per cent, and clouds' edges add some."""
STUCK_DAYS = 5
"""Common practice, no source."""
WATCHED = ("high_c", "low_c", "dew_c", "humidity_pct", "wind_mps", "solar_mj")

SWAPPED = saying(
    "weather.swapped",
    "Row {row}, {day_date}: the lowest temperature, {low_degc}, is above the highest, {high_degc}. "
    "Neither is used. Were they swapped?",
)
OUT_OF_RANGE = saying(
    "weather.out_of_range",
    "Row {row}, {day_date}: {value} in field {field} cannot be: it must lie between {least} and {most}. "
    "It is not used.",
)
DRIER_THAN_DRIEST = saying(
    "weather.humidity_swapped",
    "Row {row}, {day_date}: the lowest humidity, {driest_pct}, is above the highest, {dampest_pct}. Neither is used.",
)
DEW_TOO_HIGH = saying(
    "weather.dew_too_high",
    "Row {row}, {day_date}: the dew point, {dew_degc}, is above the highest temperature, {high_degc}. It is not used.",
)
BEYOND_AIR = saying(
    "weather.solar_impossible",
    "Row {row}, {day_date}: {solar_mj} of sun is more than reaches the top of the air there on that day, "
    "{limit_mj}. It is not used.",
)
ABOVE_CLEAR = saying(
    "weather.solar_above_clear",
    "Row {row}, {day_date}: {solar_mj} of sun is more than a clear sky lets through, {limit_mj}. "
    "It is used as it stands; check the sensor and its unit.",
)
TOO_SUNNY = saying(
    "weather.sunshine_too_long",
    "Row {row}, {day_date}: {sunshine_h} hours of sunshine is longer than the day, {limit_h} hours. It is not used.",
)
STRONG_WIND = saying(
    "weather.wind_unit",
    "Row {row}, {day_date}: a wind of {wind_mps} over a whole day is a storm. "
    "It is used as it stands. Were kilometres per hour taken for metres per second?",
)
WINDY_LONG = saying(
    "weather.wind_unit_series",
    "From row {row}, {day_date}, on: the middle of {days_count} days' winds is {wind_mps}, which is more than "
    "almost any place has. They are used as they stand. Were kilometres per hour taken for metres per second?",
)
MUCH_RAIN = saying(
    "weather.much_rain",
    "Row {row}, {day_date}: {rain_mm} of rain in one day is rare. "
    "It is used as it stands; check the gauge and its unit.",
)
STUCK = saying(
    "weather.stuck",
    "From row {row}, {day_date}, on: field {field} says {value} for {days_count} days running. "
    "The sensor may be stuck; the readings are used as they stand.",
)

RANGES: tuple[tuple[str, float, float], ...] = (
    ("high_c", COLDEST_C, HOTTEST_C),
    ("low_c", COLDEST_C, HOTTEST_C),
    ("dew_c", COLDEST_C, HOTTEST_C),
    ("dampest_pct", 0.0, 100.0),
    ("driest_pct", 0.0, 100.0),
    ("humidity_pct", 0.0, 100.0),
    ("wind_mps", 0.0, STRONGEST_MPS),
    ("solar_mj", 0.0, 50.0),
    ("sunshine_h", 0.0, 24.0),
    ("rain_mm", 0.0, 2000.0),
    ("et_mm", 0.0, MOST_ET_MM),
)

HOUR_RANGES = (("mean_c", COLDEST_C, HOTTEST_C), ("humidity_pct", 0.0, 100.0), ("wind_mps", 0.0, STRONGEST_MPS),
               ("solar_mj", 0.0, 6.0))  # fmt: skip
HOUR_SLACK_MJ = 0.5
"""Common practice, no source: a clock a few minutes out moves sun from one hour to the next."""


@dataclass(frozen=True, slots=True)
class Flag:
    """One odd thing: the day and row, the fields it is about, whether they are left aside, and what to say."""

    day: date
    row: str
    fields: tuple[str, ...]
    barred: bool
    message: Message


def flags_of(seen: DayWeather, field: Field) -> tuple[Flag, ...]:
    """Everything odd about one day, in the order of the fields."""
    return (*_ranges(seen), *_temperatures(seen), *_humidities(seen), *_sun(seen, field), *_wind_and_rain(seen))


def hour_flags(seen: HourWeather, field: Field) -> tuple[Flag, ...]:
    """What cannot be about one hour: values out of range, and more sun than reaches the air (FAO-56 eq. 28)."""
    day, number = seen.day.isoformat(), seen.day.timetuple().tm_yday
    found = []
    for name, least, most in HOUR_RANGES:
        value = getattr(seen, name)
        if not least <= value <= most:
            said = OUT_OF_RANGE(row=seen.row, day_date=day, field=name, value=value, least=least, most=most)
            found.append(Flag(seen.day, seen.row, (name,), True, said))
    latitude = radians(field.latitude_deg)
    angles = radiation.hour_angles(latitude, field.longitude_deg, number, seen.utc_middle_h)
    above = max(0.0, radiation.above_air_hour(latitude, number, angles))
    if above + HOUR_SLACK_MJ < seen.solar_mj <= 6:
        said = BEYOND_AIR(row=seen.row, day_date=day, solar_mj=seen.solar_mj, limit_mj=above)
        found.append(Flag(seen.day, seen.row, ("solar_mj",), True, said))
    return tuple(found)


def usable(seen: DayWeather, flags: Sequence[Flag]) -> DayWeather:
    """The day without what is barred. The observation itself stays as it was handed in."""
    barred = {name for flag in flags if flag.barred for name in flag.fields}
    return replace(seen, **dict.fromkeys(sorted(barred))) if barred else seen  # type: ignore[arg-type]


def series_flags(days: Sequence[DayWeather]) -> tuple[Flag, ...]:
    """What is odd about days in a row (sorted, one a date): stuck sensors, and winds in the wrong unit throughout."""
    stuck = [flag for name in WATCHED for flag in _stuck(days, name)]
    return tuple(sorted([*stuck, *_windy(days)], key=lambda flag: (flag.day, flag.fields)))


def _flag(seen: DayWeather, fields: tuple[str, ...], barred: bool, message: Message) -> Flag:
    return Flag(seen.day, seen.row, fields, barred, message)


def _ranges(seen: DayWeather) -> Iterator[Flag]:
    for name, least, most in RANGES:
        value = getattr(seen, name)
        if value is not None and not least <= value <= most:
            said = OUT_OF_RANGE(
                row=seen.row, day_date=seen.day.isoformat(), field=name, value=value, least=least, most=most
            )
            yield _flag(seen, (name,), True, said)


def _temperatures(seen: DayWeather) -> Iterator[Flag]:
    row, day = seen.row, seen.day.isoformat()
    if seen.high_c is None:
        return
    if seen.low_c is not None and seen.low_c > seen.high_c:
        said = SWAPPED(row=row, day_date=day, low_degc=seen.low_c, high_degc=seen.high_c)
        yield _flag(seen, ("low_c", "high_c"), True, said)
    elif seen.dew_c is not None and seen.dew_c > seen.high_c:
        said = DEW_TOO_HIGH(row=row, day_date=day, dew_degc=seen.dew_c, high_degc=seen.high_c)
        yield _flag(seen, ("dew_c",), True, said)


def _humidities(seen: DayWeather) -> Iterator[Flag]:
    low, high = seen.driest_pct, seen.dampest_pct
    if low is not None and high is not None and low > high:
        said = DRIER_THAN_DRIEST(row=seen.row, day_date=seen.day.isoformat(), driest_pct=low, dampest_pct=high)
        yield _flag(seen, ("driest_pct", "dampest_pct"), True, said)


def _sun(seen: DayWeather, field: Field) -> Iterator[Flag]:
    """Above the air: FAO-56 eq. 21. Clear sky: FAO-56 eq. 37. Daylight: FAO-56 eq. 34."""
    row, day = seen.row, seen.day.isoformat()
    latitude, number = radians(field.latitude_deg), seen.day.timetuple().tm_yday
    if seen.solar_mj is not None and seen.solar_mj >= 0:
        above = radiation.above_air_day(latitude, number)
        clear = radiation.clear_sky(above, field.elevation_m)
        if seen.solar_mj > max(above, 0.5):
            said = BEYOND_AIR(row=row, day_date=day, solar_mj=seen.solar_mj, limit_mj=above)
            yield _flag(seen, ("solar_mj",), True, said)
        elif seen.solar_mj > max(clear * OVER_CLEAR, 0.5):
            said = ABOVE_CLEAR(row=row, day_date=day, solar_mj=seen.solar_mj, limit_mj=clear)
            yield _flag(seen, ("solar_mj",), False, said)
    if seen.sunshine_h is not None:
        longest = radiation.daylight_h(latitude, number)
        if longest + 0.5 < seen.sunshine_h <= 24:
            said = TOO_SUNNY(row=row, day_date=day, sunshine_h=seen.sunshine_h, limit_h=longest)
            yield _flag(seen, ("sunshine_h",), True, said)


def _wind_and_rain(seen: DayWeather) -> Iterator[Flag]:
    row, day = seen.row, seen.day.isoformat()
    if seen.wind_mps is not None and STRONG_MPS < seen.wind_mps <= STRONGEST_MPS:
        yield _flag(seen, ("wind_mps",), False, STRONG_WIND(row=row, day_date=day, wind_mps=seen.wind_mps))
    if seen.rain_mm is not None and seen.rain_mm > WETTEST_MM:
        yield _flag(seen, ("rain_mm",), False, MUCH_RAIN(row=row, day_date=day, rain_mm=seen.rain_mm))


def _stuck(days: Sequence[DayWeather], name: str) -> Iterator[Flag]:
    for group in _same_running(days, name):
        if len(group) >= STUCK_DAYS:
            first = group[0]
            said = STUCK(
                row=first.row,
                day_date=first.day.isoformat(),
                field=name,
                value=getattr(first, name),
                days_count=len(group),
            )
            yield _flag(first, (name,), False, said)


def _same_running(days: Sequence[DayWeather], name: str) -> Iterator[list[DayWeather]]:
    """Stretches of days without a gap on which a field says the very same."""
    group: list[DayWeather] = []
    for seen in days:
        value = getattr(seen, name)
        follows = group and value == getattr(group[-1], name) and seen.day - group[-1].day == timedelta(days=1)
        if not follows:
            yield group
            group = []
        if value is not None:
            group.append(seen)
    yield group


def _windy(days: Sequence[DayWeather]) -> Iterator[Flag]:
    """Common practice, no source: a middle value above 7 m/s over a week or more."""
    winds = sorted(seen.wind_mps for seen in days if seen.wind_mps is not None)
    if len(winds) >= 7 and winds[len(winds) // 2] > 7:
        first = next(seen for seen in days if seen.wind_mps is not None)
        said = WINDY_LONG(
            row=first.row, day_date=first.day.isoformat(), days_count=len(winds), wind_mps=winds[len(winds) // 2]
        )
        yield _flag(first, ("wind_mps",), False, said)
