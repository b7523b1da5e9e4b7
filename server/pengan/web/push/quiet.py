"""Quiet hours: until when somebody is rather not told, on the wall of the site that it is about."""

from __future__ import annotations

from datetime import datetime, time, timedelta

from pengan.engine.clock.instants import Policy
from pengan.engine.clock.zones import SiteClock


def quiet_until(clock: SiteClock, starts: str | None, ends: str | None, now: int) -> int | None:
    """The instant at which the quiet hours that `now` lies in end; None: it lies in none. `starts` and `ends` are
    `HH:MM`; hours that end no later than they start end the next day."""
    if starts is None or ends is None or starts == ends:
        return None
    wall = clock.wall(now)
    for day in (wall.date() - timedelta(days=1), wall.date()):
        begin = datetime.combine(day, time.fromisoformat(starts))
        end = datetime.combine(day, time.fromisoformat(ends))
        end += timedelta(days=1) if end <= begin else timedelta(0)
        until = clock.instant(end, Policy.COMPATIBLE)
        if clock.instant(begin, Policy.COMPATIBLE) <= now < until:
            return until
    return None
