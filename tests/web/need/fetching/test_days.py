"""Steps of UTC become days of the site's calendar, whole ones only."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest

from builders import a_site
from pengan.engine.clock.zones import SiteClock, clock_of
from pengan.engine.document.tables import Site
from pengan.web.need.fetching.days import MOST_AHEAD_DAYS, days_of
from pengan.web.need.fetching.steps import HOUR_S, MOST_STEPS, Malformed, Step, in_order

JULY = date(2026, 7, 10)


def clock(zone: str = "Europe/Lisbon") -> SiteClock:
    given = a_site("garden", zone=zone)
    return clock_of(Site(id="garden", name="Garden", zone=str(given["zone"])))


def steps(first: datetime, count: int, hours: int = 1, **figures: float) -> list[Step]:
    """So many steps; the temperature is the hour of UTC, `figures` fall over each."""
    found = []
    for number in range(count):
        starts = first + timedelta(hours=hours * number)
        at = {"temp_degc": float(starts.hour), "dew_degc": 10.0, "humidity_pct": 50.0, "wind_mps": 3.0}
        moment = int(starts.timestamp())
        found.append(Step(moment, moment + hours * HOUR_S, at, {"rain_mm": 0.5, **figures}))
    return found


def test_a_day_runs_from_midnight_to_midnight_of_the_site() -> None:
    """Lisbon is an hour ahead of UTC in July: its 10th begins at 23:00 UTC of the 9th."""
    found = days_of(steps(datetime(2026, 7, 9, 23, tzinfo=UTC), 24), clock(), JULY)
    assert found == {
        JULY: {"high_degc": 23, "low_degc": 0, "dew_degc": 10, "humidity_pct": 50, "wind_mps": 3, "rain_mm": 12}
    }


def test_a_day_of_which_an_hour_is_missing_is_not_told() -> None:
    whole = steps(datetime(2026, 7, 9, 23, tzinfo=UTC), 48)
    assert days_of(whole[1:], clock(), JULY).keys() == {date(2026, 7, 11)}
    assert days_of(whole[:12] + whole[13:], clock(), JULY).keys() == {date(2026, 7, 11)}
    assert days_of([], clock(), JULY) == {}


@pytest.mark.parametrize(
    ("zone", "day", "hours"),
    [("Europe/Lisbon", date(2026, 10, 25), 25), ("Europe/Lisbon", date(2026, 3, 29), 23),
     ("Australia/Lord_Howe", date(2026, 10, 4), 23.5), ("Asia/Kolkata", JULY, 24)],
)  # fmt: skip
def test_days_of_a_change_of_the_clock_and_of_half_hours_are_whole_too(zone: str, day: date, hours: float) -> None:
    """Half a millimetre an hour, and hours across a half-hour zone's midnight count by their share."""
    first = datetime(day.year, day.month, day.day, tzinfo=UTC) - timedelta(days=1)
    found = days_of(steps(first, 72), clock(zone), day)
    assert found[day]["rain_mm"] == pytest.approx(hours / 2, abs=0.051)  # rounded to tenths


def test_six_hours_across_midnight_fall_on_both_days_by_their_share() -> None:
    """Steps from 18:00 UTC: the first has five of its six hours on the 9th in Lisbon."""
    long = steps(datetime(2026, 7, 9, 18, tzinfo=UTC), 9, hours=6, high_degc=25, low_degc=9)
    found = days_of(long, clock(), JULY)
    assert found[JULY]["rain_mm"] == 2.0
    assert (found[JULY]["high_degc"], found[JULY]["low_degc"]) == (25, 9)


def test_readings_hours_apart_tell_no_extremes() -> None:
    found = days_of(steps(datetime(2026, 7, 9, 18, tzinfo=UTC), 9, hours=6), clock(), JULY)[JULY]
    assert "high_degc" not in found and "low_degc" not in found
    assert found["wind_mps"] == 3


def test_what_one_step_leaves_out_the_day_leaves_out() -> None:
    whole = steps(datetime(2026, 7, 9, 23, tzinfo=UTC), 24)
    whole[3] = Step(whole[3].starts, whole[3].ends, {"temp_degc": 2.0}, {})
    assert days_of(whole, clock(), JULY)[JULY] == {"high_degc": 23, "low_degc": 0}


def test_a_step_too_long_is_a_hole() -> None:
    assert days_of(steps(datetime(2026, 7, 9, 11, tzinfo=UTC), 6, hours=12), clock(), JULY) == {}


def test_no_more_days_than_matter_are_told() -> None:
    found = days_of(steps(datetime(2026, 7, 9, 23, tzinfo=UTC), 24 * 14), clock(), JULY)
    assert max(found) == JULY + timedelta(days=MOST_AHEAD_DAYS)


def test_steps_out_of_order_or_without_end_are_no_forecast() -> None:
    two = steps(datetime(2026, 7, 9, 23, tzinfo=UTC), 2)
    for broken in (two[::-1], [two[0], two[0]], [Step(5, 5)], steps(datetime(2026, 1, 1, tzinfo=UTC), MOST_STEPS + 1)):
        with pytest.raises(Malformed):
            in_order(broken)
