"""Beside CP-SAT: two workers, 30 seconds, hinted with our plan, every family up to 200 stations."""

from __future__ import annotations

from statistics import mean

from nights.cp_sat import earliest_finish, most_by_rank
from nights.families import FAMILIES, night
from nights.measure import everything_placed, finish, placed_by_rank
from pengan.engine.check import violations
from pengan.engine.plan.bound import bound
from pengan.engine.plan.problem import Plan, Problem
from pengan.engine.plan.solve import default_effort, solve

from .table import Table, note, percent

SIZES = (8, 20, 50, 100, 200)
SECONDS, WORKERS = 30.0, 2
MOST_MEAN, MOST = 0.01, 0.03


def show(sizes: tuple[int, ...] = SIZES, seconds: float = SECONDS, seed: int = 1) -> None:
    table = Table(f"Beside CP-SAT ({WORKERS} workers, {seconds:.0f} s, hinted with ours)", ("family", *map(str, sizes)))
    gaps: list[float] = []
    for family in FAMILIES:
        row = [gap(night(family, size, seed), seconds, WORKERS) for size in sizes]
        gaps.extend(share for share, _ in row)
        table.row(family, *(f"{percent(share)}{mark}" for share, mark in row))
    note("behind CP-SAT's best, as a share of the time from the first release (overfull: of the water placed);")
    note("= proved optimal by CP-SAT; ! CP-SAT's bound lies after ours; ? neither.")
    reached = "yes" if mean(gaps) <= MOST_MEAN and max(gaps) <= MOST else "NO"
    note(f"mean {percent(mean(gaps))} (at most 1 %), worst {percent(max(gaps))} (at most 3 %), reached: {reached}")


def gap(problem: Problem, seconds: float, workers: int) -> tuple[float, str]:
    """How far behind CP-SAT the default effort is, and a mark that says what was proved."""
    plan = solve(problem, default_effort(problem))
    if violations(problem, plan):
        raise AssertionError("the plan breaks a limit")
    if everything_placed(plan):
        return _later(problem, plan, seconds, workers)
    return _less(problem, plan, seconds, workers)


def _later(problem: Problem, plan: Plan, seconds: float, workers: int) -> tuple[float, str]:
    found = earliest_finish(problem, plan, seconds, workers)
    if violations(problem, found.plan):
        raise AssertionError("the reference breaks a limit: the model and the check disagree")
    ours, theirs, mine = finish(problem, plan), finish(problem, found.plan), bound(problem).at
    if mine > theirs:
        raise AssertionError(f"the bound {mine} lies after a finish that CP-SAT found, {theirs}")
    first = min(chain.release for chain in problem.chains)
    return (ours - theirs) / (theirs - first), "=" if found.proved else "!" if found.bound > mine else "?"


def _less(problem: Problem, plan: Plan, seconds: float, workers: int) -> tuple[float, str]:
    """The first rank that is served less than it could be decides; 0 where no rank is."""
    found = most_by_rank(problem, plan, seconds, workers)
    if violations(problem, found.plan):
        raise AssertionError("the reference breaks a limit: the model and the check disagree")
    ours, theirs = placed_by_rank(problem, plan), placed_by_rank(problem, found.plan)
    for rank, water in theirs.items():
        if ours[rank] != water:
            return max(0, water - ours[rank]) / sum(theirs.values()), "=" if found.proved else "?"
    return 0.0, "=" if found.proved else "?"
