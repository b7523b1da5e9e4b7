"""The site's days as the document has them: what was observed, what is forecast, and the normals below both."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from ...document.document import Document
from ...document.need_tables import Weather
from ..filling import Filling
from ..ladder import ReferenceDay, Station, reference_days
from ..normals import MONTHS, Normals
from ..penman import FORMS, Field
from ..radiation import COASTAL, INTERIOR
from ..tonight import WeatherDays, weather_days
from ..weather import DayWeather

SOLAR_FACTORS = {"inland": INTERIOR, "coast": COASTAL}


@dataclass(frozen=True, slots=True)
class SiteDays:
    """A span of the site's days: each day's reference with its rung, the days as a balance takes them, its rain."""

    references: tuple[ReferenceDay, ...]
    days: WeatherDays
    rain_mm: Mapping[date, float | None]

    def since(self, day: date) -> WeatherDays:
        """The days from one of them on, as a balance takes them."""
        return self.days.part((day - self.days.first).days, len(self.days.reference))


def weather_by_day(document: Document) -> dict[date, DayWeather]:
    """What is known of each day. An observation goes before a forecast; of two, the later id."""
    found: dict[date, Weather] = {}
    for record in sorted(document.weather.values(), key=lambda one: (one.kind == "observed", one.id)):
        found[date.fromisoformat(record.day)] = record
    return {day: _day_weather(day, record) for day, record in found.items()}


def station_of(document: Document) -> Station | None:
    """How the site's days are worked out; None where the site has no latitude and no normals to fall back on."""
    site = document.site
    normals = normals_of(document)
    if site.latitude_deg is None and normals is None:
        return None
    field = Field(site.latitude_deg or 0.0, site.elevation_m or 0.0, site.longitude_deg or 0.0)
    filling = Filling(solar_factor=SOLAR_FACTORS[site.near_sea])
    return Station(field, FORMS[site.reference], filling, normals)


def normals_of(document: Document) -> Normals | None:
    """The site's normals; None where there is not one month of them."""
    if not document.normals:
        return None
    by_month = {record.month: record for record in document.normals.values()}
    source = next((record.source for record in document.normals.values() if record.source), "")
    known = (by_month.get(month) for month in range(1, MONTHS + 1))
    return Normals(tuple(None if record is None else record.et_mm for record in known), source)


def site_days(document: Document, first: date, last: date) -> SiteDays | None:
    """Every day from first to last. Days with no observed place fall to the normals: without latitude nothing else."""
    station = station_of(document)
    if station is None:
        return None
    seen = weather_by_day(document)
    worked = seen if document.site.latitude_deg is not None else _without_sun(seen)
    references = reference_days(station, first, last, worked)
    rain = {day: weather.rain_mm for day, weather in seen.items()}
    days, _unread = weather_days(references, rain, document.site.rain_counts)
    return SiteDays(references, days, rain)


def day_weather_on(document: Document, day: date) -> ReferenceDay | None:
    """One day's reference, with its rung and what is odd about it; None where `site_days` knows nothing."""
    days = site_days(document, day, day)
    return days.references[0] if days else None


def first_known(document: Document, before: date, most_days: int) -> date:
    """The first day of the last `most_days` that has weather; `before` itself where none has."""
    oldest = before - timedelta(days=most_days)
    known = [day for day in weather_by_day(document) if oldest <= day < before]
    return min(known, default=before)


def _without_sun(seen: Mapping[date, DayWeather]) -> dict[date, DayWeather]:
    """Where the latitude is unknown only what was worked out elsewhere can be used, and rain."""
    return {day: DayWeather(day=day, row=one.row, rain_mm=one.rain_mm, et_mm=one.et_mm) for day, one in seen.items()}


def _day_weather(day: date, record: Weather) -> DayWeather:
    return DayWeather(
        day=day,
        row=record.id,
        high_c=record.high_degc,
        low_c=record.low_degc,
        dew_c=record.dew_degc,
        dampest_pct=record.dampest_pct,
        driest_pct=record.driest_pct,
        humidity_pct=record.humidity_pct,
        wind_mps=record.wind_mps,
        wind_height_m=record.wind_height_m,
        solar_mj=record.solar_mj,
        sunshine_h=record.sunshine_h,
        rain_mm=record.rain_mm,
        et_mm=record.et_mm,
    )
