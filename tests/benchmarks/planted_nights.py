"""Nights whose best finish is known: how soon the first sheet, how long the best, and how far over the optimum."""

from __future__ import annotations

from statistics import mean

from nights.measure import everything_placed, finish
from nights.planted import Planted, planted
from nights.sketch import DUSK_S
from pengan.engine.check import violations
from pengan.engine.plan.solve import default_effort, solve

from .clockwork import timed
from .table import Table, note, percent, seconds

GOALS = {
    50: (0.01, 1, 0.015, 0.02),
    200: (0.03, 2, 0.005, 0.01),
    1000: (0.1, 4, 0.004, 0.01),
    5000: (0.6, 10, 0.008, 0.015),
}
"""By stations: seconds to the first sheet, seconds to the best, share over the optimum without and with closures."""
SEEDS = {50: (1, 2, 3, 4, 5), 200: (1, 2, 3), 1000: (1, 2), 5000: (1,)}


def show() -> None:
    table = Table(
        "Planted nights: about three cycles a station, best finish known",
        ("stations", "kind", "first", "best", "efforts", "over: mean", "worst", "first over", "goal", "reached"),
        8,
    )
    for stations, (first_goal, best_goal, open_goal, closed_goal) in GOALS.items():
        for kind in ("open", "closures", "three sources"):
            nights = _nights(stations, kind)
            results = [measure(night) for night in nights]
            goal = closed_goal if kind == "closures" else open_goal
            firsts, bests, efforts, overs, first_overs = zip(*results, strict=True)
            good = max(firsts) <= first_goal and max(bests) <= best_goal and mean(overs) <= goal
            table.row(
                str(round(mean(len(night.problem.stations) for night in nights))),
                kind,
                seconds(mean(firsts)),
                seconds(mean(bests)),
                f"{mean(efforts):.0f}",
                percent(mean(overs)),
                percent(max(overs)),
                percent(mean(first_overs)),
                f"{first_goal} {best_goal} {goal * 100:.1f}%",
                "yes" if good else "NO",
            )
    note("over: beyond the planted finish, as a share of the open time up to it; goals are for the mean.")


def _nights(stations: int, kind: str) -> list[Planted]:
    """The nights of one row. Three sources: three times the stations, up to 5,000, so that each is as large."""
    if kind == "three sources":
        return [planted(min(3 * stations, 5000), seed, sources=3) for seed in SEEDS[stations]]
    return [planted(stations, seed, closures=kind == "closures") for seed in SEEDS[stations]]


def measure(night: Planted) -> tuple[float, float, int, float, float]:
    """Seconds to the first and the best sheet, constructions, and how far both are over the optimum."""
    problem = night.problem
    first, first_s = timed(lambda: solve(problem, 1), 3)
    best, best_s = timed(lambda: solve(problem, default_effort(problem)))
    for plan in (first, best):
        if violations(problem, plan) or not everything_placed(plan):
            raise AssertionError(f"not a sound, whole plan of {len(problem.stations)} stations")
    over = [(finish(problem, plan) - night.finish) / _open_s(night) for plan in (best, first)]
    return first_s, best_s, best.constructions, over[0], over[1]


def _open_s(night: Planted) -> int:
    """Open seconds of the planted strip: what is due from a source divided by its limit."""
    source = night.problem.supplies[0].limit or 0
    due = sum(chain.flow * sum(chain.cycles) for chain in night.problem.chains if chain.supply == 0)
    return min(due // source, night.finish - DUSK_S)
