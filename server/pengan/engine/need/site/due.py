"""On which nights programs start."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date, timedelta
from functools import cache

from ...clock.days import holds
from ...document.tables import Program

Allowed = Callable[[date], bool]


def allowed(programs: Iterable[Program]) -> Allowed:
    """Whether one of the programs starts in a night."""
    theirs = [(program, _days_after(program)) for program in programs]
    return cache(lambda night: any(holds(program, night + timedelta(days=after)) for program, after in theirs))


def _days_after(program: Program) -> int:
    """Days from the night's date to the date of the program's start: a start before noon is on the next day."""
    start = program.start
    return int(start is not None and not start.startswith("sunset") and (start.startswith("sunrise") or start < "12"))
