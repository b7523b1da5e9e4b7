"""How many millimetres, on which night."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from pengan.engine.need.balance import Balance, balance, extended
from pengan.engine.need.days import DayIn, Inflow
from pengan.engine.need.decide import Decision, Drought, Expected, Manner, decide, need_since_watering
from pengan.engine.need.soil import RootZone

ZONE = RootZone(80, 0.5, adjusts=False)
TODAY = date(2026, 7, 6)
FIVE = [Expected(5.0)] * 14


def until_today(depletion: float) -> Balance:
    """A balance that ends today with this depletion: tonight's watering is counted on the day after."""
    return balance(ZONE, TODAY, depletion - 5, [DayIn(5)])


def deciding(depletion: float, manner: Manner | None = None, **more: object) -> Decision:
    return decide("hz", until_today(depletion), TODAY, FIVE, manner or Manner(), **more)  # type: ignore[arg-type]


def test_water_comes_before_plants_lack_it() -> None:
    """40 mm come with ease; tomorrow takes 5. At 35 there is still time, at 36 there is not."""
    later, now = deciding(35), deciding(36)
    assert later.tonight_mm == 0 and (later.next_night, later.next_mm) == (TODAY + timedelta(days=1), 40)
    assert later.message.code == "need.later"
    assert now.tonight_mm == 36 and now.message.code == "need.tonight" and now.ready_mm == 40


def test_one_day_ahead_is_enough_for_tonight() -> None:
    found = decide("hz", until_today(36), TODAY, FIVE[:1], Manner())
    assert found.tonight_mm == 36


def test_nights_on_which_nothing_is_allowed_are_thought_of() -> None:
    """At 25, with water allowed again only in four nights, waiting would lead to 45: water tonight."""
    every_fourth = [TODAY + timedelta(days=4 * number) for number in range(5)]
    assert deciding(25, allowed=every_fourth.__contains__).tonight_mm == 25
    assert deciding(19, allowed=every_fourth.__contains__).next_night == TODAY + timedelta(days=4)


def test_no_water_on_a_closed_night() -> None:
    found = deciding(50, allowed=lambda night: night != TODAY)
    assert found.tonight_mm == 0 and found.next_night == TODAY + timedelta(days=1)


def test_fixed_days_water_whatever_is_lacking() -> None:
    manner = Manner("days")
    assert deciding(8, manner).tonight_mm == 8
    found = deciding(8, manner, allowed=lambda night: night == TODAY + timedelta(days=2))
    assert (found.next_night, found.next_mm) == (TODAY + timedelta(days=2), 18)


def test_room_is_left_for_rain_and_small_depths_wait() -> None:
    assert deciding(38, Manner(leave_mm=10)).tonight_mm == 28
    assert deciding(38, Manner(most_mm=12)).tonight_mm == 12
    assert deciding(6, Manner("days", least_mm=7)).next_mm == 11


def test_expected_rain_may_make_a_night_wait() -> None:
    wet = [Expected(5, 20), *FIVE]
    assert decide("hz", until_today(36), TODAY, wet, Manner()).next_night == TODAY + timedelta(days=4)


def test_a_drought_cuts_by_priority() -> None:
    drought = Drought({1: 100, 5: 60, 9: 0})
    whole = deciding(38, Manner(priority=1), drought=drought)
    part, nothing = deciding(38, drought=drought), deciding(38, Manner(priority=9), drought=drought)
    assert whole.tonight_mm == 38 and part.tonight_mm == pytest.approx(0.6 * 38)
    assert part.message.code == "need.tonight_share" and part.message.params["share_pct"] == 60
    assert nothing.tonight_mm == 0 and nothing.message.code == "need.drought_off"


def test_a_drought_gives_its_share_of_need_in_the_long_run() -> None:
    """A year at 60 %: the water given is 60 % of what unstressed plants would have used, not all of it."""
    kept, given = until_today(38), 0.0
    for number in range(365):
        night = TODAY + timedelta(days=number)
        found = decide("hz", kept, night, FIVE[:2], Manner(), drought=Drought({5: 60}))
        given += found.tonight_mm
        kept = extended(kept, [DayIn(5, watering=Inflow(found.tonight_mm))])
    assert given == pytest.approx(0.6 * 5 * 365, rel=0.03)


def test_a_year_without_drought_replaces_what_plants_use_and_never_lets_them_lack() -> None:
    kept = until_today(5)
    for number in range(365):
        night = TODAY + timedelta(days=number)
        depth = decide("hz", kept, night, FIVE[:2], Manner()).tonight_mm
        kept = extended(kept, [DayIn(5, watering=Inflow(depth))])
    assert all(out.taken_mm == pytest.approx(5) for out in kept.outs)
    assert max(out.depletion_mm for out in kept.outs) <= 40
    assert sum(out.percolated_mm for out in kept.outs) == 0


def test_need_since_the_last_watering() -> None:
    kept = balance(ZONE, TODAY, 10, [DayIn(5), DayIn(5, watering=Inflow(20)), DayIn(4, 1, 1), DayIn(6)])
    assert need_since_watering(kept) == 5 + 3 + 6
    assert need_since_watering(until_today(38)) == 38


def test_nothing_in_sight_and_nothing_known_are_told() -> None:
    quiet = decide("hz", until_today(5), TODAY, [Expected(0.1)] * 5, Manner())
    assert (quiet.message.code, quiet.message.params["days_count"]) == ("need.not_in_sight", 5)
    blind = decide("hz", until_today(5), TODAY + timedelta(days=3), FIVE[:1], Manner())
    assert blind.tonight_mm == 0 and blind.message.code == "need.no_days_ahead"
