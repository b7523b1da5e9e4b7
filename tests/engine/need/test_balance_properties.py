"""What always holds of the soil's water, whatever the weather, the planting and the watering."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from pengan.engine.need.balance import Balance, balance, extended, follow, revised, sums
from pengan.engine.need.days import DayIn, Inflow, day_in
from pengan.engine.need.rain import RULES, split_rain
from pengan.engine.need.soil import RootZone, fraction_on, stress

FIRST = date(2024, 2, 20)
MM = st.floats(0, 60)
ZONES = st.builds(RootZone, st.floats(5, 400), st.floats(0.1, 0.8), st.booleans())


@st.composite
def inflows(draw: st.DrawFn) -> Inflow:
    applied = draw(st.just(0.0) | MM)
    ran_off = applied * draw(st.floats(0, 1))
    return Inflow(applied, ran_off, (applied - ran_off) * draw(st.floats(0, 1)))


DAYS = st.builds(
    day_in, st.floats(0, 20), st.floats(0, 15), st.just(0.0) | MM | st.floats(0, 500), st.sampled_from(RULES), inflows()
)
SEASONS = st.lists(DAYS, min_size=1, max_size=60)


@given(ZONES, st.floats(-10, 500), SEASONS, st.booleans())
def test_the_balance_closes(zone: RootZone, start: float, days: list[DayIn], drains_first: bool) -> None:
    total = sums(balance(zone, FIRST, start, days, drains_first=drains_first))
    assert abs(total.unexplained_mm) < 0.01


def test_the_balance_closes_over_thirty_years() -> None:
    zone = RootZone(60, 0.45)
    days = [
        day_in(
            2 + day % 7, 5, 40.0 if day % 11 == 0 else 0.3, "events", Inflow(9, 1, 1.5) if day % 4 == 0 else Inflow()
        )
        for day in range(30 * 365)
    ]
    total = sums(balance(zone, FIRST, 20, days))
    assert abs(total.unexplained_mm) < 1e-6
    assert total.percolated_mm > 0 and total.ran_off_mm > 0 and total.used_mm > 0


@given(ZONES, st.floats(-10, 500), SEASONS, st.booleans())
def test_depletion_and_flows_stay_within_bounds(
    zone: RootZone, start: float, days: list[DayIn], drains_first: bool
) -> None:
    kept = balance(zone, FIRST, start, days, drains_first=drains_first)
    for day, out in zip(kept.days, kept.outs, strict=True):
        assert 0 <= out.depletion_mm <= zone.total_mm
        assert -1e-9 <= out.taken_mm <= day.demand_mm + 1e-9
        assert out.percolated_mm >= 0


@given(ZONES, st.floats(0, 400), st.floats(0, 20), MM)
def test_the_loop_is_the_published_formulas(zone: RootZone, start: float, demand: float, inflow: float) -> None:
    """One day by `soil.fraction_on` and `soil.stress` (FAO-56 eq. 84, p. 162), as the written-out loop has it."""
    start = min(start, zone.total_mm)
    taken, _percolated, depletion = next(follow(zone, start, [demand], [inflow]))
    wet = max(0.0, start - inflow)
    by_formula = min(demand * stress(zone, wet, fraction_on(zone, demand)), demand)
    assume(by_formula <= zone.total_mm - wet)
    assert taken == pytest.approx(by_formula, abs=1e-9)
    assert depletion == pytest.approx(max(0.0, start - inflow + taken), abs=1e-9)


@given(ZONES, st.floats(0, 100), SEASONS, st.data())
def test_a_late_observation_gives_what_order_would_have_given(
    zone: RootZone, start: float, days: list[DayIn], data: st.DataObject
) -> None:
    """To the last digit: the season with one day corrected, worked out anew and revised from that day on."""
    place = data.draw(st.integers(0, len(days) - 1))
    corrected = [*days[:place], data.draw(DAYS), *days[place + 1 :]]
    as_known_then = balance(zone, FIRST, start, days)
    late = revised(as_known_then, FIRST + timedelta(days=place), corrected[place:])
    assert late == balance(zone, FIRST, start, corrected)


@given(ZONES, st.floats(0, 100), SEASONS, st.data())
def test_day_by_day_is_all_at_once(zone: RootZone, start: float, days: list[DayIn], data: st.DataObject) -> None:
    cut = data.draw(st.integers(0, len(days)))
    kept: Balance = balance(zone, FIRST, start, days[:cut])
    for day in days[cut:]:
        kept = extended(kept, [day])
    assert kept == balance(zone, FIRST, start, days)
    assert kept.after == FIRST + timedelta(days=len(days))


def test_a_day_outside_the_balance_cannot_be_revised() -> None:
    kept = balance(RootZone(60, 0.5), FIRST, 0, [DayIn(3)])
    with pytest.raises(ValueError, match="2024-02-19"):
        revised(kept, FIRST - timedelta(days=1), [DayIn(3)])


def test_watering_that_refills_takes_the_stress_away() -> None:
    zone = RootZone(50, 0.5, adjusts=False)
    dry = balance(zone, FIRST, 45, [DayIn(5)])
    watered = balance(zone, FIRST, 45, [DayIn(5, watering=Inflow(45))])
    assert dry.outs[0].taken_mm == pytest.approx(5 * 5 / 25) and watered.outs[0].taken_mm == 5


@given(st.sampled_from(RULES), st.floats(0, 2000), st.floats(0, 15))
def test_no_drop_of_rain_is_lost_from_the_count(rule: str, fell: float, reference: float) -> None:
    split = split_rain(rule, fell, reference)
    assert min(split.effective_mm, split.lost_mm) >= 0 and split.ran_off_mm >= -1e-9
    assert split.effective_mm + split.lost_mm + split.ran_off_mm == pytest.approx(fell, abs=1e-9)
