"""Meters' counters: rises, roll-overs, new meters, and readings that do not fit together."""

from __future__ import annotations

from collections.abc import Sequence

from hypothesis import given
from hypothesis import strategies as st

from engine.journal.told import an_entry
from pengan.engine.journal.counts import Reading, counted, readings_of
from pengan.engine.journal.entry import Entry, Kind

SIX_DIGITS_ML = 1_000_000 * 1000


def count(at: int, litres: float, kind: Kind = Kind.COUNT, supply: str = "town") -> Entry:
    return an_entry(kind, at, supply=supply, count_l=litres)


def codes(*entries: Entry, ends_ml: int | None = SIX_DIGITS_ML) -> tuple[list[int | None], list[str]]:
    """What went through in each step, and what is said about them."""
    found = counted("town", readings_of(entries, "town"), ends_ml)
    return [step.ml for step in found.steps], [message.code for message in found.says()]


def test_a_counter_tells_what_went_through_between_its_readings() -> None:
    assert codes(count(100, 5000), count(300, 5250.5), count(500, 5250.5)) == ([250_500, 0], [])


def test_readings_in_any_order_and_told_twice_are_the_same_readings() -> None:
    readings = [count(500, 5400), count(100, 5000), count(300, 5250)]
    assert codes(*readings, *readings) == ([250_000, 150_000], [])


def test_another_supply_s_counter_is_not_looked_at() -> None:
    assert codes(count(100, 5000), count(200, 7, supply="b"), count(300, 5100)) == ([100_000], [])


def test_a_counter_begins_again_where_its_digits_end() -> None:
    steps = codes(count(100, 999_900), count(300, 150))
    assert steps == ([250_000], ["counts.rolled_over"])


def test_without_its_digits_a_fall_is_not_known_and_said() -> None:
    assert codes(count(100, 999_900), count(300, 150), ends_ml=None) == ([None], ["counts.went_back"])


def test_a_reading_that_went_back_is_no_roll_over_and_the_next_step_counts_again() -> None:
    steps = codes(count(100, 400_000), count(200, 300_000), count(300, 300_100))
    assert steps == ([None, 100_000], ["counts.went_back"])


def test_a_new_meter_goes_on_from_what_it_shows() -> None:
    old, new = count(200, 5100), count(200, 3, Kind.REPLACED)
    assert codes(count(100, 5000), old, new, count(300, 53)) == ([100_000, 0, 50_000], [])


def test_what_the_old_meter_counted_since_it_was_read_last_is_not_known() -> None:
    steps = codes(count(100, 5000), count(200, 3, Kind.REPLACED), count(300, 53))
    assert steps == ([None, 50_000], ["counts.new_meter"])


def test_a_reading_beyond_the_counter_s_end_is_left_out_and_said() -> None:
    steps = codes(count(100, 5000), count(200, 2_000_000), count(300, 5100))
    assert steps == ([100_000], ["counts.beyond_its_end"])


@given(st.lists(st.integers(0, SIX_DIGITS_ML // 2), min_size=1, max_size=20), st.integers(0, SIX_DIGITS_ML - 1))
def test_a_counter_that_is_read_often_enough_tells_all_of_it(rises: Sequence[int], start: int) -> None:
    """However often it rolls over: read before it has risen by half of what it can show, nothing is lost."""
    shown, total = [start], start
    for rise in rises:
        total += rise
        shown.append(total % SIX_DIGITS_ML)
    readings = [Reading(number, value) for number, value in enumerate(shown)]
    assert counted("town", readings, SIX_DIGITS_ML).ml == sum(rises)
