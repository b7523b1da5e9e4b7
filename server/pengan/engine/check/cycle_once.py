"""Every cycle of every turn is answered for exactly once: placed, or left out."""

from __future__ import annotations

from collections.abc import Iterator

from ..message import saying
from ..plan.problem import Problem
from .opening import Opened
from .violation import Violation

RULE = "cycle_once"
MISCOUNTED = saying("check.cycle_once", "{station} is due {due_count} cycles, and the plan speaks of {given_count}.")


def violations(problem: Problem, opened: Opened) -> Iterator[Violation]:
    """Compares the number of starts given for each chain with the number of its cycles."""
    for chain, given in zip(problem.chains, opened.given, strict=True):
        if given != len(chain.cycles):
            message = MISCOUNTED(
                station=problem.stations[chain.station], due_count=len(chain.cycles), given_count=given
            )
            yield Violation(RULE, message, chain.key, 0)
