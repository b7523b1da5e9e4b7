"""The runs of a plan in order of time, as the sheet's makers look at them."""

from __future__ import annotations

from dataclasses import dataclass

from .problem import Plan, Problem


@dataclass(frozen=True, slots=True)
class Placed:
    """One cycle that found its place, in seconds of the night. `chain` and `cycle` count from 0."""

    chain: int
    cycle: int
    start: int
    end: int


def placed_runs(problem: Problem, plan: Plan) -> list[Placed]:
    """Every placed cycle, earliest first; of those that start together, in the order of chains."""
    found = [
        Placed(index, cycle, start, start + seconds)
        for index, (chain, starts) in enumerate(zip(problem.chains, plan.starts, strict=True))
        for cycle, (start, seconds) in enumerate(zip(starts, chain.cycles, strict=True))
        if start is not None
    ]
    return sorted(found, key=lambda run: (run.start, run.chain, run.cycle))
