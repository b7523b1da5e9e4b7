"""How much of a day's rain reaches the roots, how much only wets leaves, and how much runs off.

A rule splits the rain; nothing is lost from the count: effective + lost + run off is always the rain.
"""

from __future__ import annotations

from dataclasses import dataclass

INCH_MM = 25.4
SMALL_SHARE = 0.2
"""Rain below a fifth of the reference may be left out (FAO-56 p. 171)."""

RULES = ("all", "not_small", "events")


@dataclass(frozen=True, slots=True)
class SplitRain:
    """A day's rain in mm: what the soil takes, what dries off again, what runs off."""

    effective_mm: float
    lost_mm: float
    ran_off_mm: float


def split_rain(rule: str, rain_mm: float, reference_mm: float) -> SplitRain:
    """Splits a day's rain by one of `RULES`.

    `all`: every drop counts (FAO-56 eq. 85 with no runoff). `not_small`: rain below a fifth of the day's reference
    evapotranspiration dries off (FAO-56 p. 171). `events`: see `by_events`.
    """
    if rule == "events":
        return by_events(rain_mm)
    if rule == "not_small" and rain_mm < SMALL_SHARE * reference_mm:
        return SplitRain(0.0, rain_mm, 0.0)
    return SplitRain(rain_mm, 0.0, 0.0)


def by_events(rain_mm: float) -> SplitRain:
    """A rule for landscapes by the event: the first 0.1 in dries off, all counts up to 1 in, two thirds up to 2 in.

    Beyond two inches nothing counts. Source: Texas A&M AgriLife, TexasET Network, effective rainfall page. That
    the uncounted part of heavy rain runs off, and does not percolate, is this module's reading.
    """
    lost = min(rain_mm, 0.1 * INCH_MM)
    full = min(rain_mm, INCH_MM) - lost
    part = 2 / 3 * max(0.0, min(rain_mm, 2 * INCH_MM) - INCH_MM)
    effective = full + part
    return SplitRain(effective, lost, rain_mm - lost - effective)
