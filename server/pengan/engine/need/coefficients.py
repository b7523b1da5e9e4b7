"""How much a planting uses of the reference: by growth stage, or by the landscape coefficient.

Sources: FAO Irrigation and Drainage Paper 56, chapter 6 (single crop coefficient, eq. 58, 62, 65, 66); Costello,
Matheny & Clark (2000), The landscape coefficient method (species x density x microclimate).
A season is a date of the year and four lengths; it may begin in any month, so southern seasons are nothing special.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from itertools import repeat

from ..message import Message, saying
from .radiation import TROPICS_DEG, sunnier_half

DARK_SEASON = saying(
    "need.dark_season",
    "{hydrozone}: the middle of its season falls on {day_date}, in the darker half of the year at this latitude. "
    "Is its season written for the other hemisphere?",
)


@dataclass(frozen=True, slots=True)
class Stages:
    """A single crop coefficient by stage (FAO-56 fig. 34).

    `starts` is the first day of the season as (month, day); a 29 February counts as 1 March in other years. The four
    lengths are days; outside the season `rest` holds.
    """

    starts: tuple[int, int]
    initial_days: int
    growth_days: int
    middle_days: int
    late_days: int
    initial: float
    middle: float
    end: float
    rest: float

    @property
    def season_days(self) -> int:
        """How long the season lasts."""
        return self.initial_days + self.growth_days + self.middle_days + self.late_days


@dataclass(frozen=True, slots=True)
class Steady:
    """One coefficient all year round."""

    value: float


Curve = Stages | Steady


def landscape_coefficient(species: float, density: float = 1.0, microclimate: float = 1.0) -> Steady:
    """Species factor x density factor x microclimate factor (Costello et al. 2000)."""
    return Steady(species * density * microclimate)


def coefficient_on(curve: Curve, day: date) -> float:
    """The coefficient of one day. Between the flat stages it runs straight (FAO-56 eq. 66)."""
    if isinstance(curve, Steady):
        return curve.value
    return _of_day(curve, season_day(curve, day))


def coefficients_from(curve: Curve, first: date) -> Iterator[float]:
    """The coefficients of a day and all that follow it, without end: quicker than asking for one day after another."""
    if isinstance(curve, Steady):
        yield from repeat(curve.value)
        return
    day, number = first, season_day(curve, first)
    while True:
        yield _of_day(curve, number)
        day, number = day + timedelta(days=1), number + 1
        if (day.month, day.day) in (curve.starts, (3, 1)):
            number = season_day(curve, day)


def season_day(stages: Stages, day: date) -> int:
    """Days since the latest start of the season: 0 on the day it starts."""
    start = _start_in(stages, day.year)
    return (day - (start if start <= day else _start_in(stages, day.year - 1))).days


def _start_in(stages: Stages, year: int) -> date:
    month, number = stages.starts
    leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    return date(year, 3, 1) if (month, number) == (2, 29) and not leap else date(year, month, number)


@lru_cache(maxsize=8192)
def _of_day(stages: Stages, number: int) -> float:
    growth_from = stages.initial_days
    middle_from = growth_from + stages.growth_days
    late_from = middle_from + stages.middle_days
    if number >= stages.season_days:
        return stages.rest
    if number >= late_from:
        return _between(stages.middle, stages.end, (number - late_from + 1) / stages.late_days)
    if number >= middle_from:
        return stages.middle
    if number >= growth_from:
        return _between(stages.initial, stages.middle, (number - growth_from + 1) / stages.growth_days)
    return stages.initial


def _between(first: float, last: float, share: float) -> float:
    return first + (last - first) * share


def for_climate(table_value: float, wind_mps: float, driest_pct: float, height_m: float) -> float:
    """A middle or end coefficient above 0.45 brought from the table's climate to a place's own (FAO-56 eq. 62, 65).

    The table holds for a least humidity of 45 % and 2 m/s; wind is held to 1 to 6 m/s, humidity to 20 to 80 %,
    height to 0.1 to 10 m, the range the equation was made for.
    """
    if table_value < 0.45:
        return table_value
    wind, driest = min(6.0, max(1.0, wind_mps)), min(80.0, max(20.0, driest_pct))
    height = min(10.0, max(0.1, height_m))
    return table_value + (0.04 * (wind - 2) - 0.004 * (driest - 45)) * float((height / 3) ** 0.3)


def initial_between(light: float, heavy: float, wetting_mm: float) -> float:
    """An initial coefficient for wettings between 10 and 40 mm, from both figures' values (FAO-56 eq. 59)."""
    return light + (wetting_mm - 10) / 30 * (heavy - light)


def initial_part_wetted(whole: float, wetted_share: float) -> float:
    """An initial coefficient where only a share of the ground is wetted (FAO-56 eq. 60)."""
    return wetted_share * whole


def depth_where_wetted(depth_mm: float, wetted_share: float) -> float:
    """The depth on the part that is wetted (FAO-56 eq. 61)."""
    return depth_mm / wetted_share


def season_doubt(hydrozone: str, curve: Curve, latitude_deg: float, year: int) -> Message | None:
    """A doubt where the middle of a season has less sun than the mean of the year, as a season from elsewhere has."""
    if isinstance(curve, Steady) or abs(latitude_deg) < TROPICS_DEG:
        return None
    ahead = curve.initial_days + curve.growth_days + curve.middle_days // 2
    middle = _start_in(curve, year) + timedelta(days=ahead)
    if sunnier_half(latitude_deg, middle.timetuple().tm_yday):
        return None
    return DARK_SEASON(hydrozone=hydrozone, day_date=middle.isoformat())
