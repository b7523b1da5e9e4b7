"""Which of two constructions is better: most water by rank, then the earliest end, then the calmest draw."""

from __future__ import annotations

from collections import defaultdict
from itertools import pairwise

from ..network import Network

Starts = list[list[int]]
Score = tuple[tuple[int, ...], int, int]
"""(water left out by rank, the most important rank first; when the night ends; water that runs after the target).

Water in mL/min × s, the end in seconds of the night. Less is better.
"""

RANKS = 9


def score(net: Network, starts: Starts, target: int | None) -> Score:
    """What comes first in judging a construction. Of two equal ends, the one with less behind the target is closer."""
    short = [0] * (RANKS + 1)
    end = after = 0
    for chain, row in zip(net.chains, starts, strict=True):
        if len(row) < len(chain.cycles):
            short[min(chain.rank, RANKS)] += chain.flow * sum(chain.cycles[len(row) :])
        for start, cycle in zip(row, chain.cycles, strict=False):
            if target is not None and start + cycle > target:
                after += chain.flow * (start + cycle - max(start, target))
        if row:
            end = max(end, row[-1] + chain.cycles[len(row) - 1])
    return tuple(short), end, after


def unrest(net: Network, starts: Starts) -> tuple[int, int]:
    """What decides between equals: (mL/min × s away from each source's steady flow and least flow, sum of ends).

    A source's draw counts from its first second to its last; the shortage below its least flow counts tenfold.
    """
    changes: dict[int, dict[int, int]] = defaultdict(lambda: defaultdict(int))
    for c, (chain, row) in enumerate(zip(net.chains, starts, strict=True)):
        for start, cycle in zip(row, chain.cycles, strict=False):
            changes[net.source[c]][start] += chain.flow
            changes[net.source[c]][start + cycle] -= chain.flow
    away = sum(_away(net, source, steps) for source, steps in changes.items())
    return away, sum(max(steps) for steps in changes.values())


def _away(net: Network, source: int, changes: dict[int, int]) -> int:
    node = net.problem.supplies[net.kind[source][1]]
    if not node.steady and not node.least:
        return 0
    away = draw = 0
    for now, until in pairwise(sorted(changes)):
        draw += changes[now]
        if draw and node.steady:
            away += abs(draw - node.steady) * (until - now)
        if draw and node.least and draw < node.least:
            away += 10 * (node.least - draw) * (until - now)
    return away
