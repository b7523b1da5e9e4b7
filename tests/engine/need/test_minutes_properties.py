"""What always holds between millimetres and minutes."""

from __future__ import annotations

from itertools import accumulate

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pengan.engine.need.intake import Cycles, Intake, intake_of, most_within, ran_off_mm, split_run
from pengan.engine.need.minutes import inflow, over_hydrozone, run_time
from pengan.engine.need.rates import MULTIPLIERS, Rate, multiplier

TEXTURES = ("sand", "loamy_sand", "sandy_loam", "loam", "silt_loam", "clay_loam", "clay")
INTAKES = st.builds(intake_of, st.sampled_from(TEXTURES), st.floats(0, 40))
RATES = st.floats(2, 100)
EVENNESS = st.floats(0.2, 1.0)


def spans(split: Cycles) -> list[tuple[float, float]]:
    """The cycles laid out with their soaks, the longer ones first, as a night's plan lays them out."""
    each, over = divmod(split.run_s, split.cycles) if split.cycles else (0, 0)
    lengths = [each + (number < over) for number in range(split.cycles)]
    starts = [0, *accumulate(length + split.soak_s for length in lengths)]
    return [(start, start + length) for start, length in zip(starts, lengths, strict=False)]


@given(st.floats(0, 60), st.floats(0, 60), RATES, EVENNESS, st.sampled_from(MULTIPLIERS))
def test_minutes_grow_with_need(less: float, more: float, rate: float, even: float, rule: str) -> None:
    less, more = sorted((less, more))
    station = Rate("st", rate, even, "audit")
    assert (
        run_time(less, station, None, rule=rule).wanted.run_s <= run_time(more, station, None, rule=rule).wanted.run_s
    )


@given(st.floats(0, 60), RATES, EVENNESS, EVENNESS, st.sampled_from(MULTIPLIERS))
def test_minutes_fall_with_uniformity(need: float, rate: float, worse: float, better: float, rule: str) -> None:
    worse, better = sorted((worse, better))
    uneven = run_time(need, Rate("st", rate, worse, "audit"), None, rule=rule).wanted.run_s
    assert uneven >= run_time(need, Rate("st", rate, better, "audit"), None, rule=rule).wanted.run_s


def test_minutes_do_change() -> None:
    def seconds(need: float, even: float) -> int:
        return run_time(need, Rate("st", 18, even, "audit"), None).wanted.run_s

    assert seconds(6, 0.7) < seconds(12, 0.7) < seconds(12, 0.5)


@given(st.integers(1, 12 * 3600), RATES, INTAKES)
def test_a_split_run_never_runs_off(run_s: int, rate: float, place: Intake) -> None:
    split = split_run(run_s, rate, place)
    assert split.run_s == run_s
    assert ran_off_mm(spans(split), rate, place) < rate / 3600 + 1e-9


@given(st.integers(1, 12 * 3600), RATES, INTAKES, st.integers(0, 12 * 3600))
def test_what_fits_fits(run_s: int, rate: float, place: Intake, window: int) -> None:
    split = split_run(run_s, rate, place)
    room = most_within(split, window)
    assert room.elapsed_s <= window and room.run_s <= split.run_s
    if room.cycles < split.cycles:
        more = Cycles((room.cycles + 1) * split.longest_s, room.cycles + 1, split.soak_s)
        assert more.elapsed_s > window


@given(RATES, EVENNESS, INTAKES, st.integers(1, 6 * 3600), st.sampled_from(MULTIPLIERS))
def test_water_given_is_shared_out(rate: float, even: float, place: Intake, run_s: int, rule: str) -> None:
    """Given = for the roots + run off + unevenly given; without runoff the roots get the net depth asked for."""
    station = Rate("st", rate, even, "audit")
    whole = inflow([(0, run_s)], station, place, rule)
    assert whole.applied_mm == pytest.approx(rate * run_s / 3600)
    assert min(whole.useful_mm, whole.ran_off_mm, whole.uneven_mm) >= -1e-9
    gentle = inflow([(0, run_s)], station, None, rule)
    assert gentle.useful_mm == pytest.approx(rate * run_s / 3600 / multiplier(even, rule))


def test_a_hydrozone_is_the_mean_of_its_stations_by_area() -> None:
    one, other = (
        inflow([(0, 3600)], Rate("a", 10, 1, "audit"), None),
        inflow([(0, 3600)], Rate("b", 20, 1, "audit"), None),
    )
    assert over_hydrozone([(one, 300), (other, 100)]).applied_mm == pytest.approx(12.5)
    assert over_hydrozone([]).applied_mm == 0
