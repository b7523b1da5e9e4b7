"""The band that a supply's draw should lie in: exact once settled, wide while valves move, wider where nobody tells."""

from __future__ import annotations

from engine.journal.told import a_night, a_park, an_entry, as_planned, closed, opened, run_of
from pengan.engine.journal.entry import Kind
from pengan.engine.journal.expected import SETTLING, Band, expected

PARK = a_park()
SHEET = a_night(PARK)


def settled(lpm: float) -> Band:
    return Band(*[round(lpm * 1000)] * 3)


def test_a_draw_counts_at_its_supply_and_at_everything_that_feeds_it() -> None:
    bands = expected(PARK, None, [opened("s1", 1000), opened("s3", 1000), closed("s3", 2000)])
    assert [bands[supply].at(1500) for supply in ("town", "a", "b")] == [settled(90), settled(60), settled(30)]
    assert bands["town"].at(2500) == settled(60)


def test_while_pipes_fill_anything_up_to_the_surge_is_right() -> None:
    band = expected(PARK, None, [opened("s1", 1000)])["a"]
    assert band.at(1000 - SETTLING.early_s) == Band(0, 0, 96_000)
    assert band.at(1010) == Band(0, 60_000, 96_000)
    assert band.at(1045) == Band(0, 60_000, 69_000)
    assert band.at(1060) == settled(60)


def test_a_closing_may_take_a_while() -> None:
    band = expected(PARK, None, [opened("s1", 1000), closed("s1", 2000)])["a"]
    assert band.at(2010) == Band(0, 0, 60_000)
    assert band.at(2000 + SETTLING.closing_s) == settled(0)


def test_without_entries_it_is_the_draw_of_the_sheet() -> None:
    bands = expected(PARK, SHEET, [])
    for draw in SHEET.draws:
        for (start, lpm), (end, _) in zip(draw.steps, draw.steps[1:], strict=False):
            if end - start > 120:
                assert bands[draw.supply].at(start + 61) == settled(lpm)


def test_with_everything_told_as_planned_it_is_the_draw_of_the_sheet() -> None:
    assert expected(PARK, SHEET, as_planned(SHEET))["town"].at(run_of(SHEET, "s1").start + 61).low > 0


def test_a_run_that_a_telling_controller_says_nothing_of_is_not_sure() -> None:
    run = run_of(SHEET, "s1")
    told = [entry for entry in as_planned(SHEET) if entry.station != "s1"]
    band = expected(PARK, SHEET, told)["a"].at(run.start + 300)
    assert band.high - band.low == 60_000


def test_no_power_and_a_shut_main_give_nothing() -> None:
    dark = expected(PARK, None, [opened("s1", 1000), an_entry(Kind.POWER_LOST, 1500, controller="c1")])
    assert dark["town"].at(1600) == settled(0)
    told = [opened("s1", 1000), an_entry(Kind.SHUT, 1500, supply="town"), an_entry(Kind.FREED, 2000, supply="town")]
    shut = expected(PARK, None, told)["a"]
    assert (shut.at(1600), shut.at(2100)) == (settled(0), settled(60))


def test_learned_flows_stand_for_those_of_the_document() -> None:
    assert expected(PARK, None, [opened("s1", 1000)], {"s1": 57.5})["a"].at(1500) == settled(57.5)
