"""What runs gave, and what was lost of them and why."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.journal.told import a_night, a_park, an_entry, as_planned, closed, flow, opened, run_of
from pengan.engine.journal.delivered import Delivered, Loss, Lost, delivered
from pengan.engine.journal.entry import Entry, Kind

PARK = a_park()
SHEET = a_night(PARK)
RUN = run_of(SHEET, "s1")


def of_s1(*entries: Entry, now: int = SHEET.ends) -> Delivered:
    found = delivered(PARK, SHEET, [*entries], now)
    return next(one for one in found.runs if one.run.station == "s1")


def rest(station: str = "s1") -> list[Entry]:
    return [entry for entry in as_planned(SHEET) if entry.station != station]


def test_a_night_as_planned_delivers_all_of_it() -> None:
    found = delivered(PARK, SHEET, as_planned(SHEET), SHEET.ends)
    assert [(one.delivered_s, one.delivered_l, one.lost) for one in found.runs] == [
        (run.end - run.start, run.volume_l, ()) for run in SHEET.runs
    ]
    assert found.extras == ()
    assert found.by_turn()["p1.s1"] == (1200, 1200)


def test_a_cut_takes_what_is_left_of_the_run() -> None:
    one = of_s1(opened("s1", RUN.start), an_entry(Kind.POWER_LOST, RUN.start + 200, controller="c1"))
    assert (one.delivered_s, one.delivered_l) == (200, 200)
    assert one.lost == (Loss(Lost.POWER, 1000, 1000),)


def test_an_open_valve_below_a_shut_main_gives_nothing() -> None:
    shut = [an_entry(Kind.SHUT, RUN.start + 300, supply="town"), an_entry(Kind.FREED, RUN.start + 500, supply="town")]
    one = of_s1(opened("s1", RUN.start), *shut, closed("s1", RUN.end))
    assert (one.delivered_s, one.lost) == (1000, (Loss(Lost.SHUT, 200, 200),))


def test_closed_early_opened_late_and_never_opened_are_told_apart() -> None:
    early = of_s1(opened("s1", RUN.start), closed("s1", RUN.end - 100))
    late = of_s1(opened("s1", RUN.start + 100), closed("s1", RUN.end))
    never = of_s1(*rest())
    assert [one.lost for one in (early, late, never)] == [
        (Loss(Lost.CLOSED_EARLY, 100, 100),),
        (Loss(Lost.OPENED_LATE, 100, 100),),
        (Loss(Lost.NOT_OPENED, 1200, 1200),),
    ]
    assert never.told


def test_what_was_made_good_later_is_not_lost() -> None:
    one = of_s1(opened("s1", RUN.start + 100), closed("s1", RUN.end + 100))
    assert (one.delivered_s, one.lost) == (1200, ())


def test_where_nobody_tells_of_valves_the_sheet_is_believed_but_for_the_outages() -> None:
    assert not of_s1().told
    assert of_s1().delivered_s == 1200
    stop = [an_entry(Kind.STOPPED, RUN.start + 200, text="rain"), an_entry(Kind.LIFTED, RUN.end, text="")]
    assert of_s1(*stop).lost == (Loss(Lost.STOPPED, 1000, 1000),)


def test_until_now_counts_only_what_is_past() -> None:
    one = of_s1(*as_planned(SHEET), now=RUN.start + 500)
    assert (one.due_s, one.delivered_s, one.lost) == (500, 500, ())
    before = of_s1(*as_planned(SHEET), now=RUN.start - 10)
    assert (before.due_s, before.delivered_s, before.lost) == (0, 0, ())


def test_a_meter_that_reads_half_says_that_half_the_water_came() -> None:
    readings = [flow("a", at, 30) for at in range(RUN.start + 60, RUN.end, 60)]
    alone = [*rest("s1"), opened("s1", RUN.start), closed("s1", RUN.end), *readings]
    one = of_s1(*[entry for entry in alone if entry.station != "s2"])
    assert (one.delivered_s, one.delivered_l) == (1200, 600)
    assert one.lost == (Loss(Lost.LOW_FLOW, 0, 600),)


def test_more_than_was_asked_for_reached_nobody() -> None:
    readings = [flow("a", at, 200) for at in range(RUN.start + 60, RUN.end, 60)]
    assert of_s1(*as_planned(SHEET), *readings).delivered_l == 1200


def test_an_opening_far_from_every_run_is_an_extra() -> None:
    far = [opened("s1", RUN.end + 9000), closed("s1", RUN.end + 9060)]
    found = delivered(PARK, SHEET, [*as_planned(SHEET), *far], SHEET.ends)
    assert [(one.delivered_s, one.delivered_l) for one in found.extras] == [(60, 60)]


@given(
    st.lists(
        st.tuples(st.sampled_from(list(Kind)[:10]), st.integers(-600, 2400), st.sampled_from(["s1", "s3", "s4"])),
        max_size=10,
    ),
    st.integers(-100, 3000),
)
def test_losses_and_deliveries_add_up_to_what_was_due(told: list[tuple[Kind, int, str]], now: int) -> None:
    fields = {"controller": "c1", "supply": "a", "flow_lpm": 50.0, "count_l": 1.0}
    entries = [an_entry(kind, RUN.start + at, station=station, **fields) for kind, at, station in told]
    for one in delivered(PARK, SHEET, entries, RUN.start + now).runs:
        missing = sum(loss.seconds for loss in one.lost)
        assert missing == max(0, one.due_s - one.delivered_s)
        assert one.delivered_s >= 0
        assert one.delivered_l + sum(loss.volume_l for loss in one.lost) == pytest.approx(
            max(one.delivered_s, one.due_s) * one.run.flow_lpm / 60, abs=0.01
        )
