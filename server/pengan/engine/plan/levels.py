"""A sum of loads over the night as steps, and questions to it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from itertools import accumulate

from .problem import Span

Load = tuple[int, int, int]
"""From a second, up to and without another, so much."""


def levels(loads: Sequence[Load]) -> list[tuple[int, int]]:
    """The sum from each second on at which a load starts or ends. The last is 0; without loads there is none."""
    steps: dict[int, int] = {}
    for start, end, amount in loads:
        steps[start] = steps.get(start, 0) + amount
        steps[end] = steps.get(end, 0) - amount
    seconds = sorted(steps)
    return list(zip(seconds, accumulate(steps[second] for second in seconds), strict=True))


def changes_only(steps: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """The steps at which the sum really changes: one run ends as another of the same flow begins."""
    before = [0, *(level for _, level in steps)]
    return [step for step, level in zip(steps, before, strict=False) if step[1] != level]


def stretches_within(steps: Sequence[tuple[int, int]], most: int, length: int) -> list[Span]:
    """Where the sum is at most `most`, from 0 to `length`."""
    over = [
        (second, until)
        for (second, level), (until, _) in zip(steps, steps[1:], strict=False)
        if level > most
    ]  # fmt: skip
    edges = [0, *(edge for span in over for edge in span), length]
    return [(start, end) for start, end in zip(edges[::2], edges[1::2], strict=True) if start < end]


def free_since(steps: Sequence[tuple[int, int]], loads: Sequence[Load], limit: int) -> list[int]:
    """For each load: the earliest second from which the others left room for it, without a break, until its start.

    `steps` are the levels of these loads, which stand in order of their starts. O(n log n): what lies behind is kept as
    a staircase, each step the last moment that reached its height; a question is one bisection on it. Heights are
    kept negative, so that they ascend from the oldest to the newest.
    """
    heights: list[int] = []
    ends: list[int] = []
    found: list[int] = []
    place = 0
    for start, _, amount in loads:
        while place < len(steps) and steps[place][0] < start:
            height = -steps[place][1]
            while heights and heights[-1] >= height:
                heights.pop()
                ends.pop()
            heights.append(height)
            place += 1
            ends.append(steps[place][0])
        higher = bisect_left(heights, amount - limit) - 1
        found.append(ends[higher] if higher >= 0 else 0)
    return found
