"""Every cycle lies between its program's start and its finish time, and within the night."""

from __future__ import annotations

from collections.abc import Iterator

from ..message import saying
from ..plan.problem import Problem
from .opening import Opened
from .violation import Violation

RULE = "night"
EARLY = saying("check.night.early", "{station} would run before it may begin.")
LATE = saying("check.night.late", "{station} would run past the time by which it must be done.")


def violations(problem: Problem, opened: Opened) -> Iterator[Violation]:
    """Holds each cycle against its chain's release and deadline and the night's length. The subject is `turn/cycle`."""
    for one in opened.all:
        station = problem.stations[one.chain.station]
        subject = f"{one.chain.key}/{one.cycle + 1}"
        if one.start < max(0, one.chain.release):
            yield Violation(RULE, EARLY(station=station), subject, one.start)
        if one.end > min(problem.length, one.chain.deadline):
            yield Violation(RULE, LATE(station=station), subject, one.start)
