"""Reference evapotranspiration where only temperatures are known."""

from __future__ import annotations

from math import radians, sqrt

from .penman import Field
from .radiation import MM_PER_MJ, above_air_day


def hargreaves_mm(field: Field, day_of_year: int, high_c: float, low_c: float) -> float:
    """A day's reference evapotranspiration by Hargreaves (FAO-56 eq. 52). Wants `low_c` at or below `high_c`.

    FAO-56 p. 64 advises to check it against Penman-Monteith where that can be had: it reads high in damp places.
    """
    above_mm = above_air_day(radians(field.latitude_deg), day_of_year) * MM_PER_MJ
    return 0.0023 * ((high_c + low_c) / 2 + 17.8) * sqrt(high_c - low_c) * above_mm
