"""Published zero-waste rectangle sets as nights: a rectangle is a run, the strip's width one source's limit.

Source: E. Hopper and B. C. H. Turton, "An empirical investigation of meta-heuristic and heuristic algorithms for
a 2D packing problem", European Journal of Operational Research 128 (2001) 34-57, sets C1 to C7, as carried by the
PyPI package `hyperpack`. Each set was made by cutting one sheet up, so area / width is its proven optimum.
C7_3 as carried does not add up to its sheet and is left out.

A run needs its flow but no fixed place across the strip, so a night is a relaxation of the packing: the sheet's
own cuts, where the orientation carried is that of the sheet, remain a plan that reaches area / width.
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
    """The twenty sets that add up, in their published order."""
    sets = []
    for group in range(1, 8):
        module = import_module(f"hyperpack.benchmarks.datasets.hopper_and_turton_2000.C{group}")
        for number, letter in enumerate("abc", start=1):
            if (group, number) != (7, 3):
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
