"""A year of made-up but plausible weather at any latitude, from a fixed seed: the same on every machine."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from math import cos, exp, pi, radians, sin
from random import Random

from pengan.engine.need import air, radiation
from pengan.engine.need.penman import Field
from pengan.engine.need.weather import DayWeather, HourWeather

FIELDS = {
    "oslo": Field(59.9, 20, 10.7),
    "lisbon": Field(38.7, 100, -9.1),
    "quito": Field(-0.2, 2850, -78.5),
    "cape": Field(-33.9, 30, 18.4),
    "ushuaia": Field(-54.8, 15, -68.3),
    "svalbard": Field(78.2, 10, 15.6),
}
"""From polar day and night in the north to the far south; real latitudes, made-up weather."""

YEAR = 2023
HEIGHT_M = 3.0
"""Of the anemometer: at two metres themselves the logarithmic profile gives 1.0002, which only some leave out."""


@dataclass(frozen=True, slots=True)
class Day:
    """A made-up day, complete enough for every formula."""

    day: date
    high_c: float
    low_c: float
    dew_c: float
    wind_mps: float
    solar_mj: float
    rain_mm: float

    def seen(self) -> DayWeather:
        """The day as a station would have observed it."""
        return DayWeather(
            day=self.day, row=str(self.day.timetuple().tm_yday), high_c=self.high_c, low_c=self.low_c,
            dew_c=self.dew_c, wind_mps=self.wind_mps, wind_height_m=HEIGHT_M, solar_mj=self.solar_mj,
            rain_mm=self.rain_mm,
        )  # fmt: skip


def year_at(field: Field, seed: int = 1) -> list[Day]:
    """All days of `YEAR`."""
    chance = Random(seed)
    first = date(YEAR, 1, 1)
    return [_day(field, first + timedelta(days=number), chance) for number in range(365)]


def _day(field: Field, day: date, chance: Random) -> Day:
    number = day.timetuple().tm_yday
    above = radiation.above_air_day(radians(field.latitude_deg), number)
    mean = 30 - abs(field.latitude_deg) * 0.5 + above * 0.25 - 8 + chance.gauss(0, 3)
    span = chance.uniform(4, 14)
    low = mean - span / 2
    cloud = chance.betavariate(4, 2)
    rain = chance.expovariate(1 / 8) if chance.random() < 0.25 else 0.0
    return Day(
        day, mean + span / 2, low, low - chance.uniform(0, 4), chance.uniform(0.6, 7), above * 0.75 * cloud, rain
    )  # fmt: skip


def hours_of(field: Field, day: Day) -> list[HourWeather]:
    """Twenty-four hours of UTC that hang together with the day: warm after noon, sun by the sun's height."""
    number = day.day.timetuple().tm_yday
    latitude = radians(field.latitude_deg)
    share = day.solar_mj / max(1e-9, radiation.above_air_day(latitude, number))
    hours = []
    for hour in range(24):
        middle = hour + 0.5
        angles = radiation.hour_angles(latitude, field.longitude_deg, number, middle)
        above = max(0.0, radiation.above_air_hour(latitude, number, angles))
        solar_hour = (middle + field.longitude_deg / 15) % 24
        warmth = (day.high_c + day.low_c) / 2 + (day.high_c - day.low_c) / 2 * cos(pi * (solar_hour - 15) / 12)
        damp = min(100.0, 100 * air.saturation_kpa(day.dew_c) / air.saturation_kpa(warmth))
        wind = day.wind_mps * (0.8 + 0.4 * exp(-(((solar_hour - 14) / 5) ** 2)) + 0.05 * sin(hour))
        hours.append(
            HourWeather(
                day=day.day, utc_middle_h=middle, mean_c=warmth, humidity_pct=damp, wind_mps=wind,
                wind_height_m=HEIGHT_M, solar_mj=share * above,
            )
        )  # fmt: skip
    return hours
