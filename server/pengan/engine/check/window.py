"""A cycle lies whole within one span that windows and closures leave open to it."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator

from ..message import saying
from ..plan.problem import Problem
from .opening import Opened
from .violation import Violation

RULE = "window"
SHUT = saying("check.window", "{station} would run where no window is open or a closure forbids it.")


def violations(problem: Problem, opened: Opened) -> Iterator[Violation]:
    """Looks up each cycle in its calendar. Reports the start of each cycle that no one span holds, as `turn/cycle`."""
    opens = [[start for start, _ in calendar] for calendar in problem.calendars]
    for one in opened.all:
        place = bisect_right(opens[one.chain.calendar], one.start) - 1
        if place < 0 or one.end > problem.calendars[one.chain.calendar][place][1]:
            message = SHUT(station=problem.stations[one.chain.station])
            yield Violation(RULE, message, f"{one.chain.key}/{one.cycle + 1}", one.start)
