"""The planner on published rectangle sets with proven optima, through the same `solve` as every night.

Source: E. Hopper and B. C. H. Turton, European Journal of Operational Research 128 (2001) 34-57, sets C1 to C7,
as the PyPI package `hyperpack` carries them.
"""

from __future__ import annotations

from statistics import mean

import pytest

from nights.measure import everything_placed, finish
from nights.rectangles import rectangle_sets
from nights.sketch import DUSK_S
from pengan.engine.check import violations
from pengan.engine.plan.bound import bound
from pengan.engine.plan.solve import default_effort, solve

SETS = rectangle_sets()
MOST_MEAN, MOST = 0.015, 0.045


@pytest.fixture(scope="module")
def overs() -> dict[str, float]:
    """How far over area / width each set ends, as a share of it."""
    found = {}
    for rectangles in SETS:
        plan = solve(rectangles.problem, default_effort(rectangles.problem))
        assert violations(rectangles.problem, plan) == ()
        assert everything_placed(plan)
        optimum = rectangles.finish - DUSK_S
        found[rectangles.name] = (finish(rectangles.problem, plan) - DUSK_S - optimum) / optimum
    return found


def test_no_set_ends_before_its_proven_optimum(overs: dict[str, float]) -> None:
    assert min(overs.values()) >= 0


def test_sets_end_close_to_their_proven_optimum(overs: dict[str, float]) -> None:
    assert mean(overs.values()) <= MOST_MEAN
    assert max(overs.values()) <= MOST


@pytest.mark.parametrize("rectangles", SETS, ids=lambda rectangles: rectangles.name)
def test_the_bound_is_the_proven_optimum_where_no_rectangle_is_left_over(rectangles) -> None:  # type: ignore[no-untyped-def]
    """Area over width is both the sets' proven optimum and the water at the source over its limit."""
    assert bound(rectangles.problem).at == rectangles.finish
