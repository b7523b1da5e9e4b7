"""A night's runs as they came: the sheet's own where nothing says otherwise, and never more water than time."""

from __future__ import annotations

from math import fsum

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builders import a_station
from engine.journal.told import a_night, a_park, an_entry, as_planned, closed, opened, run_of
from pengan.engine.journal.came import Stretch, came
from pengan.engine.journal.entry import Entry, Kind

PARK = a_park()
SHEET = a_night(PARK)
RUN = run_of(SHEET, "s1")
PLANNED_L = fsum(run.volume_l for run in SHEET.runs)


def litres(*entries: Entry, station: str | None = None) -> float:
    return fsum(one.volume_l for one in came(PARK, SHEET, entries) if station in (None, one.station))


@pytest.mark.parametrize("entries", [[], as_planned(SHEET), [an_entry(Kind.NOTE, RUN.start, text="Warm")]])
def test_a_night_as_planned_is_its_runs_themselves(entries: list[Entry]) -> None:
    assert came(PARK, SHEET, entries) == list(SHEET.runs)


@given(share=st.floats(0.01, 0.99))
def test_a_cut_leaves_what_ran_before_it(share: float) -> None:
    at = RUN.start + round((RUN.end - RUN.start) * share)
    cut = an_entry(Kind.POWER_LOST, at, controller="c1")
    got = litres(opened("s1", RUN.start), cut, station="s1")
    assert got == pytest.approx(RUN.volume_l * (at - RUN.start) / (RUN.end - RUN.start), abs=0.001)


@given(begins=st.integers(-7200, 7200), lasts=st.integers(0, 14_400))
def test_without_a_word_of_valves_outages_take_their_time_and_no_more(begins: int, lasts: int) -> None:
    start = RUN.start + begins
    end = start + lasts
    told = [an_entry(Kind.STOPPED, start, text="rain"), an_entry(Kind.LIFTED, end, text="")] if lasts else []
    dry = fsum(run.flow_lpm / 60 * max(0, min(run.end, end) - max(run.start, start)) for run in SHEET.runs)
    assert litres(*told) == pytest.approx(PLANNED_L - dry, abs=0.01)


def test_what_ran_on_and_what_no_run_explains_came_as_well() -> None:
    extra = [opened("s1", RUN.end + 7200), closed("s1", RUN.end + 7260)]
    longer = [opened("s1", RUN.start), closed("s1", RUN.end + 60)]
    found = [one for one in came(PARK, SHEET, [*longer, *extra]) if one.station == "s1"]
    assert found == [
        Stretch("s1", RUN.start, RUN.end + 60, 1260.0),
        Stretch("s1", RUN.end + 7200, RUN.end + 7260, 60.0),
    ]


def test_an_opening_whose_closing_nobody_saw_ends_with_its_run() -> None:
    assert litres(opened("s1", RUN.start), station="s1") == RUN.volume_l


def test_a_document_that_lost_a_station_since_leaves_it_out() -> None:
    stations = [
        a_station(one.id, supply=one.supply, controller=one.controller, flow_lpm=one.flow_lpm)
        for one in PARK.stations.values()
        if one.id != "s1"
    ]
    later = a_park(stations=stations, turns=[])
    assert {one.station for one in came(later, SHEET, as_planned(SHEET))} == {"s2", "s3", "s4"}
