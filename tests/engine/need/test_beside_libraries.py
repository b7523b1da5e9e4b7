"""Our reference evapotranspiration beside refet 0.5.0, pyet 1.5.0 and astral 3.2 over a year of generated weather.

Six places from 78° north (polar day and night) to 55° south. Each test prints the largest difference it found.
"""

from __future__ import annotations

import warnings
from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta
from math import isfinite, radians

import numpy as np
import pandas as pd
import pyet
import pytest
import refet
from astral import Observer, SunDirection
from astral.sun import time_of_transit

from engine.need.generated_weather import FIELDS, HEIGHT_M, Day, hours_of, year_at
from pengan.engine.need import air, radiation
from pengan.engine.need.hargreaves import hargreaves_mm
from pengan.engine.need.ladder import Station, penman_day
from pengan.engine.need.penman import ASCE_SHORT, ASCE_TALL, FAO56, Form, reference_hour

PLACES = sorted(FIELDS)


def furthest(title: str, ours: Iterable[float], theirs: Iterable[float]) -> float:
    """The largest difference over all finite pairs, printed."""
    pairs = [(a, float(b)) for a, b in zip(ours, theirs, strict=True) if isfinite(float(b))]
    assert len(pairs) > 200
    largest = max(abs(a - b) for a, b in pairs)
    print(f"{title}: largest difference {largest:.2g} over {len(pairs)} values")
    return largest


def numbers(days: list[Day]) -> np.ndarray:
    return np.array([day.day.timetuple().tm_yday for day in days])


def column(days: list[Day], name: str) -> np.ndarray:
    return np.array([getattr(day, name) for day in days])


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize(("form", "surface"), [(ASCE_SHORT, "eto"), (ASCE_TALL, "etr")])
def test_a_year_of_days_is_refets(place: str, form: Form, surface: str) -> None:
    field, days = FIELDS[place], year_at(FIELDS[place])
    theirs = refet.Daily(
        column(days, "low_c"), column(days, "high_c"), column(days, "solar_mj"), column(days, "wind_mps"), zw=HEIGHT_M,
        elev=field.elevation_m, lat=field.latitude_deg, doy=numbers(days), tdew=column(days, "dew_c"), method="asce",
    ).etsz(surface)  # fmt: skip
    ours = [penman_day(Station(field, form), day.seen(), day.high_c, day.low_c)[0].et_mm for day in days]
    assert furthest(f"refet {surface} a day, {place}", ours, theirs) < 1e-9


@pytest.mark.parametrize("place", PLACES)
def test_a_year_under_the_full_clear_sky_is_refets(place: str) -> None:
    field, days = replace(FIELDS[place], full_sky=True), year_at(FIELDS[place])
    theirs = refet.Daily(
        column(days, "low_c"), column(days, "high_c"), column(days, "solar_mj"), column(days, "wind_mps"), zw=HEIGHT_M,
        elev=field.elevation_m, lat=field.latitude_deg, doy=numbers(days), tdew=column(days, "dew_c"), method="asce",
        rso_type="full",
    ).etsz("eto")  # fmt: skip
    ours = [penman_day(Station(field, ASCE_SHORT), day.seen(), day.high_c, day.low_c)[0].et_mm for day in days]
    assert furthest(f"refet full clear sky a day, {place}", ours, theirs) < 1e-9


@pytest.mark.parametrize("place", PLACES)
def test_a_year_of_days_is_pyets(place: str) -> None:
    """pyet cuts days below nothing, as `ladder` does. In polar night it takes no sun for an overcast sky (0.3).

    refet takes it for a clear one, and so does ours: days without any sun are left out here. Nothing grows then.
    """
    field, days = FIELDS[place], year_at(FIELDS[place])
    index = pd.DatetimeIndex([day.day for day in days])

    def series(name: str) -> pd.Series:
        return pd.Series(column(days, name), index=index)

    wind = series("wind_mps") * air.wind_at_two_metres(1.0, HEIGHT_M)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        theirs = pyet.pm_fao56(
            (series("high_c") + series("low_c")) / 2, wind, rs=series("solar_mj"),
            tmax=series("high_c"), tmin=series("low_c"), elevation=field.elevation_m, lat=radians(field.latitude_deg),
            ea=series("dew_c").map(air.saturation_kpa),
        )  # fmt: skip
    worked = [penman_day(Station(field, FAO56), day.seen(), day.high_c, day.low_c)[0] for day in days]
    lit = [place for place, one in enumerate(worked) if one.above_mj > 0]
    ours = [max(0.0, worked[number].et_mm) for number in lit]
    assert furthest(f"pyet FAO-56 a day, {place}", ours, theirs.iloc[lit]) < 1e-6


@pytest.mark.parametrize("place", PLACES)
def test_a_year_of_hargreaves_is_pyets(place: str) -> None:
    """pyet takes 0.0135 x 0.17 where FAO-56 eq. 52 prints 0.0023, and a latent heat that follows temperature."""
    field, days = FIELDS[place], year_at(FIELDS[place])
    index = pd.DatetimeIndex([day.day for day in days])
    high, low = (pd.Series(column(days, name), index=index) for name in ("high_c", "low_c"))
    theirs = pyet.hargreaves((high + low) / 2, high, low, radians(field.latitude_deg))
    numbered = zip(days, numbers(days), strict=True)
    ours = [max(0.0, hargreaves_mm(field, int(number), day.high_c, day.low_c)) for day, number in numbered]
    assert furthest(f"pyet Hargreaves a day, {place}", ours, theirs) < 0.15


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize(("form", "surface"), [(ASCE_SHORT, "eto"), (ASCE_TALL, "etr")])
def test_a_year_of_hours_is_refets(place: str, form: Form, surface: str) -> None:
    """refet lets a low sun (at the hour's start) count as a clear sky; for this test ours is told to do so too."""
    field = FIELDS[place]
    rows = [hour for day in year_at(field) for hour in hours_of(field, day)]
    number = np.array([row.day.timetuple().tm_yday for row in rows])
    vapour = np.array([air.saturation_kpa(row.mean_c) * row.humidity_pct / 100 for row in rows])
    theirs = refet.Hourly(
        np.array([row.mean_c for row in rows]), np.array([row.solar_mj for row in rows]),
        np.array([row.wind_mps for row in rows]), zw=HEIGHT_M, elev=field.elevation_m, lat=field.latitude_deg,
        lon=field.longitude_deg, doy=number, time=np.array([row.utc_middle_h - 0.5 for row in rows]), ea=vapour,
        method="asce",
    ).etsz(surface)  # fmt: skip
    ours = []
    for row, day, pressure in zip(rows, number, vapour, strict=True):
        angle = radiation.hour_angle(field.longitude_deg, int(day), row.utc_middle_h - 0.5)
        low = radiation.sun_height(radians(field.latitude_deg), int(day), angle) < radiation.LOW_SUN
        worked = reference_hour(
            form, field, int(day), utc_middle_h=row.utc_middle_h, mean_c=row.mean_c, vapour_kpa=float(pressure),
            wind_mps=air.wind_at_two_metres(row.wind_mps, row.wind_height_m), solar_mj=row.solar_mj,
            ratio=1.0 if low else None,
        )  # fmt: skip
        ours.append(worked.et_mm)
    assert furthest(f"refet {surface} an hour, {place}", ours, theirs) < 1e-9


@pytest.mark.parametrize("place", PLACES)
def test_daylight_is_astrals(place: str) -> None:
    """FAO-56's declination is a rough sine: within 20 minutes of astral, but near the pole, where days change fast."""
    field = FIELDS[place]
    observer = Observer(field.latitude_deg, field.longitude_deg, 0)
    ours, theirs = [], []
    for number in range(1, 366):
        day = date(2023, 1, 1) + timedelta(days=number - 1)
        try:
            rising = time_of_transit(observer, day, 90.0, SunDirection.RISING, with_refraction=False)
            setting = time_of_transit(observer, day, 90.0, SunDirection.SETTING, with_refraction=False)
        except ValueError:
            assert radiation.daylight_h(radians(field.latitude_deg), number) in (0.0, 24.0) or place == "svalbard"
            continue
        if place == "svalbard" and not 60 < number < 100 and not 250 < number < 290:
            continue
        hours = (setting - rising).total_seconds() / 3600 % 24
        ours.append(radiation.daylight_h(radians(field.latitude_deg), number))
        theirs.append(hours)
    largest = max(abs(a - b) for a, b in zip(ours, theirs, strict=True))
    print(f"astral daylight, {place}: largest difference {60 * largest:.1f} minutes over {len(ours)} days")
    assert len(ours) > 70 and largest < (1.5 if place == "svalbard" else 1 / 3)


def test_polar_night_and_day_are_worked_out() -> None:
    """Where libraries may divide by no sun at all, ours gives a number for every day."""
    field, days = FIELDS["svalbard"], year_at(FIELDS["svalbard"])
    found = [penman_day(Station(field), day.seen(), day.high_c, day.low_c)[0] for day in days]
    assert all(isfinite(worked.et_mm) for worked in found)
    assert min(worked.above_mj for worked in found) == 0.0
    assert radiation.daylight_h(radians(78.2), 172) == pytest.approx(24.0)
