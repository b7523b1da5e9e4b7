"""Runs asked for as soon as there is water: placed before all others, as early as they can be.

The solver weighs nights by their water and their end, and would be content to water what was asked for last.
"""

from __future__ import annotations

from dataclasses import replace

from .dues import ASKED_RANK
from .problem import Chain, Problem
from .solve import solve

ASKED_EFFORT = 4
"""Constructions for the asked-for runs alone: they are few."""


def asked_first(problem: Problem) -> Problem:
    """The same night, the first cycle of what was asked for fixed to where it would be if nothing else were due."""
    asked = tuple(chain for chain in problem.chains if chain.rank == ASKED_RANK)
    if all(chain.fixed is not None for chain in asked):
        return problem
    plan = solve(replace(problem, chains=asked), ASKED_EFFORT)
    starts = {chain.key: row[0] for chain, row in zip(asked, plan.starts, strict=True)}
    return replace(problem, chains=tuple(_fixed(chain, starts.get(chain.key)) for chain in problem.chains))


def _fixed(chain: Chain, start: int | None) -> Chain:
    return chain if start is None or chain.fixed is not None else replace(chain, fixed=start)
