"""Hours gathered to days: extremes, means and sums of a day whose every hour has come, and its evapotranspiration.

The evapotranspiration is the sum by the hour (FAO-56 eq. 53, ASCE-EWRI 2005 eq. 1), and given only where every hour
can be used; otherwise the day is worked out from its extremes and sums, as any other.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import UTC, date, datetime, time, timedelta
from math import fsum

from sqlalchemy import delete, select
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Policy
from pengan.engine.clock.zones import SiteClock
from pengan.engine.document.document import Document
from pengan.engine.need.ladder import reference_on
from pengan.engine.need.site.weather import station_of
from pengan.engine.need.weather import HourWeather

from ..ahead.queue import upsert
from .models import WeatherHour
from .readings import HOUR_FIELDS, HOUR_S, HOURS_KEPT_DAYS, Values

HEIGHT_M = 2.0
PLACES = 4


def keep_hours(session: Session, site: str, station: str, hours: dict[int, Values], now: int) -> None:
    """Put hours beside those that came before; what comes again takes their place. Old ones are let go of."""
    for starts, values in hours.items():
        key = {"site": site, "station": station, "starts": starts}
        upsert(session, WeatherHour, key, {name: values.get(name) for name in HOUR_FIELDS})
    oldest = now - int(timedelta(days=HOURS_KEPT_DAYS + 2).total_seconds())
    session.execute(
        delete(WeatherHour).where(WeatherHour.site == site, WeatherHour.starts < oldest),
        execution_options={"synchronize_session": False},
    )


def gathered(
    session: Session, document: Document, clock: SiteClock, station: str, hours: Iterable[int]
) -> dict[date, Values]:
    """The days that these hours belong to, as far as their hours have all come."""
    days = sorted({clock.wall(starts).date() for starts in hours})
    found = ((day, _day(session, document, clock, station, day)) for day in days)
    return {day: values for day, values in found if values is not None}


def _day(session: Session, document: Document, clock: SiteClock, station: str, day: date) -> Values | None:
    """One day, which has 23 or 25 hours where the clock changes."""
    first, last = (_midnight(clock, day + timedelta(days=number)) for number in (0, 1))
    rows = session.scalars(
        select(WeatherHour)
        .where(WeatherHour.site == document.site.id, WeatherHour.station == station)
        .where(WeatherHour.starts >= first, WeatherHour.starts < last)
        .order_by(WeatherHour.starts)
        .execution_options(populate_existing=True)
    ).all()
    if not rows or len(rows) * HOUR_S != last - first:
        return None
    return _values(rows) | _reference(document, day, rows)


def _midnight(clock: SiteClock, day: date) -> int:
    return clock.instant(datetime.combine(day, time()), Policy.COMPATIBLE)


def _values(rows: Sequence[WeatherHour]) -> Values:
    """What every hour tells; a field that one hour leaves out is left out of the day: half a sum would be untrue."""
    count = len(rows)
    values: Values = {}

    def put(name: str, read: Callable[[WeatherHour], float | None], gather: Callable[[list[float]], float]) -> None:
        known = [value for row in rows if (value := read(row)) is not None]
        if len(known) == count:
            values[name] = round(gather(known), PLACES)

    put("high_degc", lambda row: row.mean_degc if row.high_degc is None else row.high_degc, max)
    put("low_degc", lambda row: row.mean_degc if row.low_degc is None else row.low_degc, min)
    put("dampest_pct", lambda row: row.humidity_pct, max)
    put("driest_pct", lambda row: row.humidity_pct, min)
    put("humidity_pct", lambda row: row.humidity_pct, lambda known: fsum(known) / count)
    put("wind_mps", lambda row: row.wind_mps, lambda known: fsum(known) / count)
    put("wind_height_m", lambda row: row.wind_height_m, lambda known: known[0])
    put("solar_mj", lambda row: row.solar_mj, fsum)
    put("sunshine_h", lambda row: row.sunshine_h, fsum)
    put("rain_mm", lambda row: row.rain_mm, fsum)
    return values


def _reference(document: Document, day: date, rows: Sequence[WeatherHour]) -> Values:
    """The sum by the hour; cleared where it cannot be told any more, as after a correction."""
    station = station_of(document)
    if station is None or document.site.latitude_deg is None:
        return {}
    hours = [hour for row in rows if (hour := _hour(day, row)) is not None]
    if len(hours) < len(rows):
        return {"et_mm": None}
    found = reference_on(station, day, None, hours, len(rows))
    return {"et_mm": round(found.et_mm, PLACES) if found.rung == "hourly" and found.et_mm is not None else None}


def _hour(day: date, row: WeatherHour) -> HourWeather | None:
    if row.mean_degc is None or row.humidity_pct is None or row.wind_mps is None or row.solar_mj is None:
        return None
    midnight = int(datetime.combine(day, time(), UTC).timestamp())
    return HourWeather(
        day=day, utc_middle_h=(row.starts + HOUR_S / 2 - midnight) / HOUR_S, row=str(row.starts),
        mean_c=row.mean_degc, humidity_pct=row.humidity_pct, wind_mps=row.wind_mps,
        wind_height_m=HEIGHT_M if row.wind_height_m is None else row.wind_height_m, solar_mj=row.solar_mj,
    )  # fmt: skip
