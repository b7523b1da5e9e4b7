"""A sweep over the night: where does a sum of loads go beyond its limit?"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

Load = tuple[int, int, int]
"""From a second, up to and without another, so much."""


@dataclass(frozen=True, slots=True)
class Excess:
    """A stretch in which the sum is over the limit without a break, and the most it reaches there."""

    start: int
    end: int
    peak: int


def excesses(loads: Iterable[Load], limit: int) -> list[Excess]:
    """Every stretch in which the loads together are more than `limit`, earliest first."""
    found: list[Excess] = []
    since, peak = None, 0
    for second, total in _levels(loads):
        if total > limit:
            since, peak = (second, total) if since is None else (since, max(peak, total))
        elif since is not None:
            found.append(Excess(since, second, peak))
            since = None
    return found


def _levels(loads: Iterable[Load]) -> list[tuple[int, int]]:
    """The sum from each second on at which it may change. The last is always 0."""
    steps: dict[int, int] = defaultdict(int)
    for start, end, amount in loads:
        steps[start] += amount
        steps[end] -= amount
    levels, total = [], 0
    for second in sorted(steps):
        total += steps[second]
        levels.append((second, total))
    return levels
