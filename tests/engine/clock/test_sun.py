"""Sunrise and sunset beside published tables, and where the sun does not rise or set."""

from __future__ import annotations

import json
from calendar import timegm
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pengan.engine.clock.instants import Instant
from pengan.engine.clock.sun import Place, place_of, sun_event
from pengan.engine.clock.times import moment_on
from pengan.engine.clock.zones import rule_clock, zone_clock
from pengan.engine.document.tables import Site

FIXTURE = Path(__file__).parents[3] / "fixtures" / "clock" / "sun_times.json"
CASES: list[dict[str, Any]] = json.loads(FIXTURE.read_text("utf-8"))["cases"]
LISBON = Place(38.72, -9.14)


@pytest.mark.parametrize("case", CASES, ids=[case["id"] for case in CASES])
def test_the_sun_rises_and_sets_as_published(case: dict[str, Any]) -> None:
    """Source: beside each case in fixtures/clock/sun_times.json; mostly the US Naval Observatory's tables."""
    given_, expected = case["inputs"], case["expected"]
    hours = given_["utc_offset_h"]
    clock = rule_clock(f"<{hours:+03d}>{-hours}")
    place = Place(given_["lat_deg"], given_["lon_deg"])
    day = date.fromisoformat(given_["date"])
    for name, text in expected.items():
        falls_on = day + timedelta(days=name.endswith("_next_calendar_day"))
        found = moment_on(name.removesuffix("_next_calendar_day"), day, clock, place)
        assert found is not None
        wanted = datetime.combine(falls_on, datetime.strptime(text, "%H:%M").time())
        assert abs(clock.wall(found) - wanted) <= timedelta(minutes=case["tolerance"]["minutes"])


@pytest.mark.parametrize(
    ("event", "day"), [("sunrise", "2026-06-21"), ("sunset", "2026-06-21"), ("sunset", "2026-12-21")]
)
def test_in_polar_day_and_night_there_is_no_sunrise_or_sunset(event: str, day: str) -> None:
    """Tromsø lies at 69.65° N, inside the polar circle, where neither solstice has one."""
    assert moment_on(event, date.fromisoformat(day), zone_clock("Europe/Oslo"), Place(69.65, 18.96)) is None


@pytest.mark.parametrize(
    ("zone", "place"),
    [
        ("Pacific/Kiritimati", Place(1.87, -157.4)),
        ("Pacific/Auckland", Place(-36.85, 174.76)),
        ("Pacific/Honolulu", Place(21.31, -157.86)),
        ("Asia/Urumqi", Place(43.83, 87.62)),
        ("Asia/Shanghai", Place(43.83, 87.62)),
        ("America/Adak", Place(51.88, -176.66)),
    ],
)
def test_the_day_has_the_sunrise_and_sunset_of_its_own_date(zone: str, place: Place) -> None:
    """Also where the date line, or a zone far from the sun's time, puts them on another date of UTC."""
    clock = zone_clock(zone)
    for month in range(1, 13):
        day = date(2026, month, 15)
        rise, down = (moment_on(event, day, clock, place) for event in ("sunrise", "sunset"))
        assert rise is not None and down is not None
        assert [clock.wall(rise).date(), clock.wall(down).date()] == [day, day]
        assert 7 * 3600 < down - rise < 17 * 3600


@given(
    st.integers(timegm((2024, 1, 1, 0, 0, 0)), timegm((2038, 1, 1, 0, 0, 0))), st.floats(-65, 65), st.floats(-180, 180)
)
def test_a_noon_has_a_sunrise_before_and_a_sunset_after_it(noon: int, latitude: float, longitude: float) -> None:
    """The two frame the sun's noon nearest to the instant: at most half a day and the equation of time away."""
    place = Place(latitude, longitude)
    rise, down = (sun_event(event, Instant(noon), place) for event in ("sunrise", "sunset"))
    assert rise is not None and down is not None
    assert 0 < down - rise < 86_400
    assert abs((rise + down) // 2 - noon) < 43_200 + 20 * 60
    assert rise % 60 == down % 60 == 0


def test_a_site_without_both_coordinates_has_no_place() -> None:
    assert place_of(Site(id="s", name="S", latitude_deg=38.72)) is None
    assert place_of(Site(id="s", name="S", latitude_deg=38.72, longitude_deg=-9.14)) == LISBON
