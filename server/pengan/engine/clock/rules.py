"""A yearly rule: a standard offset and, where there is one, a second offset between two dates of every year.

Offsets are seconds east of UTC, the sign of ISO 8601 (a POSIX TZ string writes them the other way round).
Nothing here knows text; `posix` and `vtimezone` read and write it. Meaning: RFC 9636 section 3.3.1 (POSIX
TZ with hours from -167 to 167).
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from typing import Literal, NamedTuple

DAY_S = 86_400
EPOCH_DAY = date(1970, 1, 1).toordinal()
LAST_WEEK = 5
YEARS = range(2, 9999)


class Change(NamedTuple):
    """The clock is set from one offset to another, at an instant."""

    at: int
    before_s: int
    after_s: int

    @property
    def step_s(self) -> int:
        """How far the wall leaps: positive forward (a gap), negative back (an overlap)."""
        return self.after_s - self.before_s


@dataclass(frozen=True, slots=True)
class YearDay:
    """A day of every year and a time on it, in seconds from its midnight; may be negative or run over days.

    `form` M: `weekday` (0 is Sunday) number `week` (5 is the last) of `month`. J: day 1 to 365, February 29 never
    counted. N: day 0 to 365, February 29 counted.
    """

    form: Literal["M", "J", "N"]
    time_s: int = 2 * 3600
    month: int = 0
    week: int = 0
    weekday: int = 0
    day: int = 0

    def ordinal(self, year: int) -> int:
        """The day in `year`, as a proleptic Gregorian ordinal, before `time_s` is added."""
        if self.form == "M":
            return self._weekday_ordinal(year)
        if self.form == "J":
            after_february = _is_leap(year) and self.day >= 60
            return date(year, 1, 1).toordinal() + self.day - 1 + after_february
        return date(year, 1, 1).toordinal() + self.day

    def wall_s(self, year: int) -> int:
        """Wall seconds since 1970-01-01T00:00 of the wall."""
        return (self.ordinal(year) - EPOCH_DAY) * DAY_S + self.time_s

    def _weekday_ordinal(self, year: int) -> int:
        first = date(year, self.month, 1)
        until = (self.weekday - first.isoweekday()) % 7 + 7 * (self.week - 1)
        day = first + timedelta(days=until)
        return (day if day.month == self.month else day - timedelta(days=7)).toordinal()


@dataclass(frozen=True, slots=True)
class Summer:
    """The second offset of a rule, from `starts` (on the standard wall) to `ends` (on its own wall).

    Called summer because it mostly is; it may as well be a winter with less than the standard offset.
    """

    name: str
    offset_s: int
    starts: YearDay
    ends: YearDay


@dataclass(frozen=True, slots=True)
class Rule:
    """A clock that does the same every year."""

    name: str
    offset_s: int
    summer: Summer | None = None

    def offset(self, instant: int) -> int:
        """The offset in force at an instant."""
        if self.summer is None:
            return self.offset_s
        year = year_of(instant)
        settings = settings_of(self, year - 1, year + 1)
        return settings[bisect_right(settings, instant, key=_at) - 1][1]

    def changes(self, start: int, end: int) -> Iterator[Change]:
        """The changes from `start` up to and without `end`, in order. Two at one instant that cancel are none."""
        if self.summer is None:
            return
        settings = settings_of(self, year_of(start) - 1, year_of(end) + 1)
        now = settings[0][1]
        for (at, after), (following, _) in zip(settings, [*settings[1:], (None, 0)], strict=True):
            if at == following:
                continue
            if after != now and start <= at < end:
                yield Change(at, now, after)
            now = after


Setting = tuple[int, int]
"""From an instant on, an offset."""


@lru_cache(maxsize=512)
def settings_of(rule: Rule, first: int, last: int) -> tuple[Setting, ...]:
    """All a rule sets the clock to in the years `first` to `last`; at one instant the later year's stands last."""
    years = range(max(first, YEARS.start), min(last, YEARS.stop - 1) + 1)
    return tuple(sorted((setting for year in years for setting in _settings_in(rule, year)), key=_at))


@lru_cache(maxsize=1024)
def _settings_in(rule: Rule, year: int) -> tuple[Setting, ...]:
    summer = rule.summer
    if summer is None:
        return ()
    starts = (summer.starts.wall_s(year) - rule.offset_s, summer.offset_s)
    ends = (summer.ends.wall_s(year) - summer.offset_s, rule.offset_s)
    return tuple(sorted((starts, ends), key=_at))


def _at(setting: Setting) -> int:
    return setting[0]


@lru_cache(maxsize=4096)
def _date_of(day: int) -> date:
    return date.fromordinal(min(max(day + EPOCH_DAY, 1), date.max.toordinal()))


def day_of(instant: int) -> date:
    """The date of an instant in UTC, held between the first and the last there are."""
    return _date_of(instant // DAY_S)


def year_of(instant: int) -> int:
    """The year of an instant in UTC, held between 1 and 9999."""
    return _date_of(instant // DAY_S).year


def _is_leap(year: int) -> bool:
    return year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
