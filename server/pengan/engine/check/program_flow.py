"""The stations of a program that are open together draw no more than the program's own limit."""

from __future__ import annotations

from collections.abc import Iterator

from ..message import saying
from ..plan.problem import Problem
from .opening import Opened, grouped
from .sweep import excesses
from .violation import Violation

RULE = "program_flow"
OVER = saying("check.program_flow", "Program {program} would draw {draw_lpm}, more than its own limit of {limit_lpm}.")


def violations(problem: Problem, opened: Opened) -> Iterator[Violation]:
    """Sums the flow of each program's open stations, on whatever supply they hang."""
    groups = grouped(opened.all, lambda one: one.chain.program)
    for index, program in enumerate(problem.programs):
        if program.limit is None:
            continue
        loads = [(one.start, one.end, one.chain.flow) for one in groups.get(index, ())]
        for excess in excesses(loads, program.limit)[:1]:
            message = OVER(program=program.key, draw_lpm=excess.peak / 1000, limit_lpm=program.limit / 1000)
            yield Violation(RULE, message, program.key, excess.start)
