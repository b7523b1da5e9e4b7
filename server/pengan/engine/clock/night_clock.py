"""A site's clock over one night: with it a reader writes the sheet's instants as the wall shows them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from ..document.tables import Site
from .instants import Instant
from .nights import night_on
from .rules import Change
from .sun import place_of
from .times import moment_on
from .zones import clock_of


@dataclass(frozen=True, slots=True)
class NightClock:
    """What the site's wall shows over one night, and when the light goes and comes; None where the sun does neither."""

    night: str
    starts: Instant
    ends: Instant
    offset_s: int
    changes: tuple[Change, ...]
    sunset: Instant | None
    sunrise: Instant | None

    def as_json(self) -> dict[str, object]:
        """The shape that the API serves and the phone keeps."""
        return {
            "night": self.night,
            "starts": self.starts,
            "ends": self.ends,
            "offset_s": self.offset_s,
            "changes": [
                {"at": change.at, "before_s": change.before_s, "after_s": change.after_s} for change in self.changes
            ],
            "sunset": self.sunset,
            "sunrise": self.sunrise,
        }


def clock_on(site: Site, night: date) -> NightClock:
    """The site's clock over the night on whose date its noon falls. Raises `ClockFault`."""
    clock, place = clock_of(site), place_of(site)
    wanted = night_on(clock, night)
    return NightClock(
        night=wanted.date.isoformat(),
        starts=wanted.starts,
        ends=wanted.ends,
        offset_s=clock.offset(wanted.starts),
        changes=clock.changes(wanted.starts, wanted.ends),
        sunset=moment_on("sunset", wanted.date, clock, place) if place else None,
        sunrise=moment_on("sunrise", wanted.date + timedelta(1), clock, place) if place else None,
    )
