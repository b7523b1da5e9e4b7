"""The planner beside an outside solver: OR-Tools CP-SAT on small made-up nights of every family.

Source of the reference: Google OR-Tools CP-SAT, https://developers.google.com/optimization/cp/cp_solver.
The full comparison (up to 200 stations, 30 seconds a night) is `tests/benchmarks reference`.
"""

from __future__ import annotations

from functools import cache

import pytest
from hypothesis import HealthCheck, given, settings

from nights.cp_sat import NoPlanFound, Reference, earliest_finish, most_by_rank
from nights.families import FAMILIES, night
from nights.measure import everything_placed, finish, placed_by_rank
from nights.strategies import nights
from pengan.engine.check import violations
from pengan.engine.plan.bound import bound
from pengan.engine.plan.problem import Plan, Problem
from pengan.engine.plan.solve import default_effort, solve

SECONDS, WORKERS = 2.0, 2
STATIONS = 8
MOST_BEHIND = 0.03


@cache
def compared(family: str) -> tuple[Problem, Plan, Reference]:
    problem = night(family, STATIONS, 1)
    plan = solve(problem, default_effort(problem))
    refer = earliest_finish if everything_placed(plan) else most_by_rank
    return problem, plan, refer(problem, plan, SECONDS, WORKERS)


@pytest.mark.parametrize("family", FAMILIES)
def test_the_independent_check_passes_what_cp_sat_finds(family: str) -> None:
    """The model and the check were written apart from each other: they mean the same limits."""
    problem, _, reference = compared(family)
    assert violations(problem, reference.plan) == ()


@pytest.mark.parametrize("family", [family for family in FAMILIES if family != "overfull"])
def test_small_nights_end_close_to_cp_sats_best(family: str) -> None:
    problem, plan, reference = compared(family)
    first = min(chain.release for chain in problem.chains)
    best = finish(problem, reference.plan) - first
    assert bound(problem).at - first <= best
    assert finish(problem, plan) - first <= best * (1 + MOST_BEHIND)


def test_a_small_overfull_night_serves_its_first_rank_as_cp_sat_does() -> None:
    problem, plan, reference = compared("overfull")
    ours, theirs = placed_by_rank(problem, plan), placed_by_rank(problem, reference.plan)
    assert ours[1] >= theirs[1] * (1 - MOST_BEHIND)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(nights(most_chains=5))
def test_no_plan_at_all_ends_before_the_bound(problem: Problem) -> None:
    """CP-SAT's earliest finish, over every plan that places everything, is never before the bound."""
    nothing = Plan(tuple((None,) * len(chain.cycles) for chain in problem.chains), (), 0)
    try:
        reference = earliest_finish(problem, nothing, SECONDS, WORKERS)
    except NoPlanFound:
        return
    assert violations(problem, reference.plan) == ()
    assert bound(problem).at <= finish(problem, reference.plan)
