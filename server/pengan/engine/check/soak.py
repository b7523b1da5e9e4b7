"""The cycles of a turn follow one another, with at least the soak between them."""

from __future__ import annotations

from collections.abc import Iterator

from ..message import saying
from ..plan.problem import Problem
from .opening import Opened
from .violation import Violation

RULE = "soak"
SHORT = saying("check.soak", "{station} would run again before its soak of {soak_s} is over.")
SKIPPED = saying("check.soak.skipped", "{station} would run a later cycle though the one before it is left out.")


def violations(problem: Problem, opened: Opened) -> Iterator[Violation]:
    """Compares each cycle with the one before it, which has to be placed as well. The subject is `turn/cycle`."""
    for chain, placed in zip(problem.chains, opened.by_chain, strict=True):
        station = problem.stations[chain.station]
        for place, one in enumerate(placed):
            subject = f"{chain.key}/{one.cycle + 1}"
            before = placed[place - 1] if place else None
            if one.cycle != (before.cycle + 1 if before else 0):
                yield Violation(RULE, SKIPPED(station=station), subject, one.start)
            elif before and one.start < before.end + chain.soak:
                yield Violation(RULE, SHORT(station=station, soak_s=chain.soak), subject, one.start)
