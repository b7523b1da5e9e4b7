"""Published zero-waste rectangle sets as nights: a rectangle is a run, the strip's width one source's limit.

Source: E. Hopper and B. C. H. Turton, "An empirical investigation of meta-heuristic and heuristic algorithms for
a 2D packing problem", European Journal of Operational Research 128 (2001) 34-57, sets C1 to C7, as carried by the
PyPI package `hyperpack`. Each set was made by cutting one sheet up, so area / width is its proven optimum.
All twenty-one add up to their sheets in the version of the package that the tests pin.

A run needs its flow but no fixed place across the strip, and cannot be turned: the sheet's own cuts, in the
orientation of the sheet, remain a plan that reaches area / width. That the orientation carried is the sheet's is
seen to hold for C1, C2 and C3_1, whose optimum is reached by the planner or by CP-SAT; for the larger sets
area / width is at least a bound that no plan can beat, so what is measured against it is never flattered.
"""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module

from pengan.engine.plan.problem import Problem

from .sketch import DUSK_S, Sketch

WIDTH_UNIT, LENGTH_UNIT_S = 1000, 60
"""One unit of width is 1 L/min, one of length a minute: whole, and about the size of a real night."""


@dataclass(frozen=True, slots=True)
class RectangleSet:
    """One published set: its name, the night, and its proven best finish (seconds since noon)."""

    name: str
    problem: Problem
    finish: int


def rectangle_sets() -> list[RectangleSet]:
    """All sets, in their published order."""
    sets = []
    for group in range(1, 8):
        module = import_module(f"hyperpack.benchmarks.datasets.hopper_and_turton_2000.C{group}")
        for number, letter in enumerate("abc", start=1):
            items = [(item["w"], item["l"]) for item in getattr(module, f"items_{letter}").values()]
            sets.append(_night(f"C{group}_{number}", module.containers["container_0"]["W"], items))
    return sets


def _night(name: str, width: int, items: list[tuple[int, int]]) -> RectangleSet:
    area = sum(w * length for w, length in items)
    if area % width:
        raise ValueError(f"{name} does not fill whole rows of its strip")
    sketch = Sketch()
    source = sketch.supply(width * WIDTH_UNIT)
    for w, length in items:
        sketch.chain(supply=source, flow=w * WIDTH_UNIT, cycles=(length * LENGTH_UNIT_S,), soak=0)
    return RectangleSet(name, sketch.freeze(), DUSK_S + area // width * LENGTH_UNIT_S)
