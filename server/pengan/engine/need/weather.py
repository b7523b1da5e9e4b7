"""What was observed: a day's or an hour's weather, in base units, with the row it came from."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True, kw_only=True)
class DayWeather:
    """One day's observations on the site's calendar. None: not observed. Nothing here is worked out.

    `row` names the line, message or record it came from, so that whatever is said about it can name it too.
    `et_mm` is reference evapotranspiration that somebody else worked out (a station, a service, a person).
    `wind_mps` is at `wind_height_m`; `solar_mj` in MJ/m² a day; `rain_mm` is None where no gauge was read.
    """

    day: date
    row: str = ""
    high_c: float | None = None
    low_c: float | None = None
    dew_c: float | None = None
    dampest_pct: float | None = None
    driest_pct: float | None = None
    humidity_pct: float | None = None
    wind_mps: float | None = None
    wind_height_m: float = 2.0
    solar_mj: float | None = None
    sunshine_h: float | None = None
    rain_mm: float | None = None
    et_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class HourWeather:
    """One hour's means; `utc_middle_h` is the middle of the hour in hours of UTC counted from `day`'s UTC midnight.

    It may be below 0 or above 24: a site's day and UTC's need not agree.
    """

    day: date
    utc_middle_h: float
    row: str = ""
    mean_c: float
    humidity_pct: float
    wind_mps: float
    wind_height_m: float = 2.0
    solar_mj: float
