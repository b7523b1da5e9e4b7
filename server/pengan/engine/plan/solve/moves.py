"""From one ranking to the next: what ended too late comes forward, or a single cycle changes its place."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from ..network import Network
from .score import RANKS, Score, Starts

Chance = Callable[[], float]
"""A seeded source of numbers from 0 up to 1."""

SHAKE, SHAKEN = 0.3, 0.1
"""How often a whole ranking is shaken a little, and by what part of its length at most."""
LESSER = 0.3
"""How often a cycle left out is raised though more important ones were left out too."""
BY_IMPORTANCE = 0.5
"""How often, where not all fits, a raised ranking puts the important ones first."""


def raised(
    net: Network, ranking: Sequence[int], starts: Starts, score: Score, target: int, chance: Chance
) -> list[int]:
    """The ranking with cycles that ended after the target, or were left out, moved forward by some random part."""
    length = len(ranking)
    reach = length * (0.1 + 0.9 * chance())
    shake = length * SHAKEN * chance() if chance() < SHAKE else 0.0
    gravest = next((rank for rank, short in enumerate(score[0]) if short), RANKS)
    mentioned = [0] * len(net.chains)
    entries = []
    for place, number in enumerate(ranking):
        cycle, chain, row = mentioned[number], net.chains[number], starts[number]
        mentioned[number] += 1
        if cycle >= len(row):
            squeaks = chain.rank <= gravest or chance() < LESSER
        else:
            squeaks = row[cycle] + chain.cycles[cycle] > target
        forward = reach * chance() if squeaks else 0.0
        entries.append((place - forward + (shake * chance() if shake else 0.0), place, number))
    entries.sort()
    order = [number for _, _, number in entries]
    return by_importance(net, order) if any(score[0]) and chance() < BY_IMPORTANCE else order


def by_importance(net: Network, ranking: Sequence[int]) -> list[int]:
    """The same ranking with the more important chains before the others."""
    return sorted(ranking, key=lambda number: net.chains[number].rank)


def nudged(ranking: Sequence[int], chance: Chance) -> list[int]:
    """The ranking with one cycle put elsewhere, or two changed over."""
    order = list(ranking)
    one, other = int(chance() * len(order)), int(chance() * len(order))
    if chance() < 0.5:
        order.insert(other, order.pop(one))
    else:
        order[one], order[other] = order[other], order[one]
    return order


def shuffled(ranking: Sequence[int], chance: Chance) -> list[int]:
    """The same cycles in no order at all."""
    return [number for _, _, number in sorted((chance(), place, number) for place, number in enumerate(ranking))]
