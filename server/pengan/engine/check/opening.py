"""The openings of a plan: what the rules look at."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable
from dataclasses import dataclass
from typing import TypeVar

from ..plan.problem import Chain, Plan, Problem

K = TypeVar("K", bound=Hashable)


@dataclass(frozen=True, slots=True)
class Opening:
    """One cycle as placed, in seconds since the night's start, `end` not included. `cycle` counts from 0."""

    chain: Chain
    cycle: int
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Opened:
    """A plan's openings in the order of chains and cycles, and how many starts it gave each chain."""

    all: tuple[Opening, ...]
    by_chain: tuple[tuple[Opening, ...], ...]
    given: tuple[int, ...]


def openings(problem: Problem, plan: Plan) -> Opened:
    """The placed cycles of `plan`. Starts beyond a chain's cycles are left to the rule `cycle_once`."""
    by_chain = tuple(
        tuple(
            Opening(chain, cycle, start, start + length)
            for cycle, (start, length) in enumerate(zip(starts, chain.cycles, strict=False))
            if start is not None
        )
        for chain, starts in zip(problem.chains, plan.starts, strict=True)
    )
    return Opened(tuple(one for chain in by_chain for one in chain), by_chain, tuple(map(len, plan.starts)))


def grouped(opened: Iterable[Opening], key: Callable[[Opening], K]) -> dict[K, list[Opening]]:
    """The openings by what they have in common, each group in plan order."""
    groups: dict[K, list[Opening]] = defaultdict(list)
    for one in opened:
        groups[key(one)].append(one)
    return dict(groups)
