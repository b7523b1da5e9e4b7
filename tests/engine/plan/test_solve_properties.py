"""What holds for every plan of every small night, whatever its limits."""

from __future__ import annotations

from dataclasses import replace
from importlib import import_module
from unittest.mock import patch

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from nights.families import night
from nights.measure import everything_placed, finish, placed_by_rank
from nights.strategies import nights, one_limit_more
from pengan.engine.check import violations
from pengan.engine.plan.bound import bound
from pengan.engine.plan.problem import Chain, Plan, Problem, ProgramLimit, SupplyNode
from pengan.engine.plan.solve import MOVED_S, Before, default_effort, solve

EFFORT = 40
PART = import_module("pengan.engine.plan.solve.solve")._Part
kept_on = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])


def standing(problem: Problem, plan: Plan) -> tuple[tuple[int, ...], int]:
    """What a plan is judged by: water left out by rank, then its finish. Less is better."""
    return tuple(-water for water in placed_by_rank(problem, plan).values()), finish(problem, plan)


@settings(kept_on, max_examples=300)
@given(nights())
def test_every_plan_passes_the_independent_check(problem: Problem) -> None:
    assert violations(problem, solve(problem, EFFORT)) == ()


@settings(kept_on, max_examples=100)
@given(nights(), st.integers(1, 5))
def test_a_plan_of_any_effort_is_sound_and_spends_no_more(problem: Problem, effort: int) -> None:
    """But for one: where some water is to come late, those chains and the rest take at least one construction each."""
    plan = solve(problem, effort)
    assert violations(problem, plan) == ()
    assert plan.constructions <= effort + 1


@settings(kept_on, max_examples=200)
@given(nights())
def test_nothing_ends_before_the_bound(problem: Problem) -> None:
    plan = solve(problem, EFFORT)
    if everything_placed(plan):
        assert bound(problem).at <= finish(problem, plan)


@settings(kept_on, max_examples=300)
@given(st.data(), nights())
def test_a_limit_more_never_makes_the_bound_earlier(data: st.DataObject, problem: Problem) -> None:
    tighter = data.draw(one_limit_more(problem))
    assert bound(tighter).at >= bound(problem).at


@settings(kept_on, max_examples=60)
@given(nights())
def test_the_same_night_gives_the_same_plan(problem: Problem) -> None:
    assert solve(problem, EFFORT) == solve(problem, EFFORT)


@settings(kept_on, max_examples=150)
@given(nights())
def test_one_construction_from_the_order_that_won_gives_the_plan_again(problem: Problem) -> None:
    won = solve(problem, EFFORT)
    again = solve(problem, 1, Before(won.order))
    assert again.starts == won.starts
    assert again.constructions <= 2, "one for late chains and one for the rest"


@settings(kept_on, max_examples=100)
@given(nights(most_chains=6, plain=True))
def test_more_effort_never_gives_a_worse_plan(problem: Problem) -> None:
    little, much = solve(problem, 8), solve(problem, EFFORT)
    assert standing(problem, much) <= standing(problem, little)


@settings(kept_on, max_examples=100)
@given(nights())
def test_starting_from_an_order_is_never_worse_than_that_order_alone(problem: Problem) -> None:
    before = Before(solve(problem, 1).order)
    assert standing(problem, solve(problem, EFFORT, before)) <= standing(problem, solve(problem, 1, before))


@settings(kept_on, max_examples=100)
@given(nights())
def test_an_order_that_names_strangers_and_leaves_chains_out_still_starts_a_search(problem: Problem) -> None:
    """After an edit some chains of the old order are gone and others are new."""
    old = ("gone", *(chain.key for chain in problem.chains[1::2]), "gone too")
    assert violations(problem, solve(problem, 2, Before(old))) == ()


@settings(kept_on, max_examples=100)
@given(nights())
def test_a_cycle_is_left_out_only_where_nothing_would_let_it_run(problem: Problem) -> None:
    """No single cycle that was left out fits into the finished plan as it stands."""
    plan = solve(problem, EFFORT)
    for chain, starts in enumerate(plan.starts):
        if None in starts:
            cycle = starts.index(None)
            assert not _fits(problem, plan, chain, cycle), problem.chains[chain].key


def _fits(problem: Problem, plan: Plan, chain: int, cycle: int) -> bool:
    """Whether the cycle can be added at one of the moments at which anything begins, ends or opens."""
    return any(
        not violations(problem, _with(plan, chain, cycle, moment)) for moment in _moments(problem, plan, chain, cycle)
    )


def _with(plan: Plan, chain: int, cycle: int, moment: int) -> Plan:
    starts = [list(row) for row in plan.starts]
    starts[chain][cycle] = moment
    return Plan(tuple(map(tuple, starts)), plan.order, plan.constructions)


def _moments(problem: Problem, plan: Plan, chain: int, cycle: int) -> list[int]:
    mine = problem.chains[chain]
    if cycle == 0 and mine.fixed is not None:
        return [mine.fixed]
    moments = {mine.release, *(first for first, _ in problem.calendars[mine.calendar])}
    for other, starts in zip(problem.chains, plan.starts, strict=True):
        for start, length in zip(starts, other.cycles, strict=True):
            if start is not None:
                gap = 0 if other.controller is None else problem.controllers[other.controller].gap
                moments |= {start + length, start + length + gap, start + length + other.soak, start}
    return sorted(moment for moment in moments if moment >= mine.release)


def test_the_default_effort_falls_with_the_size_of_the_night() -> None:
    efforts = [default_effort(night("tight", size, 1)) for size in (50, 200, 1000, 5000)]
    assert efforts == sorted(efforts, reverse=True)
    assert efforts[-1] >= 1


def test_each_construction_is_reported_as_it_is_made() -> None:
    seen: list[int] = []
    problem = night("tight", 20, 1)
    plan = solve(problem, 30, on_construction=seen.append)
    assert seen == list(range(1, plan.constructions + 1))


@settings(kept_on, max_examples=60)
@given(nights(), st.integers(1, 12), st.data())
def test_staying_with_the_earlier_starts_costs_no_water_and_no_time(
    problem: Problem, effort: int, data: st.DataObject
) -> None:
    """One chain takes longer than it did: the plan is no worse than if runs were moved more freely."""
    before = earlier_plan(problem, solve(problem, EFFORT))
    after = longer(problem, data.draw(st.integers(0, len(problem.chains) - 1)))
    calm = solve(after, effort, before)
    with patch.object(PART, "calmest", lambda part, _latest: part.found):
        free = solve(after, effort, before)
    assert violations(after, calm) == ()
    assert standing(after, calm) <= standing(after, free)
    assert moved(before, after, calm) <= moved(before, after, free)


def test_a_small_edit_moves_few_runs_where_the_night_ends_elsewhere() -> None:
    """Two sources, and the second one's runs end long before the night does: they stay though they could end sooner."""
    problem = two_sources()
    won = solve(problem, EFFORT)
    before, after = earlier_plan(problem, won), longer(problem, len(problem.chains) - 1)
    for effort in (1, 3, EFFORT):
        plan = solve(after, effort, before)
        assert finish(after, plan) == finish(problem, won)
        assert moved(before, after, plan) == 0


def two_sources() -> Problem:
    """Ten long runs one after the other on the first source; eight short ones, two at once, on the second."""
    supplies = (SupplyNode("well", None, 60_000), SupplyNode("lake", None, 100_000))
    flows = [60_000] * 10 + [20_000, 30_000, 70_000, 50_000, 40_000, 80_000, 60_000, 50_000]
    chains = tuple(
        Chain(
            key=f"t{n}", station=n, supply=int(n >= 10), controller=None, program=0, flow=flow, current=0,
            cycles=(3_600 if n < 10 else 900 + 100 * n,), soak=0, rank=5, release=0, deadline=86_400, calendar=0,
        )
        for n, flow in enumerate(flows)
    )  # fmt: skip
    stations, apart = tuple(f"s{n}" for n in range(18)), (frozenset[int](),) * 18
    return Problem(86_400, supplies, (), (ProgramLimit("p"),), stations, chains, (((0, 86_400),),), apart)


def longer(problem: Problem, chain: int) -> Problem:
    """The same night with one chain's cycles a quarter longer."""
    chains = list(problem.chains)
    chains[chain] = replace(chains[chain], cycles=tuple(cycle * 5 // 4 for cycle in chains[chain].cycles))
    return replace(problem, chains=tuple(chains))


def earlier_plan(problem: Problem, plan: Plan) -> Before:
    return Before(plan.order, {chain.key: row for chain, row in zip(problem.chains, plan.starts, strict=True)})


def moved(before: Before, after: Problem, plan: Plan) -> int:
    """The runs that start more than ten minutes from where they did."""
    rows = ((before.starts[chain.key], row) for chain, row in zip(after.chains, plan.starts, strict=True))
    pairs = ((old, new) for olds, news in rows for old, new in zip(olds, news, strict=True))
    return sum(old is not None and new is not None and abs(new - old) > MOVED_S for old, new in pairs)
