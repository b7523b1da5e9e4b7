"""A program has no more stations open at once than it may."""

from __future__ import annotations

from collections.abc import Iterator

from ..message import saying
from ..plan.problem import Problem
from .opening import Opened, grouped
from .sweep import excesses
from .violation import Violation

RULE = "program_open"
OVER = saying(
    "check.program_open", "Program {program} would have {open_count} stations open at once; it may have {limit_count}."
)


def violations(problem: Problem, opened: Opened) -> Iterator[Violation]:
    """Counts each program's open stations. The gap between valves is a matter of controllers, not of programs."""
    groups = grouped(opened.all, lambda one: one.chain.program)
    for index, program in enumerate(problem.programs):
        if program.max_open is None:
            continue
        loads = [(one.start, one.end, 1) for one in groups.get(index, ())]
        for excess in excesses(loads, program.max_open)[:1]:
            message = OVER(program=program.key, open_count=excess.peak, limit_count=program.max_open)
            yield Violation(RULE, message, program.key, excess.start)
