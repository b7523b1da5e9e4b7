"""Sunrise and sunset at a place, to the whole minute.

Method: NOAA's solar calculator after Meeus, *Astronomical Algorithms*, as the package `astral` works it out, with the
sun's centre 50 arc minutes below a level horizon (zenith 90°50′: refraction 34′, half the disc 16′), which is how
almanacs define the moment. It is good to about a minute below 72° of latitude. A place's elevation is left out on
purpose: it lowers the horizon only where the land falls away all around.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from functools import lru_cache
from typing import Literal

from astral import Observer, SunDirection
from astral.sun import time_of_transit

from ..document.tables import Site
from .instants import EPOCH, Instant
from .rules import DAY_S

ZENITH_DEG = 90 + 50 / 60
EAST_S_PER_DEG = 240
"""The sun comes over one degree of longitude in four minutes."""

Event = Literal["sunrise", "sunset"]
_DIRECTIONS = {"sunrise": SunDirection.RISING, "sunset": SunDirection.SETTING}
_FROM_NOON_S = {"sunrise": -DAY_S // 4, "sunset": DAY_S // 4}


@dataclass(frozen=True, slots=True)
class Place:
    """Where the sun is looked at from, in degrees north and east."""

    latitude_deg: float
    longitude_deg: float


def place_of(site: Site) -> Place | None:
    """The place of a site, if it says both latitude and longitude."""
    if site.latitude_deg is None or site.longitude_deg is None:
        return None
    return Place(site.latitude_deg, site.longitude_deg)


@lru_cache(maxsize=4096)
def sun_event(event: Event, noon: Instant, place: Place) -> Instant | None:
    """The sunrise before, or the sunset after, the sun's own noon that is nearest to the instant `noon`.

    None where the sun does not cross the horizon then: polar day or polar night.
    """
    solar_noon = _solar_noon(noon, place)
    hoped = solar_noon + _FROM_NOON_S[event]
    label = EPOCH.date() + timedelta(days=hoped // DAY_S)
    for days in (0, -1, 1):
        at = _crossing(event, label + timedelta(days=days), place)
        if at is not None and abs(at - hoped) < DAY_S // 2:
            return Instant(at)
    return None


def _solar_noon(noon: int, place: Place) -> int:
    """The mean sun's noon nearest to an instant; the true one is within 17 minutes of it."""
    first = DAY_S // 2 - round(place.longitude_deg * EAST_S_PER_DEG)
    return first + round((noon - first) / DAY_S) * DAY_S


def _crossing(event: Event, label: date, place: Place) -> int | None:
    """One crossing of the horizon as `astral` finds it for a date of UTC; it may fall on the date's neighbours."""
    observer = Observer(place.latitude_deg, place.longitude_deg, 0.0)
    try:
        found = time_of_transit(observer, label, ZENITH_DEG, _DIRECTIONS[event], with_refraction=False)
    except ValueError:
        return None
    seconds = (found - datetime(1970, 1, 1, tzinfo=UTC)) // timedelta(seconds=1)
    return (seconds + 30) // 60 * 60
