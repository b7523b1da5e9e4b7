"""The valves that a controller holds open together draw no more current than it can give."""

from __future__ import annotations

from collections.abc import Iterator

from ..message import saying
from ..plan.problem import Problem
from .opening import Opened, grouped
from .sweep import excesses
from .violation import Violation

RULE = "controller_current"
OVER = saying("check.controller_current", "{controller} would have to give {current_ma}; it can give {limit_ma}.")


def violations(problem: Problem, opened: Opened) -> Iterator[Violation]:
    """Sums the current of each controller's open valves. A resting valve draws none, so the gap does not count."""
    groups = grouped(opened.all, lambda one: one.chain.controller)
    for index, cabinet in enumerate(problem.controllers):
        if cabinet.max_current is None:
            continue
        loads = [(one.start, one.end, one.chain.current) for one in groups.get(index, ())]
        for excess in excesses(loads, cabinet.max_current)[:1]:
            message = OVER(controller=cabinet.key, current_ma=excess.peak, limit_ma=cabinet.max_current)
            yield Violation(RULE, message, cabinet.key, excess.start)
