"""A sum of loads over the night as steps, and questions to it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence

from .loads import Load
from .problem import Span


def levels(loads: Sequence[Load]) -> list[tuple[int, int]]:
    """The sum from each second on at which it changes. The last is 0; without loads there is none."""
    steps: dict[int, int] = {}
    for start, end, amount in loads:
        steps[start] = steps.get(start, 0) + amount
        steps[end] = steps.get(end, 0) - amount
    found, level = list[tuple[int, int]](), 0
    for second in sorted(steps):
        if steps[second]:
            level += steps[second]
            found.append((second, level))
    return found


def stretches_within(steps: Sequence[tuple[int, int]], most: int, length: int) -> list[Span]:
    """Where the sum is at most `most`, from 0 to `length`."""
    over = [
        (second, until)
        for (second, level), (until, _) in zip(steps, steps[1:], strict=False)
        if level > most
    ]  # fmt: skip
    edges = [0, *(edge for span in over for edge in span), length]
    return [(start, end) for start, end in zip(edges[::2], edges[1::2], strict=True) if start < end]


def free_since(loads: Sequence[Load], limit: int) -> list[int]:
    """For each load: the earliest second from which the others left room for it, without a break, until its start.

    The loads stand in order of their starts. O(n log n): what lies behind is kept as a staircase, of which each step
    is the last moment that reached its height; a question is one bisection on it.
    """
    steps = levels(loads)
    heights: list[int] = []
    ends: list[int] = []
    found: list[int] = []
    place = 0
    for start, _, amount in loads:
        while place < len(steps) and steps[place][0] < start:
            until = steps[place + 1][0] if place + 1 < len(steps) else start
            _climb(heights, ends, steps[place][1], min(until, start))
            if until > start:
                break
            place += 1
        higher = bisect_left(heights, amount - limit) - 1
        found.append(ends[higher] if higher >= 0 else 0)
    return found


def _climb(heights: list[int], ends: list[int], level: int, end: int) -> None:
    """Add a step to the staircase. Heights are kept negative, so that they ascend from the oldest to the newest."""
    while heights and heights[-1] >= -level:
        heights.pop()
        ends.pop()
    heights.append(-level)
    ends.append(end)
