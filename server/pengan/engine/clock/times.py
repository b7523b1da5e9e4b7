"""Times as people write them (`21:30`, `24:00`, `sunset-00:30`), and the instant they mean on a date."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from functools import lru_cache

from ..document.tables import DayRule
from ..message import saying
from .days import holds
from .fault import ClockFault
from .instants import Edge, Instant, Policy, wall_seconds
from .nights import Night, noon_of
from .sun import Event, Place, sun_event
from .zones import SiteClock

UNREADABLE = saying(
    "clock.time_unreadable", "“{text}” is no time of day; write 21:30, or sunset, or sunrise+01:15, or sunset-00:30."
)
NO_PLACE = saying("clock.place_missing", "“{text}” needs the site's latitude and longitude.")

_TIME = re.compile(r"([01]\d|2[0-3]):([0-5]\d)(?::([0-5]\d))?|24:00(?::00)?", re.ASCII)
_SUN = re.compile(r"(sunrise|sunset)(?:([+-])(\d\d):([0-5]\d))?", re.ASCII)
_MOST_SUN_H = 12

DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class ClockTime:
    """A time of day: seconds from midnight on the wall, or from a sunrise or sunset."""

    seconds: int
    event: Event | None = None


@lru_cache(maxsize=1024)
def read_time(text: str) -> ClockTime:
    """A time of day as written. Raises `ClockFault`."""
    if match := _TIME.fullmatch(text):
        hours, minutes, seconds = match.groups()
        return ClockTime(24 * 3600 if hours is None else _seconds(hours, minutes, seconds))
    match = _SUN.fullmatch(text)
    if match is None or int(match[3] or 0) > _MOST_SUN_H:
        raise ClockFault(UNREADABLE(text=text))
    offset_s = _seconds(match[3], match[4], None) if match[2] else 0
    return ClockTime(-offset_s if match[2] == "-" else offset_s, "sunrise" if match[1] == "sunrise" else "sunset")


def moment_on(text: str, day: date, clock: SiteClock, place: Place | None) -> Instant | None:
    """The instant a time of day means on a date; None where the sun does not rise or set. Raises `ClockFault`.

    A sunrise or sunset is that of the daylight around the date's noon, even where a setting falls past midnight.
    """
    when = read_time(text)
    if when.event is not None:
        return _sun_moment(text, when, day, clock, place)
    return clock.instant(datetime.combine(day, time()) + timedelta(seconds=when.seconds), Policy.COMPATIBLE)


def edge_on(text: str, day: date, clock: SiteClock, place: Place | None) -> Edge | None:
    """The same as one end of a wall-clock span. None where the sun does not rise or set. Raises `ClockFault`."""
    when = read_time(text)
    if when.event is not None:
        moment = _sun_moment(text, when, day, clock, place)
        return None if moment is None else Edge(moment, is_wall=False)
    return Edge(wall_seconds(datetime.combine(day, time())) + when.seconds, is_wall=True)


def starts_in(text: str, rule: DayRule, night: Night, clock: SiteClock, place: Place | None) -> Instant | None:
    """The start that falls in this night and whose own calendar date passes the day rule. Raises `ClockFault`.

    The date of a written time is the one it was written for, even if a gap moves it past midnight; `24:00` is
    `00:00` of the day after. The date of a sunrise or sunset is the one the wall shows then. Should two fall in one
    night, as `sunset-09:00` near noon may, it is the first.
    """
    found = []
    for days in range(-2, 3):
        day = night.date + days * DAY
        start = moment_on(text, day, clock, place)
        if start is not None and night.starts <= start < night.ends and holds(rule, _own_date(text, day, start, clock)):
            found.append(start)
    return min(found, default=None)


def _own_date(text: str, day: date, start: Instant, clock: SiteClock) -> date:
    when = read_time(text)
    if when.event is not None:
        return clock.wall(start).date()
    return day + timedelta(seconds=when.seconds)


def _sun_moment(text: str, when: ClockTime, day: date, clock: SiteClock, place: Place | None) -> Instant | None:
    if place is None:
        raise ClockFault(NO_PLACE(text=text))
    assert when.event is not None
    moment = sun_event(when.event, noon_of(clock, day), place)
    return None if moment is None else Instant(moment + when.seconds)


def _seconds(hours: str, minutes: str, seconds: str | None) -> int:
    return int(hours) * 3600 + int(minutes) * 60 + int(seconds or 0)
