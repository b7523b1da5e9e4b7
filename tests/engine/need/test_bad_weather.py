"""Bad input is told, row by row; nothing is repaired, lost or invented."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from string import Formatter

import pytest

from engine.need.generated_weather import FIELDS, hours_of, year_at
from pengan.engine.message import SAYINGS, Message
from pengan.engine.need.ladder import Station, reference_on
from pengan.engine.need.normals import Normals
from pengan.engine.need.quality import Flag, flags_of, series_flags, usable
from pengan.engine.need.rows import arrange
from pengan.engine.need.weather import DayWeather

FIELD = FIELDS["lisbon"]
DAY = date(2026, 7, 6)
GOOD = DayWeather(
    day=DAY, row="7", high_c=29, low_c=17, dew_c=14, dampest_pct=90, driest_pct=40, wind_mps=3, solar_mj=26, rain_mm=0
)
STATION = Station(FIELD, normals=Normals((5.0,) * 12))


def codes(flags: tuple[Flag, ...]) -> list[tuple[str, bool]]:
    return [(flag.message.code, flag.barred) for flag in flags]


def test_good_weather_has_nothing_odd() -> None:
    assert flags_of(GOOD, FIELD) == () and usable(GOOD, ()) is GOOD


@pytest.mark.parametrize(
    ("changes", "code", "barred", "fields"),
    [
        ({"high_c": 17, "low_c": 29}, "weather.swapped", True, ("low_c", "high_c")),
        ({"dew_c": 30}, "weather.dew_too_high", True, ("dew_c",)),
        ({"driest_pct": 95}, "weather.humidity_swapped", True, ("driest_pct", "dampest_pct")),
        ({"dampest_pct": 120}, "weather.out_of_range", True, ("dampest_pct",)),
        ({"wind_mps": -1}, "weather.out_of_range", True, ("wind_mps",)),
        ({"wind_mps": 18}, "weather.wind_unit", False, ("wind_mps",)),
        ({"solar_mj": 45}, "weather.solar_impossible", True, ("solar_mj",)),
        ({"solar_mj": 36}, "weather.solar_above_clear", False, ("solar_mj",)),
        ({"sunshine_h": 16}, "weather.sunshine_too_long", True, ("sunshine_h",)),
        ({"rain_mm": 400}, "weather.much_rain", False, ("rain_mm",)),
        ({"rain_mm": -3}, "weather.out_of_range", True, ("rain_mm",)),
        ({"high_c": 84.2}, "weather.out_of_range", True, ("high_c",)),
        ({"et_mm": 50}, "weather.out_of_range", True, ("et_mm",)),
    ],
)
def test_each_odd_reading_is_flagged_with_its_row(
    changes: dict[str, float], code: str, barred: bool, fields: tuple[str, ...]
) -> None:
    seen = replace(GOOD, **changes)  # type: ignore[arg-type]
    flags = [flag for flag in flags_of(seen, FIELD) if flag.message.code == code]
    assert len(flags) == 1 and flags[0].barred is barred and flags[0].fields == fields
    assert flags[0].message.params["row"] == "7" and flags[0].message.params["day_date"] == "2026-07-06"
    used = usable(seen, flags)
    for name in fields:
        assert getattr(used, name) == (None if barred else getattr(seen, name))
    for name, value in changes.items():
        assert getattr(seen, name) == value


def test_a_swapped_minimum_steps_the_day_down_and_is_not_swapped_back() -> None:
    day = reference_on(STATION, DAY, replace(GOOD, high_c=17, low_c=29))
    assert (day.rung, day.et_mm) == ("normal", 5.0)
    assert ("weather.swapped", True) in codes(day.flags)


def test_an_impossible_sun_is_left_out_and_the_rest_is_used() -> None:
    day = reference_on(STATION, DAY, replace(GOOD, solar_mj=45))
    assert day.rung == "filled" and "solar_temperatures" in day.hows


def test_a_storm_of_rain_is_used_as_it_stands() -> None:
    day = reference_on(STATION, DAY, replace(GOOD, rain_mm=400))
    assert day.rung == "full" and codes(day.flags) == [("weather.much_rain", False)]


def test_an_hour_that_cannot_be_is_told_and_the_day_is_not_added_up() -> None:
    made = year_at(FIELD)[180]
    hours = hours_of(FIELD, made)
    hours[3] = replace(hours[3], row="h4", solar_mj=2.0)
    hours[12] = replace(hours[12], row="h13", humidity_pct=130)
    day = reference_on(STATION, made.day, made.seen(), hours)
    assert [(flag.row, flag.message.code) for flag in day.flags] == [
        ("h4", "weather.solar_impossible"), ("h13", "weather.out_of_range"),
    ]  # fmt: skip
    assert day.rung == "full" and [message.code for message in day.messages] == ["need.hours_missing"]


def days(count: int, **fields: float) -> list[DayWeather]:
    return [
        DayWeather(day=DAY + timedelta(days=number), row=str(number + 2), high_c=25 + number * 0.1, **fields)  # type: ignore[arg-type]
        for number in range(count)
    ]


def test_kilometres_an_hour_all_season_are_doubted_once() -> None:
    windy = [replace(seen, wind_mps=9 + place % 3) for place, seen in enumerate(days(12))]
    flags = series_flags(windy)
    assert codes(flags) == [("weather.wind_unit_series", False)]
    assert flags[0].message.params["row"] == "2" and flags[0].message.params["wind_mps"] == 10


def test_a_stuck_sensor_is_flagged_from_its_first_row() -> None:
    stuck = days(8, humidity_pct=63)
    flags = series_flags(stuck)
    assert [(flag.message.code, flag.row, flag.fields) for flag in flags] == [("weather.stuck", "2", ("humidity_pct",))]
    assert flags[0].message.params["days_count"] == 8
    assert series_flags(stuck[:4]) == ()
    assert series_flags(stuck[:3] + stuck[4:7]) == ()


def test_rows_out_of_order_twice_and_missing_are_all_told() -> None:
    one, two, three, four, five = days(5)
    changed = replace(two, row="8", high_c=31.0)
    found = arrange([one, four, two, changed, replace(one, row="9")])
    assert [seen.day for seen in found.days] == [one.day, two.day, four.day]
    assert [seen.row for seen in found.days] == ["9", "8", "5"]
    assert [message.code for message in found.messages] == [
        "weather.out_of_order", "weather.twice", "weather.twice_same", "weather.missing",
    ]  # fmt: skip
    assert found.replaced == (two, one)
    assert dict(found.messages[1].params) == {"row": "3", "other": "8", "day_date": "2026-07-07"}
    assert found.messages[3].params["days_count"] == 1
    assert arrange([one, two, three, four, five]).messages == ()


def test_every_message_has_exactly_the_values_of_its_sentence() -> None:
    odd = [
        replace(GOOD, high_c=17, low_c=29, wind_mps=18, rain_mm=400, solar_mj=45, driest_pct=95),
        replace(GOOD, dew_c=30, solar_mj=36, sunshine_h=16, dampest_pct=120),
    ]
    said: list[Message] = [flag.message for seen in odd for flag in flags_of(seen, FIELD)]
    said += [flag.message for flag in series_flags([replace(s, wind_mps=9.0) for s in days(12)])]
    said += arrange([*days(1), *days(9)[7:], *days(9)[2:3], *days(1)]).messages
    assert len({message.code for message in said}) >= 12
    for message in said:
        names = {
            name for _text, name, _format, _conversion in Formatter().parse(SAYINGS[message.code].template) if name
        }
        assert names <= set(message.params), message.code
