"""A station is one valve: it cannot be opened while it is open."""

from __future__ import annotations

from collections.abc import Iterator

from ..message import saying
from ..plan.problem import Problem
from .opening import Opened, grouped
from .sweep import excesses
from .violation import Violation

RULE = "station_busy"
TWICE = saying("check.station_busy", "{station} would be opened while it is still open.")


def violations(problem: Problem, opened: Opened) -> Iterator[Violation]:
    """Counts the openings of each station at every second, over all its turns."""
    groups = grouped(opened.all, lambda one: one.chain.station)
    for index, key in enumerate(problem.stations):
        for excess in excesses([(one.start, one.end, 1) for one in groups.get(index, ())], 1)[:1]:
            yield Violation(RULE, TWICE(station=key), key, excess.start)
