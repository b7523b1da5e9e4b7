"""Each rung of a run's ladder is true, by the independent check: from it on the run could start, a second before not.

Every run of many nights is moved, alone, and the check asked about one rule at a time.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings

from builders import a_closure, a_controller, a_document, a_program, a_station, a_supply, a_turn, a_window, an_apart
from pengan.engine.check import RULES as CHECKS
from pengan.engine.check import violations
from pengan.engine.check.opening import openings
from pengan.engine.clock.nights import night_on
from pengan.engine.clock.zones import clock_of
from pengan.engine.document.document import Document
from pengan.engine.document.read import read_document
from pengan.engine.plan.build import Built, build
from pengan.engine.plan.loads import AllLoads
from pengan.engine.plan.placed import Placed, placed_runs
from pengan.engine.plan.problem import Plan
from pengan.engine.plan.sheet import Rung
from pengan.engine.plan.solve import solve
from pengan.engine.plan.why import reasons
from valid_documents import documents

DAY = date(2026, 7, 1)
RULE_MODULES = {rule.RULE: rule for rule in CHECKS}
BASE = {"program_starts", "from_noon", "asked_time", "asked_soon", "window_opens", "closure_ends", "supply_fills"}
END = {"water_kept", "as_late_as_possible"}
RULES = {
    "supply_flow": "supply_flow",
    "controller_open": "controller_open",
    "valve_gap": "controller_open",
    "controller_current": "controller_current",
    "program_flow": "program_flow",
    "program_open": "program_open",
    "program_order": "program_order",
    "apart": "apart",
    "station_busy": "station_busy",
    "soak_ends": "soak",
    "cycle_ends": "soak",
}


def a_busy_site(seed: int, stations: int) -> Document:
    """A site on which every kind of limit is tight."""
    dice = random.Random(seed)
    ids = [f"s{n}" for n in range(stations)]
    programs = [
        a_program(
            f"p{n}",
            start=dice.choice([None, "20:00", "22:15"]),
            limit_lpm=dice.choice([None, 200]),
            max_open=dice.choice([None, 2]),
            **dice.choice([{"order": "listed"}, {"order": "free"}, {"aim": "latest"}]),
        )
        for n in range(5)
    ]
    return a_document(
        supplies=[a_supply(limit_lpm=600, lead_s=240), a_supply("north", fed_by="town", limit_lpm=350)],
        controllers=[a_controller("c0", max_open=3, valve_gap_s=7), a_controller("c1", max_open=4, max_current_ma=900)],
        stations=[
            a_station(
                one,
                supply=dice.choice(["town", "north"]),
                controller=dice.choice([None, "c0", "c1"]),
                flow_lpm=dice.randint(20, 150),
                current_ma=dice.choice([200, 300, 400]),
            )
            for one in ids
        ],
        programs=programs,
        turns=[
            a_turn(dice.choice(programs)["id"], one, id=f"t{n}", run_s=dice.randint(200, 2000), cycles=3, soak_s=300)
            for n, one in enumerate([*ids, *ids[:4]])
        ],
        windows=[a_window(), a_window("w2", supply="north", opens="21:30", closes="05:00")],
        closures=[a_closure(), a_closure("k2", station="s1", starts="23:30", ends="00:30")],
        apart=[an_apart("s0", "s1"), an_apart("s2", "s3")],
    )


def moved(plan: Plan, run: Placed, start: int) -> Plan:
    """The plan with one run elsewhere."""
    row = plan.starts[run.chain]
    row = (*row[: run.cycle], start, *row[run.cycle + 1 :])
    return replace(plan, starts=(*plan.starts[: run.chain], row, *plan.starts[run.chain + 1 :]))


def alone_in_its_chain(plan: Plan, run: Placed) -> Plan:
    """The plan without the other cycles of the run's turn: those are a matter of its soak."""
    row = tuple(start if cycle == run.cycle else None for cycle, start in enumerate(plan.starts[run.chain]))
    return replace(plan, starts=(*plan.starts[: run.chain], row, *plan.starts[run.chain + 1 :]))


def broken(built: Built, plan: Plan, run: Placed, start: int, rule: str, rung: Rung) -> bool:
    """Whether the run, started there, breaks the rule at the limit that the rung names."""
    subject = next((rung.why.params[name] for name in ("supply", "controller") if name in rung.why.params), None)
    if rule in ("program_flow", "program_open"):
        subject = rung.why.params["program"]
    elsewhere = moved(plan, run, start)
    if rule == "station_busy":
        elsewhere = alone_in_its_chain(elsewhere, run)
    found = RULE_MODULES[rule].violations(built.problem, openings(built.problem, elsewhere))
    if rule == "apart":
        return any(str(rung.why.params["station"]) in one.subject.split("+") for one in found)
    return any(subject is None or one.subject == subject for one in found)


def look_at(built: Built, plan: Plan) -> Iterator[str]:
    """Hold every ladder of a plan against the check; gives the code that decides each run."""
    runs = placed_runs(built.problem, plan)
    assert violations(built.problem, plan) == ()
    for run, why in zip(runs, reasons(built, runs, AllLoads(built.problem, runs)), strict=True):
        rungs = [
            (rung.why.code.removeprefix("why."), rung.at - built.tonight.night.starts, rung) for rung in why.ladder
        ]
        assert [at for _, at, _ in rungs] == sorted(at for _, at, _ in rungs)
        assert rungs[-1][1] == run.start
        for code, at, rung in rungs:
            if code in RULES:
                for start in {at, (at + run.start) // 2}:
                    assert not broken(built, plan, run, start, RULES[code], rung)
                assert broken(built, plan, run, at - 1, RULES[code], rung)
        free = max(at for code, at, _ in rungs if code not in END)
        assert violations(built.problem, moved(plan, run, free)) == ()
        assert free == 0 or violations(built.problem, moved(plan, run, free - 1))
        yield rungs[-1][0]


def built_on(document: Document, day: date) -> Built:
    clock = clock_of(document.site)
    return build(document, night_on(clock, day), clock)


def test_every_rung_is_the_first_second_at_which_its_limit_lets_the_run_start() -> None:
    seen: Counter[str] = Counter()
    for seed in range(3):
        built = built_on(a_busy_site(seed, 16), DAY)
        seen.update(look_at(built, solve(built.problem, 3)))
    assert {"supply_flow", "valve_gap", "soak_ends", "window_opens", "supply_fills", "program_order"} <= set(seen)
    assert set(seen) <= BASE | END | set(RULES)


@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(documents())
def test_ladders_of_any_document_are_true(data: dict[str, object]) -> None:
    built = built_on(read_document(data), DAY)
    for _ in look_at(built, solve(built.problem, 3)):
        pass


def decided(document: Document, effort: int = 4) -> dict[str, str]:
    """What decides each station's last run, by code, on a small site."""
    built = built_on(document, DAY)
    runs = placed_runs(built.problem, plan := solve(built.problem, effort))
    assert violations(built.problem, plan) == ()
    whys = reasons(built, runs, AllLoads(built.problem, runs))
    return {
        built.dues[run.chain].station.id: why.decides.code.removeprefix("why.")
        for run, why in zip(runs, whys, strict=True)
    }


TWO = [a_station("s1"), a_station("s2")]
SITES: dict[str, dict[str, object]] = {
    "supply_flow": {"supplies": [a_supply(limit_lpm=100)], "stations": TWO},
    "controller_open": {
        "controllers": [a_controller(max_open=1)],
        "stations": [a_station("s1", controller="c1"), a_station("s2", controller="c1")],
    },
    "valve_gap": {
        "controllers": [a_controller(max_open=1, valve_gap_s=5)],
        "stations": [a_station("s1", controller="c1"), a_station("s2", controller="c1")],
    },
    "controller_current": {
        "controllers": [a_controller(max_current_ma=500)],
        "stations": [a_station(one, controller="c1", current_ma=300) for one in ("s1", "s2")],
    },
    "program_flow": {"programs": [a_program(limit_lpm=100)], "stations": TWO},
    "program_open": {"programs": [a_program(max_open=1)], "stations": TWO},
    "apart": {"stations": TWO, "apart": [an_apart()]},
    "station_busy": {"turns": [a_turn(id="t1"), a_turn(id="t2")]},
    "soak_ends": {"turns": [a_turn(cycles=2, soak_s=60)]},
    "cycle_ends": {"turns": [a_turn(cycles=2)]},
    "program_starts": {"programs": [a_program(start="21:00")]},
    "from_noon": {},
    "window_opens": {"windows": [a_window()]},
    "closure_ends": {"closures": [a_closure(starts="12:00", ends="13:00")]},
    "supply_fills": {"supplies": [a_supply(lead_s=60)]},
    "as_late_as_possible": {"programs": [a_program(aim="latest", finish_by="06:00")]},
}


@pytest.mark.parametrize("code", SITES)
def test_the_limit_that_is_there_decides(code: str) -> None:
    assert code in decided(a_document(**SITES[code])).values()


def test_a_turn_waits_for_the_one_listed_above_it() -> None:
    """The first waits for its own window, the second, which could run at once, for the first."""
    document = a_document(
        stations=TWO,
        programs=[a_program(order="listed")],
        turns=[a_turn(station="s1", position=1), a_turn(station="s2", position=2)],
        windows=[a_window(station="s1")],
    )
    assert decided(document) == {"s1": "window_opens", "s2": "program_order"}
