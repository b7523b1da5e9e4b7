"""In a program of listed order, no turn begins before one that is listed above it."""

from __future__ import annotations

from collections.abc import Iterator

from ..message import saying
from ..plan.problem import Problem
from .opening import Opened
from .violation import Violation

RULE = "program_order"
EARLY = saying(
    "check.program_order", "{station} would begin before {other_station}, which stands above it in {program}."
)


def violations(problem: Problem, opened: Opened) -> Iterator[Violation]:
    """Compares first cycles as they begin, among those placed. Chains fixed or begun are outside the order."""
    latest: dict[int, tuple[int, int]] = {}
    for chain, placed in zip(problem.chains, opened.by_chain, strict=True):
        program = problem.programs[chain.program]
        if not program.ordered or not placed or placed[0].cycle != 0 or not chain.in_order:
            continue
        start = placed[0].start
        before, other = latest.get(chain.program, (start, chain.station))
        if start < before:
            message = EARLY(
                station=problem.stations[chain.station], other_station=problem.stations[other], program=program.key
            )
            yield Violation(RULE, message, chain.key, start)
        else:
            latest[chain.program] = (start, chain.station)
