"""When valves were open, from entries that come late, twice, out of order and not at all."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from hypothesis import given
from hypothesis import strategies as st

from engine.journal.told import a_night, a_park, an_entry, as_planned, closed, opened, run_of
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.journal.openings import CLOSING_UNTOLD, OPENING_UNTOLD, Edge, Opening, doubts, openings

PARK = a_park()
SHEET = a_night(PARK)


def spans(*entries: Entry) -> list[tuple[str, int, int | None]]:
    return [(one.station, one.start, one.end) for one in openings(PARK, entries)]


def test_an_opening_lasts_until_its_closing() -> None:
    assert openings(PARK, [opened("s1", 100), closed("s1", 700)]) == (Opening("s1", 100, 700),)


def test_an_open_valve_has_no_end() -> None:
    assert openings(PARK, [opened("s1", 100)]) == (Opening("s1", 100, None, Edge.TOLD, None),)


def test_order_of_arrival_and_doubles_change_nothing() -> None:
    told = [opened("s1", 100), closed("s1", 700), opened("s1", 900), closed("s1", 1500), opened("s2", 100)]
    shuffled = [*told, *told]
    Random(1).shuffle(shuffled)
    assert openings(PARK, shuffled) == openings(PARK, told)


def test_an_opening_told_by_two_is_one() -> None:
    assert spans(opened("s1", 100), opened("s1", 112), closed("s1", 700), closed("s1", 705)) == [("s1", 100, 700)]


def test_a_closing_never_told_is_put_at_the_end_of_the_run() -> None:
    run = run_of(SHEET, "s1")
    told = [opened("s1", run.start), opened("s1", run.end + 500), closed("s1", run.end + 900)]
    found = openings(PARK, told, SHEET)
    assert [(one.start, one.end, one.ended) for one in found] == [
        (run.start, run.end, Edge.GUESSED),
        (run.end + 500, run.end + 900, Edge.TOLD),
    ]
    assert [doubt.code for doubt in doubts(found)] == [CLOSING_UNTOLD.code]


def test_a_closing_never_told_is_put_at_the_next_opening_where_there_is_no_sheet() -> None:
    assert spans(opened("s1", 100), opened("s1", 900)) == [("s1", 100, 900), ("s1", 900, None)]


def test_an_opening_never_told_is_put_at_the_start_of_the_run() -> None:
    run = run_of(SHEET, "s1")
    found = openings(PARK, [closed("s1", run.end)], SHEET)
    assert found == (Opening("s1", run.start, run.end, Edge.GUESSED, Edge.TOLD),)
    assert [doubt.code for doubt in doubts(found)] == [OPENING_UNTOLD.code]


def test_an_opening_never_told_is_not_made_up_without_a_sheet() -> None:
    assert spans(closed("s1", 700)) == []


def test_lost_power_closes_what_its_controller_had_open_and_nothing_else() -> None:
    told = [opened("s1", 100), opened("s4", 100), an_entry(Kind.POWER_LOST, 400, controller="c1")]
    assert spans(*told) == [("s1", 100, 400), ("s4", 100, None)]


def test_power_lost_at_the_site_closes_everything() -> None:
    told = [opened("s1", 100), opened("s4", 100), an_entry(Kind.POWER_LOST, 400)]
    assert spans(*told) == [("s1", 100, 400), ("s4", 100, 400)]


def test_a_closing_after_power_came_back_means_that_the_run_went_on() -> None:
    run = run_of(SHEET, "s1")
    told = [
        opened("s1", run.start), an_entry(Kind.POWER_LOST, run.start + 100, controller="c1"),
        an_entry(Kind.POWER_BACK, run.start + 300, controller="c1"), closed("s1", run.end),
    ]  # fmt: skip
    assert [(one.start, one.end, one.began) for one in openings(PARK, told, SHEET)] == [
        (run.start, run.start + 100, Edge.TOLD),
        (run.start + 300, run.end, Edge.POWER),
    ]


def test_a_closing_told_of_a_dark_cabinet_opens_nothing() -> None:
    run = run_of(SHEET, "s1")
    told = [
        opened("s1", run.start), an_entry(Kind.POWER_LOST, run.start + 100, controller="c1"), closed("s1", run.end)
    ]  # fmt: skip
    assert [(one.start, one.end) for one in openings(PARK, told, SHEET)] == [(run.start, run.start + 100)]


def test_closing_and_opening_in_one_second_follow_each_other() -> None:
    assert spans(opened("s1", 100), opened("s1", 700), closed("s1", 700)) == [("s1", 100, 700), ("s1", 700, None)]


def test_unknown_stations_count_nothing() -> None:
    assert spans(opened("nowhere", 100)) == []


instants = st.integers(0, 5000)
entries = st.lists(
    st.one_of(
        st.builds(lambda at, s: opened(s, at), instants, st.sampled_from(["s1", "s4"])),
        st.builds(lambda at, s: closed(s, at), instants, st.sampled_from(["s1", "s4"])),
        st.builds(lambda at, c: an_entry(Kind.POWER_LOST, at, controller=c), instants, st.sampled_from(["c1", None])),
        st.builds(lambda at, c: an_entry(Kind.POWER_BACK, at, controller=c), instants, st.sampled_from(["c1", None])),
    ),
    max_size=14,
)


@given(entries, st.randoms(use_true_random=False), st.booleans())
def test_openings_of_a_valve_never_overlap_whatever_is_told(told: list[Entry], chance: Random, known: bool) -> None:
    near = [replace(entry, at=SHEET.runs[0].start - 1000 + entry.at) for entry in told]
    found = openings(PARK, near, SHEET if known else None)
    shuffled = [*near, *near[:3]]
    chance.shuffle(shuffled)
    assert openings(PARK, shuffled, SHEET if known else None) == found
    for station in ("s1", "s4"):
        own = [one for one in found if one.station == station]
        assert all(one.end is None or one.start < one.end for one in own)
        assert all(a.end is not None and a.end <= b.start for a, b in zip(own, own[1:], strict=False))


def test_a_night_as_planned_gives_its_runs() -> None:
    found = {(one.station, one.start, one.end) for one in openings(PARK, as_planned(SHEET), SHEET)}
    assert found == {(run.station, run.start, run.end) for run in SHEET.runs}
