"""A site's clock for people: the local time of an instant, and which of two it is where an hour comes twice."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from typing import Protocol

from .moments import write_date, write_offset, write_time
from .reader import Reader

FIRST, SECOND = "¹", "²"


class Change(Protocol):
    """A change of the clock: from `before_s` to `after_s` seconds east of UTC."""

    @property
    def at(self) -> int: ...
    @property
    def before_s(self) -> int: ...
    @property
    def after_s(self) -> int: ...


class Clock(Protocol):
    """What is needed of the engine's `SiteClock`."""

    def offset(self, instant: int, /) -> int: ...
    def wall(self, instant: int, /) -> datetime: ...
    def changes(self, start: int, end: int, /) -> Sequence[Change]: ...


class SiteWall:
    """The site's wall over a stretch of time, usually a night; instants are whole seconds since 1970Z."""

    def __init__(self, clock: Clock, starts: int, ends: int) -> None:
        self._clock = clock
        self.changes = tuple(clock.changes(starts, ends))

    def local(self, instant: int) -> tuple[datetime, str]:
        """The wall time, and `¹` or `²` if that time comes twice."""
        return self._clock.wall(instant), self.mark(instant)

    def mark(self, instant: int) -> str:
        """Which of the two, for a time in an hour that runs twice; else nothing."""
        for change in self.changes:
            doubled = max(0, change.before_s - change.after_s)
            if change.at - doubled <= instant < change.at:
                return FIRST
            if change.at <= instant < change.at + doubled:
                return SECOND
        return ""

    def time(self, instant: int, reader: Reader) -> str:
        """The time of day as the reader writes it, with its mark."""
        return write_time(self._clock.wall(instant), reader) + self.mark(instant)

    def offset(self, instant: int) -> str:
        """The offset from UTC then: `+01:00`."""
        return write_offset(self._clock.offset(instant))

    def day(self, instant: int) -> date:
        """The calendar date on the wall then."""
        return self._clock.wall(instant).date()

    def day_and_time(self, instant: int, reader: Reader) -> str:
        """Date and time together, for moments outside tonight."""
        return f"{write_date(self.day(instant), reader, 'weekday')} {self.time(instant, reader)}"
