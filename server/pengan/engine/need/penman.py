"""Reference evapotranspiration by Penman-Monteith, by the day and by the hour, in three published forms.

`FAO56` is Allen et al. (1998), FAO Irrigation and Drainage Paper 56, eq. 6 (day) and 53 (hour); `ASCE_SHORT` and
`ASCE_TALL` are ASCE-EWRI (2005), eq. 1 with table 1. By the day FAO-56 and the short form agree but for rounded
constants; by the hour they do not: FAO-56 keeps a surface resistance of 70 s/m day and night (Cd 0.34), ASCE takes
50 by day and 200 by night (Cd 0.24 and 0.96).

Nothing is cut off: a cold damp night may give a little below nothing. Who adds days up decides (see `ladder`).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, sin

from . import air, radiation
from .radiation import MM_PER_MJ


@dataclass(frozen=True, slots=True)
class Form:
    """The constants that tell one form from another. `*_night` hold in hours whose net radiation is below nothing."""

    name: str
    source: str
    cn_day: float
    cd_day: float
    cn_hour: float
    cd_hour: float
    cd_night: float
    ground: float
    ground_night: float
    solar_h: float = radiation.SOLAR_H
    stefan_day: float = radiation.STEFAN_DAY_ASCE
    stefan_hour: float = radiation.STEFAN_HOUR_ASCE
    slope: float = 2503.0


FAO56 = Form(
    "fao56", "FAO-56 eq. 6, 53", 900, 0.34, 37, 0.34, 0.34, 0.1, 0.5,
    60 * radiation.SOLAR_MIN, radiation.STEFAN_DAY, radiation.STEFAN_DAY / 24, 4098 * 0.6108,
)  # fmt: skip
ASCE_SHORT = Form("asce_short", "ASCE-EWRI 2005 eq. 1, table 1", 900, 0.34, 37, 0.24, 0.96, 0.1, 0.5)
ASCE_TALL = Form("asce_tall", "ASCE-EWRI 2005 eq. 1, table 1", 1600, 0.38, 66, 0.25, 1.7, 0.04, 0.2)
FORMS = {form.name: form for form in (FAO56, ASCE_SHORT, ASCE_TALL)}


@dataclass(frozen=True, slots=True)
class Field:
    """Where the weather was observed. `full_sky` takes the clear sky of ASCE-EWRI's appendix D, not the simple one."""

    latitude_deg: float
    elevation_m: float = 0.0
    longitude_deg: float = 0.0
    full_sky: bool = False


@dataclass(frozen=True, slots=True)
class Worked:
    """Every step between weather and reference evapotranspiration: kPa, MJ/m², m/s at two metres, mm."""

    pressure_kpa: float
    gamma_kpa: float
    slope_kpa: float
    saturation_kpa: float
    vapour_kpa: float
    wind_mps: float
    above_mj: float
    solar_mj: float
    clear_mj: float
    cloud_ratio: float
    net_short_mj: float
    net_long_mj: float
    net_mj: float
    ground_mj: float
    et_mm: float


def reference_day(
    form: Form,
    field: Field,
    day_of_year: int,
    *,
    high_c: float,
    low_c: float,
    vapour_kpa: float,
    wind_mps: float,
    solar_mj: float,
    ground_mj: float = 0.0,
) -> Worked:
    """A day's reference evapotranspiration. `wind_mps` is at two metres; `ground_mj` is 0 for a day (FAO-56 eq. 42)."""
    latitude = radians(field.latitude_deg)
    pressure = air.pressure_kpa(field.elevation_m)
    above = radiation.above_air_day(latitude, day_of_year, form.solar_h)
    clear = _clear(field, above, vapour_kpa, pressure, radiation.mean_sine(latitude, day_of_year))
    ratio = radiation.cloud_ratio(solar_mj, clear)
    short = radiation.net_short(solar_mj)
    long = radiation.net_long_day(high_c, low_c, vapour_kpa, ratio, form.stefan_day)
    mean = (high_c + low_c) / 2
    slope, gamma = air.slope_kpa(mean, form.slope), air.psychrometric(pressure)
    saturation = air.mean_saturation_kpa(high_c, low_c)
    gap, heat = saturation - vapour_kpa, short - long - ground_mj
    et = _combined(slope, gamma, mean, wind_mps, gap, heat, form.cn_day, form.cd_day)
    return Worked(
        pressure, gamma, slope, saturation, vapour_kpa, wind_mps, above, solar_mj, clear, ratio, short, long,
        short - long, ground_mj, et,
    )  # fmt: skip


def reference_hour(
    form: Form,
    field: Field,
    day_of_year: int,
    *,
    utc_middle_h: float,
    mean_c: float,
    vapour_kpa: float,
    wind_mps: float,
    solar_mj: float,
    ratio: float | None = None,
) -> Worked:
    """One hour's reference evapotranspiration around its middle, `utc_middle_h` hours of UTC on that day.

    `ratio` is the share of clear sky to go by where the sun is too low to tell (see `ladder.hourly_day`).
    """
    latitude = radians(field.latitude_deg)
    angles = radiation.hour_angles(latitude, field.longitude_deg, day_of_year, utc_middle_h)
    pressure = air.pressure_kpa(field.elevation_m)
    above = max(0.0, radiation.above_air_hour(latitude, day_of_year, angles, form.solar_h))
    sine = max(0.01, sin(radiation.sun_height(latitude, day_of_year, angles.middle)))
    clear = _clear(field, above, vapour_kpa, pressure, sine)
    ratio = radiation.cloud_ratio(solar_mj, clear) if ratio is None else ratio
    short = radiation.net_short(solar_mj)
    long = radiation.net_long_hour(mean_c, vapour_kpa, ratio, form.stefan_hour)
    net = short - long
    ground = net * (form.ground if net >= 0 else form.ground_night)
    slope, gamma = air.slope_kpa(mean_c, form.slope), air.psychrometric(pressure)
    saturation = air.saturation_kpa(mean_c)
    resistance = form.cd_hour if net >= 0 else form.cd_night
    et = _combined(slope, gamma, mean_c, wind_mps, saturation - vapour_kpa, net - ground, form.cn_hour, resistance)
    return Worked(
        pressure, gamma, slope, saturation, vapour_kpa, wind_mps, above, solar_mj, clear, ratio, short, long,
        net, ground, et,
    )  # fmt: skip


def _clear(field: Field, above: float, vapour: float, pressure: float, sine: float) -> float:
    if field.full_sky:
        return radiation.clear_sky_full(above, vapour, pressure, sine)
    return radiation.clear_sky(above, field.elevation_m)


def _combined(
    slope: float, gamma: float, celsius: float, wind: float, gap: float, heat: float, cn: float, cd: float
) -> float:
    """The combination equation itself (ASCE-EWRI eq. 1; with FAO-56's constants its eq. 6 and 53)."""
    drying = gamma * cn / (celsius + 273) * wind * gap
    return (MM_PER_MJ * slope * heat + drying) / (slope + gamma * (1 + cd * wind))
