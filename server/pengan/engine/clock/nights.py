"""Nights: from local noon to the next local noon, so that each second belongs to exactly one of them.

Where noon itself does not exist or comes twice, `Policy.COMPATIBLE` says which instant is meant. A zone that skips
a whole day has a night of no length there.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from ..message import saying
from .fault import ClockFault
from .instants import Instant, Policy
from .rules import day_of
from .zones import SiteClock

OUT_OF_RANGE = saying(
    "clock.date_out_of_range", "Nights can be worked out from {first_date} to {last_date}, not for {asked_date}."
)
FIRST, LAST = date(1900, 1, 1), date(2399, 12, 31)
NOON = time(12)
DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Night:
    """A night by the date on which it begins. Half-open: `ends` is the next night's first second."""

    date: date
    starts: Instant
    ends: Instant

    @property
    def length_s(self) -> int:
        """Real seconds: 86400 but for nights in which the clock changes."""
        return self.ends - self.starts


def night_on(clock: SiteClock, day: date) -> Night:
    """The night that begins on a date. Raises `ClockFault` outside `FIRST` to `LAST`."""
    _hold_to_limits(day)
    return Night(day, noon_of(clock, day), noon_of(clock, day + DAY))


def night_at(clock: SiteClock, instant: int) -> Night:
    """The night an instant belongs to. Raises `ClockFault` outside `FIRST` to `LAST`."""
    _hold_to_limits(day_of(instant))
    day = clock.wall(instant).date()
    for candidate in (day, day - DAY, day + DAY, day - 2 * DAY):
        night = night_on(clock, candidate)
        if night.starts <= instant < night.ends:
            return night
    raise AssertionError("nights leave no second out")


def _hold_to_limits(day: date) -> None:
    if not FIRST <= day <= LAST:
        limits = {"first_date": FIRST.isoformat(), "last_date": LAST.isoformat()}
        raise ClockFault(OUT_OF_RANGE(**limits, asked_date=day.isoformat()), "night")


def noon_of(clock: SiteClock, day: date) -> Instant:
    """The instant of local noon on a date."""
    return clock.instant(datetime.combine(day, NOON), Policy.COMPATIBLE)
