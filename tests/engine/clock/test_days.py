"""Day rules: on which calendar dates something happens."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pengan.engine.clock.days import WEEKDAYS, holds
from pengan.engine.document.tables import DAY_RULES, Program

days = st.dates(date(2000, 1, 1), date(2100, 1, 1))


def dates_of(first: str, count: int, **rule: Any) -> list[str]:
    """The dates among so many on which a rule holds, as `MM-DD`."""
    program = Program(id="p", name="P", **rule)
    start = date.fromisoformat(first)
    every = (start + timedelta(days=number) for number in range(count))
    return [f"{day:%m-%d}" for day in every if holds(program, day)]


@pytest.mark.parametrize(
    ("rule", "dates"),
    [
        ({"days": "every_day"}, ["02-26", "02-27", "02-28", "02-29", "03-01", "03-02"]),
        ({"days": "weekdays", "weekdays": "mon, fri"}, ["02-26", "03-01"]),
        ({"days": "odd"}, ["02-27", "02-29", "03-01"]),
        ({"days": "even"}, ["02-26", "02-28", "03-02"]),
        ({"days": "every_n", "every_n_days": 3, "every_from": "2024-02-27"}, ["02-27", "03-01"]),
        ({"days": "dates", "dates": "2024-02-29, 2023-03-01,2024-03-02"}, ["02-29", "03-02"]),
        ({"days": "asked"}, []),
        ({"season_from": "02-28", "season_to": "03-01"}, ["02-28", "02-29", "03-01"]),
        ({"season_to": "02-28"}, ["02-26", "02-27", "02-28"]),
        ({"season_from": "03-01"}, ["03-01", "03-02"]),
        ({"days": "odd", "season_from": "11-15", "season_to": "02-28"}, ["02-27"]),
    ],
)
def test_a_rule_holds_on_its_dates_at_the_end_of_a_leap_february(rule: dict[str, Any], dates: list[str]) -> None:
    """2024-02-26 is a Monday. February 29 and March 1 are both odd: two days in a row, as the rule says."""
    assert dates_of("2024-02-26", 6, **rule) == dates


def test_a_season_may_run_over_the_turn_of_the_year() -> None:
    assert dates_of("2025-12-30", 4, season_from="11-01", season_to="01-01") == ["12-30", "12-31", "01-01"]


@given(days, st.integers(1, 366), st.integers(0, 3000))
def test_every_n_days_counts_from_its_first_date_and_never_before_it(first: date, n: int, later: int) -> None:
    rule = Program(id="p", name="P", days="every_n", every_n_days=n, every_from=first.isoformat())
    assert holds(rule, first + timedelta(days=later)) == (later % n == 0)
    assert not holds(rule, first - timedelta(days=n))


@given(days)
def test_each_date_is_one_weekday_and_odd_or_even(day: date) -> None:
    weekdays = [holds(Program(id="p", name="P", days="weekdays", weekdays=name), day) for name in WEEKDAYS]
    assert sum(weekdays) == 1 and weekdays[day.weekday()]
    assert holds(Program(id="p", name="P", days="odd"), day) != holds(Program(id="p", name="P", days="even"), day)


@given(days, st.dates(date(2001, 1, 1), date(2001, 12, 31)), st.dates(date(2001, 1, 1), date(2001, 12, 31)))
def test_a_season_and_the_rest_of_the_year_share_only_their_ends(day: date, first: date, last: date) -> None:
    season = Program(id="p", name="P", season_from=f"{first:%m-%d}", season_to=f"{last:%m-%d}")
    rest = Program(id="p", name="P", season_from=f"{last:%m-%d}", season_to=f"{first:%m-%d}")
    if first != last:
        ends = {(first.month, first.day), (last.month, last.day)}
        assert (holds(season, day) and holds(rest, day)) == ((day.month, day.day) in ends)
        assert holds(season, day) or holds(rest, day)


def test_every_kind_of_rule_is_known() -> None:
    assert [holds(Program(id="p", name="P", days=kind), date(2026, 1, 1)) for kind in DAY_RULES] == [
        True, False, False, True, False, False, False,
    ]  # fmt: skip
