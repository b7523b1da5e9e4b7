"""What the air holds and how it moves: pressure, vapour pressures, wind at two metres.

Source of every formula: Allen, Pereira, Raes & Smith (1998), FAO Irrigation and Drainage Paper 56, chapter 3, with
the equation's number beside it. Pressures in kPa, temperatures in °C, wind in m/s, heights in metres.
"""

from __future__ import annotations

from math import exp, log

ASPIRATED = 0.000662
"""Psychrometer coefficient per °C of a ventilated (Assmann) instrument; FAO-56 p. 38."""


def pressure_kpa(elevation_m: float) -> float:
    """Mean air pressure at a height above the sea (FAO-56 eq. 7)."""
    return float(101.3 * ((293 - 0.0065 * elevation_m) / 293) ** 5.26)


def psychrometric(pressure: float) -> float:
    """The psychrometric constant in kPa per °C (FAO-56 eq. 8)."""
    return 0.000665 * pressure


def saturation_kpa(celsius: float) -> float:
    """Vapour pressure of saturated air (FAO-56 eq. 11)."""
    return 0.6108 * exp(17.27 * celsius / (celsius + 237.3))


def mean_saturation_kpa(high_c: float, low_c: float) -> float:
    """Saturation over a day, the mean of both ends (FAO-56 eq. 12)."""
    return (saturation_kpa(high_c) + saturation_kpa(low_c)) / 2


def slope_kpa(celsius: float, numerator: float = 4098 * 0.6108) -> float:
    """Slope of the saturation curve in kPa per °C (FAO-56 eq. 13; ASCE-EWRI eq. 5 rounds the numerator to 2503)."""
    return numerator * exp(17.27 * celsius / (celsius + 237.3)) / (celsius + 237.3) ** 2


def vapour_from_dew_kpa(dew_c: float) -> float:
    """Actual vapour pressure from the dew point (FAO-56 eq. 14)."""
    return saturation_kpa(dew_c)


def vapour_from_bulbs_kpa(dry_c: float, wet_c: float, pressure: float, coefficient: float = ASPIRATED) -> float:
    """Actual vapour pressure from a dry and a wet bulb (FAO-56 eq. 15, 16)."""
    return saturation_kpa(wet_c) - coefficient * pressure * (dry_c - wet_c)


def vapour_from_extremes_kpa(high_c: float, low_c: float, driest_pct: float, dampest_pct: float) -> float:
    """Actual vapour pressure from the least and greatest relative humidity (FAO-56 eq. 17)."""
    return (saturation_kpa(low_c) * dampest_pct + saturation_kpa(high_c) * driest_pct) / 200


def vapour_from_dampest_kpa(low_c: float, dampest_pct: float) -> float:
    """Actual vapour pressure from the greatest relative humidity alone (FAO-56 eq. 18)."""
    return saturation_kpa(low_c) * dampest_pct / 100


def vapour_from_mean_kpa(high_c: float, low_c: float, mean_pct: float) -> float:
    """Actual vapour pressure from the mean relative humidity (FAO-56 eq. 19, as its errata have it)."""
    return mean_pct / 100 * mean_saturation_kpa(high_c, low_c)


def vapour_from_low_kpa(low_c: float, below_c: float = 0.0) -> float:
    """Actual vapour pressure where humidity is missing: the dew point is near the lowest temperature (FAO-56 eq. 48).

    In dry places the dew point lies lower, `below_c` of some 2 or 3 °C (FAO-56 p. 58).
    """
    return saturation_kpa(low_c - below_c)


def wind_at_two_metres(speed: float, height_m: float) -> float:
    """Wind speed over grass brought to two metres by the logarithmic profile (FAO-56 eq. 47)."""
    return speed if height_m == 2 else speed * 4.87 / log(67.8 * height_m - 5.42)
