"""Steps of UTC gathered to days of the site's calendar, which have 23 or 25 hours where its clock changes.

A day is told only as far as steps cover all of it: half a sum would be untrue. The highest and lowest temperature come
from hours, or from what the service says of longer steps; from readings hours apart they would be too tame.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, time, timedelta
from math import fsum

from pengan.engine.clock.instants import Policy
from pengan.engine.clock.zones import SiteClock

from ..readings import Values
from .steps import HOUR_S, LONGEST_STEP_S, Step

MOST_AHEAD_DAYS = 7
"""Common practice, no source: further ahead the month's normal is as good a guess."""
PLACES = 1
"""Tenths: more would only make the history longer."""
Part = tuple[Step, int]
"""A step and how many of its seconds lie in the day."""


def days_of(steps: Sequence[Step], clock: SiteClock, today: date) -> dict[date, Values]:
    """What a forecast tells of today and the days after it, in base units of the weather table."""
    days = (today + timedelta(days=number) for number in range(MOST_AHEAD_DAYS + 1))
    found = ((day, _day(steps, _midnight(clock, day), _midnight(clock, day + timedelta(days=1)))) for day in days)
    return {day: values for day, values in found if values}


def _midnight(clock: SiteClock, day: date) -> int:
    return clock.instant(datetime.combine(day, time()), Policy.COMPATIBLE)


def _day(steps: Sequence[Step], first: int, last: int) -> Values:
    parts = [
        (step, shared)
        for step in steps
        if step.ends - step.starts <= LONGEST_STEP_S
        and (shared := min(step.ends, last) - max(step.starts, first)) > 0
    ]  # fmt: skip
    if sum(shared for _step, shared in parts) != last - first:
        return {}
    told = {
        "high_degc": _extreme(parts, "high_degc", first, last),
        "low_degc": _extreme(parts, "low_degc", first, last),
        "dew_degc": _mean(parts, "dew_degc"),
        "humidity_pct": _mean(parts, "humidity_pct"),
        "wind_mps": _mean(parts, "wind_mps"),
        "solar_mj": _sum(parts, "solar_mj"),
        "rain_mm": _sum(parts, "rain_mm"),
    }
    return {name: round(value, PLACES) for name, value in told.items() if value is not None}


def _extreme(parts: Sequence[Part], name: str, first: int, last: int) -> float | None:
    """Over steps whose middle lies in the day, each by its own extreme, or by its start where it is an hour."""
    values = []
    for step, _shared in parts:
        if not first <= (step.starts + step.ends) / 2 < last:
            continue
        within = step.at.get("temp_degc") if step.ends - step.starts <= HOUR_S else None
        value = step.over.get(name, within)
        if value is None:
            return None
        values.append(value)
    return (max if name == "high_degc" else min)(values, default=None)


def _mean(parts: Sequence[Part], name: str) -> float | None:
    if any(name not in step.at for step, _shared in parts):
        return None
    return fsum(step.at[name] * shared for step, shared in parts) / sum(shared for _step, shared in parts)


def _sum(parts: Sequence[Part], name: str) -> float | None:
    """Each step by its share in the day: rain of six hours across midnight falls on both days."""
    if any(name not in step.over for step, _shared in parts):
        return None
    return fsum(step.over[name] * shared / (step.ends - step.starts) for step, shared in parts)
