"""A sound plan is broken on purpose, one rule at a time; the check names that rule and no other."""

from __future__ import annotations

from dataclasses import replace

import pytest

from pengan.engine.check import RULES, violations
from pengan.engine.plan.problem import Cabinet, Chain, Plan, Problem, ProgramLimit, SupplyNode

MIN = 60


def a_chain(key: str, station: int, **changes: object) -> Chain:
    plain = Chain(
        key=key, station=station, supply=1, controller=0, program=0, flow=100_000, current=250, cycles=(10 * MIN,),
        soak=0, rank=5, release=0, deadline=600 * MIN, calendar=0,
    )  # fmt: skip
    return replace(plain, **changes)  # type: ignore[arg-type]


def a_problem(
    *chains: Chain, program: ProgramLimit | None = None, cabinet: Cabinet | None = None, **limits: int
) -> Problem:
    """A pond feeding one main, one controller, three stations of which the first two stay apart if `apart` is 1."""
    pair = (frozenset({1}), frozenset[int](), frozenset[int]()) if limits.get("apart") else (frozenset[int](),) * 3
    return Problem(
        length=24 * 60 * MIN,
        supplies=(SupplyNode("pond", None, limits.get("pond")), SupplyNode("north", 0, limits.get("north"))),
        controllers=(cabinet or Cabinet("c1"),),
        programs=(program or ProgramLimit("p"),),
        stations=("palms", "lawn", "roses"),
        chains=chains,
        calendars=(((0, 60 * MIN), (90 * MIN, 24 * 60 * MIN)),),
        apart=pair,
    )


def plan(*starts: tuple[int | None, ...]) -> Plan:
    return Plan(starts, (), 1)


TWO = (a_chain("a", 0), a_chain("b", 1))
SOAKED = a_chain("a", 0, cycles=(5 * MIN, 5 * MIN), soak=20 * MIN)

CASES: dict[str, list[tuple[Problem, Plan, Plan]]] = {
    "supply_flow": [
        (a_problem(*TWO, north=199_999), plan((0,), (600,)), plan((0,), (599,))),
        (a_problem(*TWO, pond=150_000), plan((0,), (600,)), plan((0,), (599,))),
    ],
    "controller_open": [
        (a_problem(*TWO, cabinet=Cabinet("c1", max_open=1)), plan((0,), (600,)), plan((0,), (599,))),
        (a_problem(*TWO, cabinet=Cabinet("c1", max_open=1, gap=5)), plan((0,), (605,)), plan((0,), (604,))),
    ],
    "controller_current": [
        (a_problem(*TWO, cabinet=Cabinet("c1", max_current=499, gap=9)), plan((0,), (600,)), plan((0,), (599,))),
    ],
    "program_flow": [
        (a_problem(*TWO, program=ProgramLimit("p", limit=150_000)), plan((600,), (0,)), plan((599,), (0,)))
    ],
    "program_open": [(a_problem(*TWO, program=ProgramLimit("p", max_open=1)), plan((0,), (600,)), plan((0,), (599,)))],
    "program_order": [(a_problem(*TWO, program=ProgramLimit("p", ordered=True)), plan((7,), (7,)), plan((7,), (6,)))],
    "apart": [(a_problem(*TWO, apart=1), plan((600,), (0,)), plan((599,), (0,)))],
    "station_busy": [
        (a_problem(a_chain("a", 2), a_chain("b", 2)), plan((0,), (600,)), plan((0,), (599,))),
    ],
    "window": [
        (a_problem(TWO[0]), plan((3000,)), plan((3001,))),
        (a_problem(TWO[0]), plan((90 * MIN,)), plan((90 * MIN - 1,))),
    ],
    "night": [
        (a_problem(a_chain("a", 0, release=300)), plan((300,)), plan((299,))),
        (a_problem(a_chain("a", 0, deadline=1000)), plan((400,)), plan((401,))),
    ],
    "soak": [
        (a_problem(SOAKED), plan((0, 1500)), plan((0, 1499))),
        (a_problem(SOAKED), plan((0, None)), plan((None, 0))),
    ],
    "fixed_start": [(a_problem(a_chain("a", 0, fixed=60)), plan((60,)), plan((61,)))],
    "cycle_once": [(a_problem(SOAKED), plan((0, None)), plan((0,)))],
}  # fmt: skip

FLAT = [(rule, *case) for rule, cases in CASES.items() for case in cases]


@pytest.mark.parametrize(
    ("rule", "problem", "sound", "broken"), FLAT, ids=[f"{i}-{row[0]}" for i, row in enumerate(FLAT)]
)
def test_a_plan_broken_by_one_second_is_told_by_its_rule_alone(
    rule: str, problem: Problem, sound: Plan, broken: Plan
) -> None:
    assert violations(problem, sound) == ()
    assert {one.rule for one in violations(problem, broken)} == {rule}


def test_every_rule_has_a_plan_that_breaks_it() -> None:
    assert set(CASES) == {rule.RULE for rule in RULES}


def test_all_breaches_are_told_at_once() -> None:
    problem = a_problem(*TWO, north=150_000, cabinet=Cabinet("c1", max_open=1), apart=1)
    assert [one.rule for one in violations(problem, plan((0,), (0,)))] == ["apart", "supply_flow", "controller_open"]


def test_a_breach_says_who_when_and_by_how_much() -> None:
    (found,) = violations(a_problem(*TWO, north=150_000), plan((0,), (500,)))
    assert (found.subject, found.second) == ("north", 500)
    assert found.message.params == {"supply": "north", "draw_lpm": 200.0, "limit_lpm": 150.0}
