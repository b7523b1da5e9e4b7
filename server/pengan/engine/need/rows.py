"""Puts rows of daily weather in order, and says which days came twice, which came late, and which did not come."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from ..message import Message, saying, saying_plural
from .weather import DayWeather

TWICE_SAME = saying("weather.twice_same", "Rows {row} and {other} say the same of {day_date}; one is left out.")
TWICE = saying(
    "weather.twice", "Rows {row} and {other} differ about {day_date}; the later one, row {other}, holds. Check both."
)
OUT_OF_ORDER = saying(
    "weather.out_of_order", "Row {row}, {day_date}, comes after a later day; it was put in its place."
)
MISSING = saying_plural(
    "weather.missing",
    "{days_count} day without weather: {first_date}.",
    "{days_count} days without weather: from {first_date} to {last_date}.",
    count="days_count",
)


@dataclass(frozen=True, slots=True)
class Arranged:
    """Days in order, one a date; what there is to say; and earlier rows that a later row of the same date replaced."""

    days: tuple[DayWeather, ...]
    messages: tuple[Message, ...]
    replaced: tuple[DayWeather, ...] = ()


def arrange(rows: Iterable[DayWeather]) -> Arranged:
    """Sorts rows by date. Of two rows about one date the one that comes later in `rows` holds."""
    kept: dict[date, DayWeather] = {}
    messages: list[Message] = []
    replaced: list[DayWeather] = []
    latest = date.min
    for row in rows:
        earlier = kept.get(row.day)
        if earlier is not None:
            same = replace(earlier, row="") == replace(row, row="")
            said = TWICE_SAME if same else TWICE
            messages.append(said(row=earlier.row, other=row.row, day_date=row.day.isoformat()))
            replaced.append(earlier)
        elif row.day < latest:
            messages.append(OUT_OF_ORDER(row=row.row, day_date=row.day.isoformat()))
        latest = max(latest, row.day)
        kept[row.day] = row
    days = tuple(kept[day] for day in sorted(kept))
    return Arranged(days, (*messages, *gaps(days)), tuple(replaced))


def gaps(days: Sequence[DayWeather]) -> list[Message]:
    """One message for each stretch of dates between the first and the last that nothing was said about."""
    found = []
    for before, after in zip(days, days[1:], strict=False):
        missing = (after.day - before.day).days - 1
        if missing > 0:
            first, last = before.day + timedelta(days=1), after.day - timedelta(days=1)
            found.append(MISSING(days_count=missing, first_date=first.isoformat(), last_date=last.isoformat()))
    return found
