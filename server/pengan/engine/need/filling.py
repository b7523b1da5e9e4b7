"""What to go by where an observation is missing: the procedures of FAO-56 chapter 3, each with a word saying so.

Source: FAO Irrigation and Drainage Paper 56, p. 58-64. `HOWS` are the words; those in `ASSUMED` are estimates, which
put a day on the rung `filled`; the others are ways of reading what was observed.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import radians

from . import air, radiation
from .penman import Field
from .weather import DayWeather

HOWS = (
    "vapour_dew", "vapour_extremes", "vapour_dampest", "vapour_mean", "vapour_low",
    "solar_measured", "solar_sunshine", "solar_temperatures",
    "wind_measured", "wind_raised", "wind_assumed",
)  # fmt: skip
ASSUMED = frozenset({"vapour_low", "solar_temperatures", "wind_assumed"})

HOW_SOURCES = {
    "vapour_dew": "FAO-56 eq. 14", "vapour_extremes": "FAO-56 eq. 17", "vapour_dampest": "FAO-56 eq. 18",
    "vapour_mean": "FAO-56 eq. 19", "vapour_low": "FAO-56 eq. 48", "solar_measured": "",
    "solar_sunshine": "FAO-56 eq. 35", "solar_temperatures": "FAO-56 eq. 50", "wind_measured": "FAO-56 eq. 47",
    "wind_raised": "FAO-56 p. 63", "wind_assumed": "FAO-56 p. 63",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Filling:
    """A site's settings for missing observations.

    `solar_factor` is kRs (inland 0.16, coast 0.19); `angstrom_a` and `_b` the fractions of eq. 35; `dew_below_low_c`
    how far below the lowest temperature the dew point lies (2 to 3 in dry places); `wind_mps` the wind assumed;
    `least_wind_mps` the floor FAO-56 recommends. `alone` says what to do where only temperatures are known:
    `hargreaves` (eq. 52), or `penman` with everything else filled.
    """

    solar_factor: float = radiation.INTERIOR
    angstrom_a: float = 0.25
    angstrom_b: float = 0.5
    dew_below_low_c: float = 0.0
    wind_mps: float = 2.0
    least_wind_mps: float = 0.5
    alone: str = "hargreaves"


def vapour_kpa(seen: DayWeather, high: float, low: float, filling: Filling) -> tuple[float, str]:
    """Actual vapour pressure by the best reading there is, in FAO-56's order of preference (p. 36-39)."""
    if seen.dew_c is not None:
        return air.vapour_from_dew_kpa(seen.dew_c), "vapour_dew"
    if seen.dampest_pct is not None and seen.driest_pct is not None:
        return air.vapour_from_extremes_kpa(high, low, seen.driest_pct, seen.dampest_pct), "vapour_extremes"
    if seen.dampest_pct is not None:
        return air.vapour_from_dampest_kpa(low, seen.dampest_pct), "vapour_dampest"
    if seen.humidity_pct is not None:
        return air.vapour_from_mean_kpa(high, low, seen.humidity_pct), "vapour_mean"
    return air.vapour_from_low_kpa(low, filling.dew_below_low_c), "vapour_low"


def solar_mj(
    seen: DayWeather, field: Field, day_of_year: int, high: float, low: float, filling: Filling
) -> tuple[float, str]:
    """The day's solar radiation: measured, from sunshine, or from the range of temperature."""
    if seen.solar_mj is not None:
        return seen.solar_mj, "solar_measured"
    latitude = radians(field.latitude_deg)
    above = radiation.above_air_day(latitude, day_of_year)
    if seen.sunshine_h is not None:
        longest = radiation.daylight_h(latitude, day_of_year)
        solar = radiation.from_sunshine(above, seen.sunshine_h, longest, filling.angstrom_a, filling.angstrom_b)
        return solar, "solar_sunshine"
    return radiation.from_temperatures(above, high, low, filling.solar_factor), "solar_temperatures"


def wind_mps(seen: DayWeather, filling: Filling) -> tuple[float, str]:
    """Wind at two metres: measured, raised to the floor, or assumed."""
    if seen.wind_mps is None:
        return filling.wind_mps, "wind_assumed"
    wind = air.wind_at_two_metres(seen.wind_mps, seen.wind_height_m)
    if wind < filling.least_wind_mps:
        return filling.least_wind_mps, "wind_raised"
    return wind, "wind_measured"
