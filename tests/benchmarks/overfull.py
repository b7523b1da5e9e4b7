"""Nights with more water due than there is time for: the share of the volume bound that is placed."""

from __future__ import annotations

from nights.families import night
from nights.measure import placed_by_rank, volume_bound
from pengan.engine.check import violations
from pengan.engine.plan.solve import default_effort, solve

from .clockwork import timed
from .table import Table, percent, seconds

LEAST = 0.98
NIGHTS = ((1000, 1), (1000, 2), (1000, 3), (5000, 1))


def show() -> None:
    table = Table(
        "Overfull nights: water placed, of what the sources could give",
        ("stations", "best", "share", "rank 1", "reached"),
    )
    for stations, seed in NIGHTS:
        problem = night("overfull", stations, seed)
        plan, time_s = timed(lambda problem=problem: solve(problem, default_effort(problem)))  # type: ignore[misc]
        if violations(problem, plan):
            raise AssertionError("the plan breaks a limit")
        placed = placed_by_rank(problem, plan)
        first = min(placed)
        due = sum(chain.flow * sum(chain.cycles) for chain in problem.chains if chain.rank == first)
        share = sum(placed.values()) / volume_bound(problem)
        table.row(
            f"{stations:,} (seed {seed})",
            seconds(time_s),
            percent(share),
            percent(placed[first] / due),
            "yes" if share >= LEAST else "NO",
        )
