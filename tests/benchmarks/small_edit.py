"""Re-planning after a small edit: from the order that won, one construction, and how many runs move."""

from __future__ import annotations

from dataclasses import replace

from nights.families import night
from nights.measure import finish
from pengan.engine.check import violations
from pengan.engine.plan.problem import Plan, Problem
from pengan.engine.plan.solve import Before, default_effort, solve

from .clockwork import timed
from .table import Table, note, percent, seconds

MOVED_S = 600


def show() -> None:
    table = Table(
        "After a small edit (one turn a quarter longer), from the order that won",
        ("family", "stations", "one more", "moved", "full again", "moved", "later by"),
    )
    for family in ("tight", "sources", "deep_tree", "electrical", "closures", "mixed"):
        for stations in (200, 1000):
            _row(table, family, stations)
    note("moved: share of runs that start more than ten minutes from where they did. later by: the quick sheet's")
    note("finish beyond that of the full effort, as a share of the night's open hours from dusk.")


def _row(table: Table, family: str, stations: int) -> None:
    before = night(family, stations, 1)
    old = solve(before, default_effort(before))
    after = edited(before)
    earlier = Before(old.order, dict(zip((c.key for c in before.chains), old.starts, strict=True)))
    quick, quick_s = timed(lambda: solve(after, 1, earlier), 3)
    full, full_s = timed(lambda: solve(after, default_effort(after), earlier))
    for plan in (quick, full):
        if violations(after, plan):
            raise AssertionError("the plan breaks a limit")
    later = (finish(after, quick) - finish(after, full)) / finish(after, full)
    cells = (seconds(quick_s), percent(moved(old, quick)), seconds(full_s), percent(moved(old, full)), percent(later))
    table.row(family, str(stations), *cells)


def edited(problem: Problem) -> Problem:
    """The same night with the middle chain's cycles a quarter longer."""
    chains = list(problem.chains)
    middle = len(chains) // 2
    chains[middle] = replace(chains[middle], cycles=tuple(cycle * 5 // 4 for cycle in chains[middle].cycles))
    return replace(problem, chains=tuple(chains))


def moved(old: Plan, new: Plan) -> float:
    """The share of runs that moved by more than ten minutes, came or went."""
    pairs = [pair for a, b in zip(old.starts, new.starts, strict=True) for pair in zip(a, b, strict=True)]
    runs = [(a, b) for a, b in pairs if a is not None or b is not None]
    return sum(a is None or b is None or abs(a - b) > MOVED_S for a, b in runs) / len(runs)
