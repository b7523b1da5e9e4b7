"""A controller has no more valves open than it may. A valve's place stays taken for the gap after it closes."""

from __future__ import annotations

from collections.abc import Iterator

from ..message import saying
from ..plan.problem import Problem
from .opening import Opened, grouped
from .sweep import excesses
from .violation import Violation

RULE = "controller_open"
OVER = saying(
    "check.controller_open",
    "{controller} would have {open_count} valves open or resting at once; it takes {limit_count}.",
)


def violations(problem: Problem, opened: Opened) -> Iterator[Violation]:
    """Counts, for each controller with such a limit, the openings lengthened by its gap."""
    groups = grouped(opened.all, lambda one: one.chain.controller)
    for index, cabinet in enumerate(problem.controllers):
        if cabinet.max_open is None:
            continue
        loads = [(one.start, one.end + cabinet.gap, 1) for one in groups.get(index, ())]
        for excess in excesses(loads, cabinet.max_open)[:1]:
            message = OVER(controller=cabinet.key, open_count=excess.peak, limit_count=cabinet.max_open)
            yield Violation(RULE, message, cabinet.key, excess.start)
