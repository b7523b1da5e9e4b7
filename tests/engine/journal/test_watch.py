"""What the watch notices, and that it notices the same whatever order a night's entries come in."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builders import a_supply
from engine.journal.told import a_night, a_park, as_planned, closed, flow, opened, run_of
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.journal.expected import expected
from pengan.engine.journal.finding import Cause, Finding, Noticed
from pengan.engine.journal.thresholds import Limits, Thresholds
from pengan.engine.journal.watch import Known, Watch, watch_night
from pengan.field.play import play, tellings
from pengan.field.troubles import (
    Break,
    Clogged,
    DeadValve,
    Leak,
    PowerCut,
    ShutMain,
    Silence,
    Stop,
    StuckMeter,
    StuckOpen,
    Trouble,
)

PARK = a_park()
SHEET = a_night(PARK)
RUN = run_of(SHEET, "s1")
KNOWN = Known({"s1": 60, "s2": 40, "s3": 30, "s4": 20}, frozenset(["c1", "c2"]), frozenset(["town", "a", "b"]))


def exact_readings(entries: list[Entry], every: int = 60) -> list[Entry]:
    """What perfect meters on every supply would show of these entries."""
    bands = expected(PARK, SHEET, entries)
    span = range(SHEET.starts, SHEET.starts + 14 * 3600, every)
    return [flow(supply, at, band.at(at).likely / 1000) for supply, band in bands.items() for at in span]


def noticed(*troubles: Trouble, known: Known = KNOWN, seed: int = 3) -> tuple[Finding, ...]:
    return watch_night(PARK, SHEET, play(PARK, SHEET, seed, troubles), SHEET.ends, known=known).findings()


def the_one(*troubles: Trouble) -> Finding:
    found = noticed(*troubles)
    assert len(found) == 1, found
    return found[0]


def test_exact_readings_give_no_finding() -> None:
    told = as_planned(SHEET)
    assert watch_night(PARK, SHEET, [*told, *exact_readings(told)], known=KNOWN).findings() == ()


@given(st.integers(1, 10_000))
@settings(max_examples=15, deadline=None)
def test_a_sound_field_gives_no_finding(seed: int) -> None:
    """Its stations are a few percent off, its meters noisy, its pipes fill and its valves take their time."""
    assert noticed(seed=seed) == ()


def test_a_break_below_a_valve_is_noticed_soon_and_named() -> None:
    found = the_one(Break(at=RUN.start + 300, station="s1", flow_lpm=25))
    assert (found.kind, found.supply) == (Noticed.TOO_MUCH, "a")
    assert found.noticed - RUN.start - 300 <= 180
    assert found.size_lpm == pytest.approx(25 - 8, abs=4)  # the other stations of the main give 8 less for it
    assert not found.is_open
    assert (found.culprits[0].cause, found.culprits[0].station) == (Cause.BREAK, "s1")


def test_a_leak_with_nothing_open_is_noticed_at_its_own_supply() -> None:
    found = the_one(Leak(at=SHEET.starts + 3600, supply="b", flow_lpm=5))
    assert (found.kind, found.supply, found.is_open) == (Noticed.UNASKED, "b", True)
    assert found.noticed - SHEET.starts - 3600 <= 180
    assert (found.culprits[0].cause, found.culprits[0].supply) == (Cause.BREAK, "b")


def test_a_valve_that_stays_open_is_named() -> None:
    found = the_one(StuckOpen(at=RUN.start + 60, station="s1"))
    assert found.kind is Noticed.UNASKED
    assert (found.culprits[0].cause, found.culprits[0].station) == (Cause.STUCK_OPEN, "s1")


def test_a_dead_valve_is_named() -> None:
    found = the_one(DeadValve(at=SHEET.starts, station="s2"))
    assert (found.kind, found.supply) == (Noticed.TOO_LITTLE, "a")
    assert (found.culprits[0].cause, found.culprits[0].station) == (Cause.DEAD_VALVE, "s2")


def test_a_clogged_source_is_one_finding_at_the_source() -> None:
    found = the_one(Clogged(at=RUN.start + 100, supply="town", loss_pct=50, over_s=300))
    assert (found.kind, found.supply) == (Noticed.TOO_LITTLE, "town")
    assert found.culprits[0].cause is Cause.CLOGGED


def test_a_meter_that_its_neighbours_contradict_is_about_the_meter() -> None:
    found = the_one(StuckMeter(at=RUN.start + 300, supply="a"))
    assert (found.kind, found.supply) == (Noticed.METER, "a")


def test_a_silent_controller_is_noticed_before_it_is_heard_again() -> None:
    watch = Watch(PARK, SHEET, known=KNOWN)
    silence = Silence(at=RUN.start + 60, controller="c1")
    for told in tellings(PARK, SHEET, 3, [silence]):
        assert watch.take(told.entry)
    watch.tick(SHEET.ends)
    assert [(one.kind, one.controller) for one in watch.findings()] == [(Noticed.SILENT, "c1")]
    assert watch.findings()[0].noticed - RUN.start <= 1500


def test_a_power_cut_is_one_finding_and_its_valves_are_not_missed() -> None:
    found = the_one(PowerCut(at=RUN.start + 300, until=RUN.start + 900, controller="c1"))
    assert (found.kind, found.controller, found.is_open) == (Noticed.POWER, "c1", False)


def test_a_shut_main_and_an_order_to_stop_are_no_faults() -> None:
    assert noticed(ShutMain(at=RUN.start + 300, until=RUN.start + 600, supply="a")) == ()
    assert noticed(Stop(at=RUN.start + 300, until=RUN.start + 600, text="rain")) == ()


def test_a_meter_that_falls_silent_is_noticed() -> None:
    told = as_planned(SHEET)
    readings = [one for one in exact_readings(told) if one.supply != "a" or one.at < RUN.start]
    found = watch_night(PARK, SHEET, [*told, *readings], known=KNOWN).findings()
    assert [(one.kind, one.voices) for one in found] == [(Noticed.SILENT, ("meter:a",))]


def test_while_a_cabinet_is_silent_what_a_supply_cannot_give_by_its_limit_is_still_too_much() -> None:
    """Whether what was open has closed and what is due has opened, nobody says: both together would be 180 L/min."""
    start = SHEET.starts
    park = a_park(
        supplies=[a_supply(limit_lpm=100), *(a_supply(id, fed_by="town", limit_lpm=100) for id in ("a", "b"))]
    )
    runs = [
        replace(RUN, station=id, start=start + at, end=start + at + 1200) for at in (0, 1200) for id in ("s1", "s3")
    ]
    sheet = replace(SHEET, runs=tuple(runs))
    told = [opened(id, start) for id in ("s1", "s3")]
    sound = [flow("town", at, 90) for at in range(start + 60, start + 2400, 60)]
    broken = [replace(one, flow_lpm=140) if one.at > start + 1800 else one for one in sound]
    assert not _of_water(watch_night(park, sheet, [*told, *sound], known=KNOWN).findings())
    assert _of_water(watch_night(park, sheet, [*told, *broken], known=KNOWN).findings()) == [Noticed.TOO_MUCH]


def _of_water(found: Iterable[Finding]) -> list[Noticed]:
    return [one.kind for one in found if one.kind is not Noticed.SILENT]


def test_meters_that_agree_that_the_draw_did_not_move_stand_for_a_dead_valve() -> None:
    """They are coarse, and show the same again and again."""
    start = SHEET.starts
    told = [opened("s1", start), opened("s4", start + 2400), closed("s4", start + 4200)]
    varied = [flow(id, at, 59 + at // 60 % 3) for id in ("town", "a") for at in _minutes(start + 120, 1800)]
    coarse = [flow(id, at, 60) for id in ("town", "a") for at in _minutes(start + 1920, 3000)]
    none = [flow("b", at, 0) for at in _minutes(start + 120, 4800)]
    (found,) = watch_night(PARK, None, [*told, *varied, *coarse, *none], known=KNOWN).findings()
    assert (found.kind, found.supply) == (Noticed.TOO_LITTLE, "b")
    assert (found.culprits[0].cause, found.culprits[0].station) == (Cause.DEAD_VALVE, "s4")


def _minutes(start: int, length_s: int) -> range:
    return range(start, start + length_s, 60)


def test_thresholds_are_each_supplys_own() -> None:
    leak = [Leak(at=SHEET.starts + 3600, supply="b", flow_lpm=5)]
    limits = Limits({"b": Thresholds(least_lpm=8), "town": Thresholds(least_lpm=8)})
    assert watch_night(PARK, SHEET, play(PARK, SHEET, 3, leak), limits=limits, known=KNOWN).findings() == ()


def test_a_late_entry_asks_for_the_night_to_be_watched_anew() -> None:
    watch = Watch(PARK, SHEET)
    assert watch.take(flow("a", 1000, 0))
    assert watch.take(flow("b", 1000, 0))
    assert watch.take(flow("a", 1060, 0))
    assert not watch.take(flow("a", 1000, 0))


def test_what_a_main_loses_and_what_its_source_loses_besides_is_told_once_each() -> None:
    """The source's meter shows both; for hours nothing new is told of either."""
    start = SHEET.starts
    main = [flow("a", at, 30 if at > start + 600 else 0) for at in range(start + 30, start + 9000, 60)]
    source = [flow("town", at, (at > start + 600) * 30 + (at > start + 3600) * 20) for at in _minutes(start, 9000)]
    other = [flow("b", at, 0) for at in _minutes(start + 45, 9000)]
    found = watch_night(PARK, None, [*main, *source, *other], known=KNOWN).findings()
    assert [(one.kind, one.supply, one.is_open) for one in found] == [
        (Noticed.UNASKED, "a", True),
        (Noticed.UNASKED, "town", True),
    ]


TROUBLES = (
    Break(at=RUN.start + 300, station="s1", flow_lpm=25),
    StuckMeter(at=RUN.start + 300, supply="a"),
    DeadValve(at=SHEET.starts, station="s2"),
    PowerCut(at=RUN.start + 300, until=RUN.start + 900),
    Silence(at=RUN.start + 60, until=RUN.start + 3000, controller="c1"),
)


@pytest.mark.parametrize("trouble", TROUBLES, ids=lambda one: type(one).__name__)
def test_order_of_arrival_and_doubles_change_nothing(trouble: Trouble) -> None:
    told = list(play(PARK, SHEET, 5, [trouble]))
    before = watch_night(PARK, SHEET, told, SHEET.ends, known=KNOWN).findings()
    assert before
    shuffled = [*told, *told[::7]]
    Random(1).shuffle(shuffled)
    assert watch_night(PARK, SHEET, shuffled, SHEET.ends, known=KNOWN).findings() == before


@pytest.mark.parametrize("trouble", TROUBLES, ids=lambda one: type(one).__name__)
def test_entry_by_entry_gives_what_the_whole_night_gives(trouble: Trouble) -> None:
    told = list(play(PARK, SHEET, 5, [trouble]))
    watch = Watch(PARK, SHEET, known=KNOWN)
    assert all(watch.take(entry) for entry in told)
    watch.tick(SHEET.ends)
    assert watch.findings() == watch_night(PARK, SHEET, told, SHEET.ends, known=KNOWN).findings()


@given(
    st.lists(
        st.tuples(
            st.sampled_from(list(Kind)), st.integers(0, 20_000), st.sampled_from(["s1", "s3", "nowhere", None]),
            st.sampled_from(["a", "town", "nowhere", None]), st.sampled_from(["c1", "nowhere", None]),
            st.floats(0, 500),
        ),
        max_size=60,
    )
)  # fmt: skip
@settings(deadline=None)
def test_nothing_that_is_told_breaks_the_watch(rows: list[tuple[Kind, int, str, str, str, float]]) -> None:
    entries = [
        Entry(f"entry-{number:04}", SHEET.starts + at, kind, "reporter:r1", station, supply, cabinet, lpm)
        for number, (kind, at, station, supply, cabinet, lpm) in enumerate(rows)
    ]
    for one in watch_night(PARK, SHEET, entries, SHEET.ends).findings():
        _is_sound(one)


def _is_sound(one: Finding) -> None:
    assert one.says().code.startswith("finding.")
    assert all(spell.start <= spell.noticed for spell in one.spells)
    assert all(spell.end is None or spell.start <= spell.end for spell in one.spells)
    assert sum(culprit.sure for culprit in one.culprits) <= 1.01
    assert len(one.trial) <= 2


def _ids(found: Iterable[Finding]) -> list[str]:
    return [one.id for one in found]


def test_every_finding_has_an_id_of_its_own() -> None:
    found = noticed(Leak(at=SHEET.starts + 3600, supply="b", flow_lpm=5), DeadValve(at=SHEET.starts, station="s2"))
    assert len(set(_ids(found))) == len(found) == 2
