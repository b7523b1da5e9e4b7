"""Stations that are to stay apart are never open together."""

from __future__ import annotations

from collections.abc import Iterator

from ..message import saying
from ..plan.problem import Problem
from .opening import Opened, Opening, grouped
from .violation import Violation

RULE = "apart"
TOGETHER = saying("check.apart", "{station} and {other_station} would be open together; they are to stay apart.")


def violations(problem: Problem, opened: Opened) -> Iterator[Violation]:
    """Merges the openings of each pair in order of time. The subject is both stations' ids with `+` between."""
    groups = grouped(opened.all, lambda one: one.chain.station)
    for group in groups.values():
        group.sort(key=lambda one: (one.start, one.end))
    for first, other in _pairs(problem):
        second = _first_overlap(groups.get(first, []), groups.get(other, []))
        if second is not None:
            a, b = problem.stations[first], problem.stations[other]
            yield Violation(RULE, TOGETHER(station=a, other_station=b), f"{a}+{b}", second)


def _pairs(problem: Problem) -> list[tuple[int, int]]:
    """Each pair once, also where only one of the two names the other."""
    named = ((one, other) for one, others in enumerate(problem.apart) for other in others)
    return sorted({(min(pair), max(pair)) for pair in named if pair[0] != pair[1]})


def _first_overlap(mine: list[Opening], theirs: list[Opening]) -> int | None:
    """The first second at which one of each is open. Holds also where a station's own openings overlap."""
    both = sorted([(one.start, one.end, 0) for one in mine] + [(one.start, one.end, 1) for one in theirs])
    until = [start for start, _, _ in both[:1]] * 2
    for start, end, side in both:
        if until[1 - side] > start:
            return start
        until[side] = max(until[side], end)
    return None
