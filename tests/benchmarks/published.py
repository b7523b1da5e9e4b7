"""Published zero-waste rectangle sets (Hopper and Turton 2001, C1 to C7) through the same `solve`."""

from __future__ import annotations

from statistics import mean

from nights.measure import finish
from nights.rectangles import RectangleSet, rectangle_sets
from nights.sketch import DUSK_S
from pengan.engine.check import violations
from pengan.engine.plan.solve import default_effort, solve

from .clockwork import timed
from .table import Table, note, percent, seconds

MOST_MEAN, MOST = 0.015, 0.045


def show() -> None:
    table = Table(
        "Published rectangles: width = flow, length = time, optimum = area / width", ("set", "runs", "best", "over"), 8
    )
    overs = []
    for rectangles in rectangle_sets():
        over, time_s = over_optimum(rectangles)
        overs.append(over)
        table.row(rectangles.name, str(len(rectangles.problem.chains)), seconds(time_s), percent(over))
    reached = "yes" if mean(overs) <= MOST_MEAN and max(overs) <= MOST else "NO"
    note(
        f"mean {percent(mean(overs))} (at most 1.5 %), worst {percent(max(overs))} (at most 4.5 %), reached: {reached}"
    )


def over_optimum(rectangles: RectangleSet) -> tuple[float, float]:
    """How far over the proven optimum the default effort ends, and its processor seconds."""
    problem = rectangles.problem
    plan, time_s = timed(lambda: solve(problem, default_effort(problem)))
    if violations(problem, plan):
        raise AssertionError(f"{rectangles.name}: the plan breaks a limit")
    return (finish(problem, plan) - rectangles.finish) / (rectangles.finish - DUSK_S), time_s
