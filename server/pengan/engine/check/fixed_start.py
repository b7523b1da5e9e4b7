"""A run that somebody asked for at a chosen time starts then, or is left out."""

from __future__ import annotations

from collections.abc import Iterator

from ..message import saying
from ..plan.problem import Problem
from .opening import Opened
from .violation import Violation

RULE = "fixed_start"
MOVED = saying("check.fixed_start", "{station} was asked for at a chosen time and would start at another.")


def violations(problem: Problem, opened: Opened) -> Iterator[Violation]:
    """Holds the first cycle of each fixed chain, if it is placed, against its time."""
    for chain, placed in zip(problem.chains, opened.by_chain, strict=True):
        if chain.fixed is None or not placed or placed[0].cycle != 0:
            continue
        if placed[0].start != chain.fixed:
            yield Violation(RULE, MOVED(station=problem.stations[chain.station]), chain.key, placed[0].start)
