"""What a night used: rows that add up, meters beside them, and nothing made up."""

from __future__ import annotations

from collections import Counter
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builders import a_hydrozone, a_station
from engine.journal.told import a_night, a_park, an_entry, as_planned, closed, flow, opened, run_of
from pengan.engine.catch_up.happened import from_journal
from pengan.engine.catch_up.rest import Way, rest_of_night
from pengan.engine.journal.counts import Reading
from pengan.engine.journal.delivered import Lost
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.journal.unaccounted import meter_sum, topmost
from pengan.engine.journal.used import MeterNight, NightUsed, Water, Where, night_used

STATIONS = {"s1": ("a", "c1", 60, "lawn"), "s2": ("a", "c1", 40, "roses"), "s3": ("b", "c1", 30, "lawn")}
PARK = a_park(
    hydrozones=[a_hydrozone("lawn"), a_hydrozone("roses")],
    stations=[
        *(
            a_station(id, supply=supply, controller=cabinet, flow_lpm=lpm, hydrozone=zone)
            for id, (supply, cabinet, lpm, zone) in STATIONS.items()
        ),
        a_station("s4", supply="b", controller="c2", flow_lpm=20),
    ],
)
SHEET = a_night(PARK)
RUN = run_of(SHEET, "s1")
PLANNED = round(SHEET.volume_l * 1000)
MONDAY = date(2026, 7, 6)


def used(*entries: Entry) -> NightUsed:
    return night_used(PARK, SHEET, entries)


def total(night: NightUsed) -> Water:
    return sum(night.rows.values(), Water())


def test_a_night_as_planned_came_as_planned() -> None:
    night = used(*as_planned(SHEET))
    assert total(night) == Water(PLANNED, PLANNED)
    assert (night.is_told, night.says) == (True, ())
    assert night.rows[Where("a", "p1", "lawn")] == Water(1_200_000, 1_200_000)
    assert night.rows[Where("b", "p1", "")].planned_ml == 400_000


def test_where_nothing_is_told_delivered_is_not_known_and_the_plan_is_assumed() -> None:
    night = used()
    assert not night.is_told
    assert total(night) == Water(PLANNED, assumed_ml=PLANNED)


def test_what_was_lost_is_told_by_its_reason() -> None:
    cut = an_entry(Kind.POWER_LOST, RUN.start + 200, controller="c1")
    row = used(opened("s1", RUN.start), cut).rows[Where("a", "p1", "lawn")]
    assert row == Water(1_200_000, 200_000, lost={Lost.POWER: 1_000_000})


def test_what_runs_on_and_what_nobody_planned_stand_apart() -> None:
    others = [one for one in as_planned(SHEET) if one.station != "s1"]
    on = [opened("s1", RUN.start), closed("s1", RUN.end + 60)]
    far = [opened("s1", RUN.end + 9000), closed("s1", RUN.end + 9120)]
    assert total(used(*others, *on, *far)) == Water(PLANNED, PLANNED, beyond_ml=60_000 + 120_000)


def test_an_opening_that_nobody_saw_closing_ends_with_its_run_and_an_unplanned_one_counts_for_nothing() -> None:
    others = [one for one in as_planned(SHEET) if one.station != "s1"]
    night = used(*others, opened("s1", RUN.start), opened("s4", SHEET.ends - 7200))
    assert total(night) == Water(PLANNED, PLANNED)
    assert [message.code for message in night.says] == ["used.closed_by_sheet", "used.never_closed"]


kinds = st.sampled_from([kind for kind in Kind if kind.value.split("_")[0] not in ("alarm", "note", "finding")])


@given(st.lists(st.tuples(kinds, st.integers(-600, 4000), st.sampled_from(["s1", "s2", "s3", "s4"])), max_size=25))
def test_sums_by_supply_program_and_hydrozone_are_the_same_water(told: list[tuple[Kind, int, str]]) -> None:
    fields = {"controller": "c1", "supply": "a", "flow_lpm": 25.0, "count_l": 1.0}
    night = used(*(an_entry(kind, RUN.start + at, station=station, **fields) for kind, at, station in told))
    whole = total(night)
    assert whole.planned_ml == PLANNED == whole.delivered_ml + whole.assumed_ml + whole.lost_ml
    for place in range(3):
        came: Counter[str] = Counter()
        lost: Counter[str] = Counter()
        for where, water in night.rows.items():
            came[where[place]] += water.came_ml
            lost[where[place]] += water.lost_ml
        assert (came.total(), lost.total()) == (whole.came_ml, whole.lost_ml)
    assert all(part >= 0 for water in night.rows.values() for part in (*water.lost.values(), water.beyond_ml))


def test_a_low_flow_is_lost_water_too() -> None:
    readings = [flow("a", at, 30) for at in range(RUN.start + 60, RUN.end, 60)]
    alone = [one for one in as_planned(SHEET) if one.station not in ("s2",)]
    row = used(*alone, *readings).rows[Where("a", "p1", "lawn")]
    assert row.lost == {Lost.LOW_FLOW: row.planned_ml - row.delivered_ml}
    assert row.delivered_ml < row.planned_ml


@pytest.mark.parametrize("way", list(Way))
def test_what_an_interruption_took_is_lost_and_what_was_made_up_for_is_not(way: Way) -> None:
    """Worked out anew, the sheet has as runs what ran: still the whole night was planned."""
    cut = [
        an_entry(Kind.POWER_LOST, RUN.start + 300, controller="c1"),
        an_entry(Kind.POWER_BACK, RUN.start + 900, controller="c1"),
    ]
    now = RUN.start + 900
    before = [one for one in as_planned(SHEET) if one.at < RUN.start + 300]
    rest = rest_of_night(PARK, SHEET, now, from_journal(PARK, SHEET, [*before, *cut], now), way=way, effort=2).sheet
    after = [one for one in as_planned(rest) if one.at >= now]
    night = night_used(PARK, rest, [*before, *cut, *after])
    whole = total(night)
    assert whole.planned_ml == pytest.approx(PLANNED, abs=10)
    assert whole.planned_ml == whole.delivered_ml + whole.assumed_ml + whole.lost_ml
    if way is Way.KEEP:
        assert whole.lost[Lost.POWER] >= 600_000
    else:
        assert whole.lost_ml == 0


def counts(*readings: tuple[int, float], supply: str = "town") -> list[Entry]:
    return [an_entry(Kind.COUNT, at, supply=supply, count_l=litres) for at, litres in readings]


def test_a_meter_is_held_against_all_that_came_below_it_between_its_readings() -> None:
    night = used(*as_planned(SHEET), *counts((SHEET.starts, 10_000), (SHEET.ends - 1, 10_000 + SHEET.volume_l + 25)))
    meter = night.meters["town"]
    assert (meter.counted_ml - meter.came_ml, meter.came_ml) == (25_000, PLANNED)
    assert (meter.before_ml, meter.after_ml) == (0, 0)


def test_readings_in_the_middle_of_a_run_take_its_part() -> None:
    halfway = RUN.start + 300
    night = used(*as_planned(SHEET), *counts((halfway, 0), (SHEET.ends - 1, 5000), supply="a"))
    meter = night.meters["a"]
    assert meter.before_ml + meter.came_ml == 2_000_000
    assert meter.before_ml >= 300_000


def a_meter(first: tuple[int, int], last: tuple[int, int], came: int, before: int = 0, after: int = 0) -> MeterNight:
    return MeterNight(Reading(*first), Reading(*last), last[1] - first[1], came, before, after)


def test_a_meter_read_once_a_week_is_held_against_the_week() -> None:
    first = a_meter((100, 5_000), (100, 5_000), 0, before=30, after=70)
    week_after = a_meter((900, 5_700), (900, 5_700), 0, before=40, after=60)
    through = {MONDAY + timedelta(days=number): 100 for number in range(8)}
    found = meter_sum("town", [(MONDAY, first), (MONDAY + timedelta(days=7), week_after)], through, None)
    assert found is not None
    assert (found.counted_ml, found.came_ml, found.unaccounted_ml) == (700, 70 + 600 + 40, -10)


def test_a_night_that_was_never_reckoned_up_leaves_the_week_out_and_says_so() -> None:
    days = [
        (MONDAY, a_meter((100, 0), (200, 50), 45)),
        (MONDAY + timedelta(days=2), a_meter((900, 90), (990, 120), 31)),
    ]
    found = meter_sum("town", days, {}, None)
    assert found is not None
    assert (found.counted_ml, found.came_ml) == (80, 76)
    assert [message.code for message in found.says] == ["unaccounted.nights_unknown"]


def test_a_roll_over_from_one_night_to_the_next_counts() -> None:
    nights = [(MONDAY, a_meter((1, 900), (2, 990), 90)), (MONDAY + timedelta(days=1), a_meter((3, 10), (4, 60), 50))]
    found = meter_sum("town", nights, {}, 1000)
    assert found is not None
    assert (found.counted_ml, found.came_ml) == (160, 140)


@pytest.mark.parametrize("nights", [[], [(MONDAY, a_meter((5, 7), (5, 7), 0))]])
def test_one_reading_tells_of_no_water(nights: list[tuple[date, MeterNight]]) -> None:
    assert meter_sum("town", nights, {}, None) is None


def test_a_meter_below_another_is_not_counted_twice() -> None:
    assert topmost(PARK, ["a", "b", "town"]) == ["town"]
    assert topmost(PARK, ["a", "b", "gone"]) == ["a", "b"]


@given(lpm=st.floats(20, 90))
def test_with_a_learned_flow_every_row_still_adds_up_and_the_plan_stays(lpm: float) -> None:
    night = night_used(PARK, SHEET, as_planned(SHEET), flows={"s1": lpm, "gone": 5.0})
    assert total(night).planned_ml == PLANNED
    for water in night.rows.values():
        assert water.planned_ml == water.delivered_ml + water.assumed_ml + water.lost_ml
    came = round(round(lpm * 1000) * 20)
    assert night.rows[Where("a", "p1", "lawn")].came_ml == pytest.approx(came, abs=1)
    assert [dict(message.params) for message in night.says] == [
        {"night_date": SHEET.night, "learned": 1, "stations": 4}
    ]
