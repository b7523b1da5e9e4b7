"""The sun's energy on a level field: what reaches the air, the ground, and what is radiated back.

Formulas: FAO Irrigation and Drainage Paper 56, chapter 3 (numbers beside them), and where said ASCE-EWRI (2005),
The ASCE standardized reference evapotranspiration equation, as the package `refet` codes it. Energies in MJ/m² a day
or an hour, angles in radians, latitudes north positive. Polar day and polar night have sunset angles of π and 0.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, asin, cos, exp, fsum, pi, radians, sin, sqrt, tan

SOLAR_MIN = 0.0820
"""Solar constant in MJ/m² a minute (FAO-56 p. 46)."""
SOLAR_H = 4.92
"""Solar constant in MJ/m² an hour (ASCE-EWRI eq. 21 and 48): the same to three digits."""
STEFAN_DAY = 4.903e-9
STEFAN_DAY_ASCE = 4.901e-9
STEFAN_HOUR_ASCE = 2.042e-10
KELVIN = 273.16
ALBEDO = 0.23
MM_PER_MJ = 0.408
"""Depth of water one MJ/m² evaporates (1/2.45, FAO-56 eq. 20)."""
INTERIOR, COASTAL = 0.16, 0.19
"""The factor of radiation from temperatures inland and at coasts (FAO-56 p. 60)."""
LOW_SUN = 0.3
"""Radians above the horizon below which a ratio to clear sky says nothing (ASCE-EWRI p. 36, about 17°)."""
TROPICS_DEG = 15.0
"""Nearer to the equator than this the sun does not tell one half of the year from the other well enough."""


def distance_factor(day_of_year: int) -> float:
    """Inverse relative distance from earth to sun, squared (FAO-56 eq. 23)."""
    return 1 + 0.033 * cos(2 * pi * day_of_year / 365)


def declination(day_of_year: int) -> float:
    """The sun's declination (FAO-56 eq. 24)."""
    return 0.409 * sin(2 * pi * day_of_year / 365 - 1.39)


def sunset_angle(latitude: float, day_of_year: int) -> float:
    """Hour angle of sunset (FAO-56 eq. 25); held to 0 and π where the sun does not rise or set."""
    return acos(min(1.0, max(-1.0, -tan(latitude) * tan(declination(day_of_year)))))


def daylight_h(latitude: float, day_of_year: int) -> float:
    """Most sunshine a day can have, in hours (FAO-56 eq. 34)."""
    return 24 / pi * sunset_angle(latitude, day_of_year)


def above_air_day(latitude: float, day_of_year: int, solar_h: float = 60 * SOLAR_MIN) -> float:
    """Radiation above the atmosphere over a day (FAO-56 eq. 21)."""
    dec, sunset = declination(day_of_year), sunset_angle(latitude, day_of_year)
    height = sunset * sin(latitude) * sin(dec) + cos(latitude) * cos(dec) * sin(sunset)
    return 24 / pi * solar_h * distance_factor(day_of_year) * height


@dataclass(frozen=True, slots=True)
class HourAngles:
    """Where the sun stands at the middle of a period, and at both ends, held to sunrise and sunset."""

    middle: float
    first: float
    last: float


def seasonal_correction_h(day_of_year: int) -> float:
    """The equation of time in hours (FAO-56 eq. 32, 33)."""
    b = 2 * pi * (day_of_year - 81) / 364
    return 0.1645 * sin(2 * b) - 0.1255 * cos(b) - 0.025 * sin(b)


def hour_angle(longitude_deg: float, day_of_year: int, utc_h: float) -> float:
    """The sun's hour angle at a moment, from -π to π (FAO-56 eq. 31, with UTC in place of the zone's clock)."""
    solar = utc_h + longitude_deg / 15 + seasonal_correction_h(day_of_year) - 12
    return (pi / 12 * solar + pi) % (2 * pi) - pi


def hour_angles(latitude: float, longitude_deg: float, day_of_year: int, utc_middle_h: float) -> HourAngles:
    """The angles of one hour around its middle (FAO-56 eq. 29-31; held to the horizon by ASCE-EWRI eq. 56)."""
    middle = hour_angle(longitude_deg, day_of_year, utc_middle_h)
    sunset = sunset_angle(latitude, day_of_year)
    last = min(sunset, max(-sunset, middle + pi / 24))
    first = min(last, min(sunset, max(-sunset, middle - pi / 24)))
    return HourAngles(middle, first, last)


def above_air_hour(latitude: float, day_of_year: int, angles: HourAngles, solar_h: float = 60 * SOLAR_MIN) -> float:
    """Radiation above the atmosphere over one hour (FAO-56 eq. 28)."""
    dec = declination(day_of_year)
    height = (angles.last - angles.first) * sin(latitude) * sin(dec)
    height += cos(latitude) * cos(dec) * (sin(angles.last) - sin(angles.first))
    return 12 / pi * solar_h * distance_factor(day_of_year) * height


def sun_height(latitude: float, day_of_year: int, angle: float) -> float:
    """How high the sun stands, in radians, at an hour angle (ASCE-EWRI eq. 62)."""
    dec = declination(day_of_year)
    return asin(min(1.0, max(-1.0, sin(latitude) * sin(dec) + cos(latitude) * cos(dec) * cos(angle))))


def sunnier_half(latitude_deg: float, day_of_year: int) -> bool:
    """Whether a day gets at least as much sun above the air as the mean of the year's days."""
    latitude = radians(latitude_deg)
    mean = fsum(above_air_day(latitude, number) for number in range(1, 366)) / 365
    return above_air_day(latitude, day_of_year) >= mean


def from_sunshine(above: float, sunshine_h: float, longest_h: float, a: float = 0.25, b: float = 0.5) -> float:
    """Solar radiation from hours of sunshine by Angström's formula (FAO-56 eq. 35)."""
    return (a + b * (sunshine_h / longest_h if longest_h else 0.0)) * above


def from_temperatures(above: float, high_c: float, low_c: float, factor: float = INTERIOR) -> float:
    """Solar radiation from the day's range of temperature (FAO-56 eq. 50), never above three quarters (eq. 35)."""
    return min(0.75, factor * sqrt(high_c - low_c)) * above


def on_an_island(above: float) -> float:
    """Solar radiation on a small low island, monthly means only (FAO-56 eq. 51)."""
    return max(0.0, 0.7 * above - 4)


def clear_sky(above: float, elevation_m: float) -> float:
    """Radiation under a clear sky, simple form (FAO-56 eq. 37)."""
    return (0.75 + 2e-5 * elevation_m) * above


def clear_sky_full(above: float, vapour_kpa: float, pressure: float, sine: float) -> float:
    """Radiation under a clear sky from turbidity, vapour and the sun's height (ASCE-EWRI appendix D, eq. D.1-D.4)."""
    water_mm = 0.14 * vapour_kpa * pressure + 2.1
    beam = 0.98 * exp(-0.00146 * pressure / sine - 0.075 * (water_mm / sine) ** 0.4)
    return (beam + min(0.35 - 0.36 * beam, 0.18 + 0.82 * beam)) * above


def mean_sine(latitude: float, day_of_year: int) -> float:
    """Sine of the day's mean sun height, weighted by radiation (ASCE-EWRI eq. D.5); 0.1 at the least."""
    tilt = 0.3 * latitude * sin(2 * pi * day_of_year / 365 - 1.39)
    return max(0.1, sin(0.85 + tilt - 0.42 * latitude**2))


def cloud_ratio(solar: float, clear: float) -> float:
    """Radiation as a share of clear sky, from 0.3 to 1 (ASCE-EWRI eq. 18). With no sun at all it counts as clear."""
    return min(1.0, max(0.3, solar / clear)) if clear > 0 else 1.0


def net_short(solar: float, albedo: float = ALBEDO) -> float:
    """Solar radiation that is not reflected (FAO-56 eq. 38)."""
    return (1 - albedo) * solar


def net_long_day(high_c: float, low_c: float, vapour_kpa: float, ratio: float, stefan: float = STEFAN_DAY) -> float:
    """Heat radiated away over a day (FAO-56 eq. 39)."""
    warmth = ((high_c + KELVIN) ** 4 + (low_c + KELVIN) ** 4) / 2
    return float(stefan * warmth * (0.34 - 0.14 * sqrt(vapour_kpa)) * (1.35 * ratio - 0.35))


def net_long_hour(celsius: float, vapour_kpa: float, ratio: float, stefan: float = STEFAN_DAY / 24) -> float:
    """Heat radiated away over an hour (FAO-56 eq. 39 by the hour)."""
    return float(stefan * (celsius + KELVIN) ** 4 * (0.34 - 0.14 * sqrt(vapour_kpa)) * (1.35 * ratio - 0.35))


def soil_heat_month(before_c: float, after_c: float) -> float:
    """Heat going into the ground in a month between two others whose means are known (FAO-56 eq. 43)."""
    return 0.07 * (after_c - before_c)


def soil_heat_month_so_far(before_c: float, now_c: float) -> float:
    """The same while the next month is unknown (FAO-56 eq. 44)."""
    return 0.14 * (now_c - before_c)
