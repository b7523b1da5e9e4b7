"""Which of two constructions is better: most water by rank, then the earliest end, then the calmest draw."""

from __future__ import annotations

from ..problem import Problem

Starts = list[list[int]]
Score = tuple[tuple[int, ...], int, int]
"""(water left out by rank, when the night ends, the sum of the ends of each source). Less is better."""

RANKS = 9


def score(problem: Problem, starts: Starts) -> Score:
    """Water left out in mL/min × s, most important rank first; ends in seconds of the night."""
    short = [0] * (RANKS + 1)
    ends: dict[int, int] = {}
    for chain, row in zip(problem.chains, starts, strict=True):
        if len(row) < len(chain.cycles):
            short[min(chain.rank, RANKS)] += chain.flow * sum(chain.cycles[len(row) :])
        if row:
            end = row[-1] + chain.cycles[len(row) - 1]
            if end > ends.get(chain.supply, 0):
                ends[chain.supply] = end
    return tuple(short), max(ends.values(), default=0), sum(ends.values())
