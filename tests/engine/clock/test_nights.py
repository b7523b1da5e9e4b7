"""Nights from noon to noon: each second in exactly one of them, whatever the clock does."""

from __future__ import annotations

from datetime import date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pengan.engine.clock.fault import ClockFault
from pengan.engine.clock.nights import FIRST, LAST, night_at, night_on
from pengan.engine.clock.zones import SiteClock, dated_clock, rule_clock, zone_clock, zone_names

NOON_GAP = dated_clock("+00:00, 2026-05-10T11:30Z +01:00, 2026-09-10T11:30Z +00:00")
"""A clock that goes forward at half past eleven in the morning, and back at half past twelve."""

clocks = st.one_of(
    st.sampled_from(sorted(zone_names())).map(zone_clock),
    st.sampled_from(["AAA3BBB2:30,J50/12,J200/12", "IST-1GMT0,M10.5.0,M3.5.0/1"]).map(rule_clock),
    st.just(NOON_GAP),
)
days = st.dates(date(1960, 1, 1), date(2100, 1, 1))


@given(clocks, days)
def test_a_night_ends_where_the_next_begins(clock: SiteClock, day: date) -> None:
    night, following = night_on(clock, day), night_on(clock, day + timedelta(days=1))
    assert night.starts <= night.ends == following.starts


@given(clocks, days, st.integers(0, 86_399))
def test_every_second_lies_in_exactly_one_night(clock: SiteClock, day: date, second: int) -> None:
    instant = night_on(clock, day).starts + second
    night = night_at(clock, instant)
    assert night.starts <= instant < night.ends
    others = (night_on(clock, night.date + timedelta(days=days)) for days in (-2, -1, 1, 2))
    assert not any(other.starts <= instant < other.ends for other in others)


@given(clocks, days)
def test_a_night_is_a_day_long_but_for_its_changes(clock: SiteClock, day: date) -> None:
    """Noon that is missing or comes twice belongs to no whole step, so nights at such noons are left out."""
    night = night_on(clock, day)
    ends = [clock.wall(instant) for instant in (night.starts, night.ends)]
    if [wall.hour for wall in ends] == [12, 12]:
        steps = sum(change.step_s for change in clock.changes(night.starts, night.ends))
        twice = sum(clock.wall(instant + 3600).hour == 12 for instant in (night.starts, night.ends))
        assert night.length_s == (ends[1] - ends[0]).total_seconds() - steps or twice


@pytest.mark.parametrize(
    ("zone", "day", "hours"),
    [
        ("Europe/Lisbon", "2026-03-28", 23),
        ("Europe/Lisbon", "2026-10-24", 25),
        ("Australia/Lord_Howe", "2026-04-04", 24.5),
        ("Australia/Lord_Howe", "2026-10-03", 23.5),
        ("Antarctica/Troll", "2026-10-24", 26),
        ("Pacific/Apia", "2011-12-29", 24),
        ("Pacific/Apia", "2011-12-30", 0),
        ("Pacific/Kwajalein", "1993-08-20", 0),
    ],
)
def test_nights_are_as_long_as_the_clock_makes_them(zone: str, day: str, hours: float) -> None:
    """Apia had no December 30 in 2011 and Kwajalein no August 21 in 1993 (tzdata): such a night has no length."""
    lengths = [night_on(zone_clock(zone), date.fromisoformat(day) + timedelta(days=days)).length_s for days in (0, 1)]
    assert hours * 3600 in lengths if hours == 0 else lengths[0] == hours * 3600


def test_a_noon_that_does_not_exist_moves_forward_by_the_gap() -> None:
    before, after = night_on(NOON_GAP, date(2026, 5, 9)), night_on(NOON_GAP, date(2026, 5, 10))
    assert NOON_GAP.wall(after.starts) == datetime(2026, 5, 10, 13, 0)
    assert (before.length_s, after.length_s) == (24 * 3600, 23 * 3600)


def test_a_noon_that_comes_twice_is_the_first() -> None:
    before, after = night_on(NOON_GAP, date(2026, 9, 9)), night_on(NOON_GAP, date(2026, 9, 10))
    assert NOON_GAP.iso(after.starts) == "2026-09-10T12:00:00+01:00"
    assert (before.length_s, after.length_s) == (24 * 3600, 25 * 3600)


@pytest.mark.parametrize("day", [FIRST - timedelta(days=1), LAST + timedelta(days=1), date.max, date.min])
def test_a_night_no_one_will_see_is_a_fault_that_names_the_limits(day: date) -> None:
    with pytest.raises(ClockFault) as raised:
        night_on(NOON_GAP, day)
    assert raised.value.message.params == {
        "first_date": FIRST.isoformat(),
        "last_date": LAST.isoformat(),
        "asked_date": day.isoformat(),
    }


def test_an_instant_beyond_all_nights_is_the_same_fault() -> None:
    for instant in (-(10**12), -3_000_000_000, 10**11, 10**15):
        with pytest.raises(ClockFault) as raised:
            night_at(NOON_GAP, instant)
        assert raised.value.message.code == "clock.date_out_of_range"
