"""Which rung a day's weather reaches, and that every day says so."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from engine.need.generated_weather import FIELDS, hours_of, year_at
from pengan.engine.need.ladder import RUNGS, ReferenceDay, Station, hourly_day, reference_days, reference_on
from pengan.engine.need.normals import Normals, normals_doubt, normals_from, peak_month
from pengan.engine.need.penman import ASCE_SHORT
from pengan.engine.need.weather import DayWeather

FIELD = FIELDS["lisbon"]
DAY = date(2026, 7, 6)
FULL = DayWeather(
    day=DAY, row="7", high_c=29, low_c=17, dew_c=14, wind_mps=3, solar_mj=26, rain_mm=0
)  # fmt: skip
NORMALS = Normals((1.2, 1.8, 2.9, 3.8, 4.9, 5.8, 6.4, 5.9, 4.3, 2.7, 1.6, 1.1), "made up")
STATION = Station(FIELD, normals=NORMALS)


def rung(seen: DayWeather | None, station: Station = STATION) -> tuple[str, tuple[str, ...]]:
    found = reference_on(station, DAY, seen)
    assert found.rung in RUNGS
    return found.rung, found.hows


def test_each_rung_says_its_name() -> None:
    assert rung(replace(FULL, et_mm=5.5)) == ("given", ())
    assert rung(FULL) == ("full", ("vapour_dew", "solar_measured", "wind_measured"))
    assert rung(replace(FULL, solar_mj=None, sunshine_h=9)) == (
        "full",
        ("vapour_dew", "solar_sunshine", "wind_measured"),
    )
    assert rung(replace(FULL, solar_mj=None)) == ("filled", ("vapour_dew", "solar_temperatures", "wind_measured"))
    assert rung(replace(FULL, dew_c=None)) == ("filled", ("vapour_low", "solar_measured", "wind_measured"))
    assert rung(replace(FULL, wind_mps=None)) == ("filled", ("vapour_dew", "solar_measured", "wind_assumed"))
    assert rung(replace(FULL, wind_mps=0.2))[1][2] == "wind_raised"
    assert rung(DayWeather(day=DAY, high_c=29, low_c=17, rain_mm=3)) == ("temperature", ())
    assert rung(DayWeather(day=DAY, rain_mm=3)) == ("normal", ())
    assert rung(None) == ("normal", ())
    assert rung(None, Station(FIELD)) == ("none", ())


@pytest.mark.parametrize(
    ("name", "value", "how"),
    [("humidity_pct", 60, "vapour_mean"), ("dampest_pct", 85, "vapour_dampest")],
)
def test_humidity_is_read_as_best_it_can(name: str, value: float, how: str) -> None:
    assert rung(replace(FULL, dew_c=None, **{name: value})) == ("full", (how, "solar_measured", "wind_measured"))  # type: ignore[arg-type]


def test_rungs_agree_roughly_on_a_plain_day() -> None:
    """Not a law, but a day near the climate the formulas were fitted to should not jump from rung to rung."""
    given = [
        FULL, replace(FULL, dew_c=None), replace(FULL, solar_mj=None), replace(FULL, wind_mps=None),
        DayWeather(day=DAY, high_c=29, low_c=17),
    ]  # fmt: skip
    depths = [reference_on(STATION, DAY, seen).et_mm or 0 for seen in given]
    assert all(4.5 < depth < 7.0 for depth in depths)


def test_a_day_without_weather_or_normal_is_not_made_up() -> None:
    known = Normals((None,) * 6 + (6.4,) + (None,) * 5)
    june, july = date(2026, 6, 30), date(2026, 7, 1)
    found = reference_days(Station(FIELD, normals=known), june, july, {})
    assert [(day.rung, day.et_mm) for day in found] == [("none", None), ("normal", 6.4)]
    assert [message.code for message in found[0].messages] == ["need.no_weather"]
    assert found[0].messages[0].params["day_date"] == "2026-06-30"


def made_days() -> list[ReferenceDay]:
    """A week in summer, hour by hour."""
    days = year_at(FIELD)[180:187]
    station = Station(FIELD, ASCE_SHORT)
    return [reference_on(station, day.day, day.seen(), hours_of(FIELD, day)) for day in days]


def test_complete_hours_are_added_up() -> None:
    days, found = year_at(FIELD)[180:187], made_days()
    assert {day.rung for day in found} == {"hourly"}
    by_day = [reference_on(Station(FIELD, ASCE_SHORT), day.day, day.seen()).et_mm or 0 for day in days]
    hourly = [day.et_mm or 0 for day in found]
    assert all(abs(a - b) < 0.35 * b for a, b in zip(hourly, by_day, strict=True))


def test_a_day_with_missing_hours_steps_down_and_says_so() -> None:
    day = year_at(FIELD)[180]
    hours = hours_of(FIELD, day)
    gap = reference_on(Station(FIELD), day.day, day.seen(), hours[:12] + hours[13:])
    assert gap.rung == "full"
    assert [(m.code, m.params["hours_count"]) for m in gap.messages] == [("need.hours_missing", 23)]


def test_a_day_of_23_or_25_hours_is_complete_where_the_clock_says_so() -> None:
    day = year_at(FIELD)[86]
    hours = hours_of(FIELD, day)
    assert reference_on(Station(FIELD), day.day, None, hours[1:], 23).rung == "hourly"
    assert reference_on(Station(FIELD), day.day, None, hours[1:]).rung == "none"
    extra = replace(hours[0], utc_middle_h=-0.5)
    spring = reference_days(Station(FIELD), day.day, day.day, {}, {day.day: [extra, *hours]}, lambda _day: 25)
    assert spring[0].rung == "hourly"


def test_while_the_sun_is_low_the_sky_is_that_of_the_last_high_sun() -> None:
    day = year_at(FIELD)[180]
    hours = hours_of(FIELD, day)
    cloudy = [replace(hour, solar_mj=hour.solar_mj * (0.6 if hour.utc_middle_h > 15 else 1)) for hour in hours]
    worked = hourly_day(ASCE_SHORT, FIELD, cloudy)
    ratios = {hour.utc_middle_h: one.cloud_ratio for hour, one in zip(cloudy, worked, strict=True)}
    assert ratios[22.5] == pytest.approx(ratios[16.5]) and ratios[16.5] < ratios[12.5] < 1
    assert ratios[2.5] == pytest.approx(ratios[8.5])


def test_hours_that_add_up_to_less_than_nothing_count_as_none() -> None:
    """A still, damp polar night radiates heat away: its hours are below nothing."""
    north = FIELDS["svalbard"]
    night = replace(year_at(north)[355], wind_mps=0.6)
    damp = [replace(hour, humidity_pct=100.0, wind_mps=0.6) for hour in hours_of(north, night)]
    assert sum(hour.et_mm for hour in hourly_day(ASCE_SHORT, north, damp)) < 0
    assert reference_on(Station(north, ASCE_SHORT), night.day, None, damp).et_mm == 0


def test_normals_come_from_a_sites_own_days() -> None:
    first = date(2025, 1, 1)
    days = [(first + timedelta(days=number), 2.0 + (first + timedelta(days=number)).month) for number in range(100)]
    normals = normals_from(days, "own")
    assert normals.mm_per_day[:3] == (3.0, 4.0, 5.0) and normals.mm_per_day[3] is None
    assert peak_month(normals) == 3 and peak_month(Normals((None,) * 12)) is None


def test_normals_of_the_other_hemisphere_are_doubted() -> None:
    doubt = normals_doubt(NORMALS, -34)
    assert doubt is not None and (doubt.code, doubt.params["month"]) == ("need.normals_hemisphere", 7)
    assert normals_doubt(NORMALS, 38) is None
    assert normals_doubt(NORMALS, 5) is None
