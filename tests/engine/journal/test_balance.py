"""What escapes shows although a cabinet says nothing or valves change over, soon, and at one place only."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.journal.told import a_night, a_park, closed, flow, opened, run_of
from pengan.engine.journal.entry import Entry
from pengan.engine.journal.finding import EXCESS, Finding
from pengan.engine.journal.in_order import in_order
from pengan.engine.journal.watch import Known, Watch, watch_night
from pengan.engine.plan.sheet import NightSheet

PARK = a_park()
NIGHT = a_night(PARK)
START = NIGHT.starts
KNOWN = Known({"s1": 60, "s2": 40, "s3": 30, "s4": 20}, frozenset(["c1", "c2"]), frozenset(["town", "a", "b"]))
CUT, BROKE = START + 600, START + 3000
SOON_S = 180


def a_sheet(**ends: int) -> NightSheet:
    """Each of these stations runs from the start on, for so many seconds."""
    usual = run_of(NIGHT, "s1")
    runs = (replace(usual, station=id, start=START, end=START + length) for id, length in ends.items())
    return replace(NIGHT, runs=tuple(runs))


def readings(supply: str, offset: int, steps: Iterable[tuple[int, float]], until: int, every: int = 60) -> list[Entry]:
    """A meter's readings, from one instant on each flow in L/min, until the next."""
    steps = tuple(steps)
    return [
        flow(supply, at, [lpm for since, lpm in steps if since <= at][-1])
        for at in range(START + offset, until, every)
    ]  # fmt: skip


def excesses(found: Iterable[Finding]) -> list[Finding]:
    return [one for one in found if one.kind in EXCESS]


def without_power(escapes: float) -> list[Entry]:
    """Cabinet c1 loses its power and nobody tells of it: s1 and s2 close. Later so much escapes at the source."""
    return [
        *(opened(id, START) for id in ("s1", "s2", "s4")),
        *readings("a", 100, [(START, 100), (CUT, 0)], START + 5000),
        *readings("b", 110, [(START, 20)], START + 5000),
        *readings("town", 120, [(START, 120), (CUT, 20), (BROKE, 20 + escapes)], START + 5000),
    ]


@pytest.mark.parametrize("ends", [{"s1": 1200, "s2": 1200}, {"s1": 1200, "s2": 7200}, {"s1": 7200, "s2": 7200}])
def test_what_escapes_does_not_hide_behind_valves_that_have_no_power(ends: dict[str, int]) -> None:
    """Whether its valves are overdue or not: their own meter tells that nothing comes."""
    found = watch_night(PARK, a_sheet(**ends, s4=7200), without_power(40), known=KNOWN).findings()
    (excess,) = excesses(found)
    assert (excess.supply, excess.noticed - BROKE <= SOON_S) == ("town", True)
    assert excess.size_lpm == pytest.approx(40, abs=4)


@pytest.mark.parametrize("ends", [{"s1": 1200, "s2": 1200}, {"s1": 1200, "s2": 7200}, {"s1": 7200, "s2": 7200}])
def test_valves_without_power_are_missed_once(ends: dict[str, int]) -> None:
    """What a lack below explains is not counted again as what valves that say nothing do not give."""
    assert not excesses(watch_night(PARK, a_sheet(**ends, s4=7200), without_power(0), known=KNOWN).findings())


def test_valves_that_a_silent_cabinet_opens_by_the_sheet_are_no_excess() -> None:
    """The main's meter was read just before: what it showed then tells nothing of a valve that moves since."""
    first, then = a_sheet(s1=1200), a_sheet(s2=1200).runs[0]
    sheet = replace(first, runs=(*first.runs, replace(then, start=first.runs[0].end, end=then.end + 1200)))
    moved = START + 1204
    told = [
        opened("s1", START),
        *readings("a", 52, [(START, 60), (moved, 60), (moved + 40, 40)], START + 2300),
        *readings("town", 58, [(START, 60), (moved, 92), (moved + 40, 40)], START + 2300),
    ]
    assert not excesses(watch_night(PARK, sheet, told, known=KNOWN).findings())


def test_what_showed_before_valves_changed_over_is_not_forgotten() -> None:
    """The reading in between may be of filling pipes, and tells neither way."""
    change = BROKE + 80
    told = [
        opened("s1", START), closed("s1", change), opened("s2", change),
        *readings("a", 30, [(START, 60), (BROKE, 110), (change, 90)], BROKE + 600),
    ]  # fmt: skip
    (found,) = excesses(watch_night(PARK, None, told, known=KNOWN).findings())
    assert (found.supply, found.noticed) == ("a", BROKE + 150)


def test_two_meters_that_show_the_same_water_are_two_readings() -> None:
    """A main's and its source's a little later, as long as each shows it plainly."""
    told = [
        opened("s1", START),
        *readings("a", 10, [(START, 60), (BROKE, 100)], BROKE + 600),
        *readings("town", 40, [(START, 60), (BROKE, 100)], BROKE + 600),
    ]
    (found,) = excesses(watch_night(PARK, None, told, known=KNOWN).findings())
    assert (found.supply, found.noticed) == ("a", BROKE + 40)


@pytest.mark.parametrize("both", [False, True])
def test_one_reading_that_is_far_off_is_no_excess(both: bool) -> None:
    """Nor are those of two meters at about the same moment: what a late word of a valve may yet explain."""
    told = [
        opened("s1", START),
        *readings("a", 10, [(START, 60), (BROKE, 100), (BROKE + 30, 60)], BROKE + 600),
        *readings("town", 20, [(START, 60), (BROKE, 100 if both else 60), (BROKE + 30, 60)], BROKE + 600),
    ]
    assert not excesses(watch_night(PARK, None, told, known=KNOWN).findings())


def most_at_once(entries: Iterable[Entry], sheet: NightSheet | None) -> int:
    """The most open excesses that one meter ever showed."""
    watch, most = Watch(PARK, sheet, known=KNOWN), 0
    for entry in in_order(entries):
        watch.take(entry)
        watch.tick(entry.at + 1)
        shown = [node for case in watch.cases.open() if case.is_excess for node in case.members]
        most = max([most, *(shown.count(node) for node in shown)])
    return most


def test_a_fault_that_is_there_again_leaves_a_meter_to_the_case_that_has_it() -> None:
    """A source's excess is over, then a main's; the source's is there again, turns out to be the main's, and grows."""
    source = [(0, 30), (900, 0), (1800, 30), (2700, 0), (3600, 30), (4200, 60)]
    main = [(0, 0), (1800, 30), (2700, 0), (3900, 30)]
    told = [
        *readings("town", 50, [(START + at, lpm) for at, lpm in source], START + 6000),
        *readings("a", 20, [(START + at, lpm) for at, lpm in main], START + 6000),
    ]
    assert most_at_once(told, None) == 1


@given(st.integers(0, 1 << 30))
@settings(max_examples=25, deadline=None)
def test_no_meter_ever_shows_two_excesses_at_once(seed: int) -> None:
    """Whatever its meters show, and whichever valves are told of."""
    chance = Random(seed)
    told = [entry for supply in ("town", "a", "b") for entry in _nonsense(supply, chance)]
    for _ in range(chance.randint(0, 12)):
        word = chance.choice((opened, closed))
        told.append(word(chance.choice(("s1", "s2", "s3", "s4")), START + chance.randrange(20_000)))
    assert most_at_once(told, NIGHT) <= 1


def _nonsense(supply: str, chance: Random) -> list[Entry]:
    steps = [(START, 0.0), *((START + at, chance.choice((0.0, chance.uniform(0, 300)))) for at in _some(chance))]
    return readings(supply, chance.randrange(60), steps, START + 20_000, chance.choice((60, 120)))


def _some(chance: Random) -> list[int]:
    return sorted(chance.randrange(20_000) for _ in range(chance.randint(0, 20)))
