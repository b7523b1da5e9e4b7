"""At every second a supply carries no more than its limit: all that is open on it and on whatever it feeds."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from ..message import saying
from ..plan.problem import Problem
from .opening import Opened
from .sweep import Load, excesses
from .violation import Violation

RULE = "supply_flow"
OVER = saying("check.supply_flow", "{supply} would carry {draw_lpm}, more than its limit of {limit_lpm}.")


def violations(problem: Problem, opened: Opened) -> Iterator[Violation]:
    """Sums the draw at every node from the stations' own supply up to its source."""
    paths = [problem.path(index) for index in range(len(problem.supplies))]
    loads: dict[int, list[Load]] = defaultdict(list)
    for one in opened.all:
        for node in paths[one.chain.supply]:
            loads[node].append((one.start, one.end, one.chain.flow))
    for index, supply in enumerate(problem.supplies):
        if supply.limit is None:
            continue
        for excess in excesses(loads[index], supply.limit)[:1]:
            message = OVER(supply=supply.key, draw_lpm=excess.peak / 1000, limit_lpm=supply.limit / 1000)
            yield Violation(RULE, message, supply.key, excess.start)
