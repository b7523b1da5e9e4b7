"""Between the day of the year in a POSIX rule and a yearly recurrence, in both directions.

Neither is translated word by word. A likely equal is guessed from the dates and kept only if it gives the same date
in every calendar there is; so `BYMONTHDAY=8,9,…,14;BYDAY=SU` is seen to be the second Sunday, and what has no equal
is not forced into one.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from functools import lru_cache

from .recurrence import Recurrence
from .rules import DAY_S, EPOCH_DAY, LAST_WEEK, YearDay
from .same_day import ALL_CALENDARS

_MOST_DAYS = 6
"""RFC 9636 allows a time of up to 167 hours either way: six whole days and a time of day."""

_START = date(2000, 1, 1)


@lru_cache(maxsize=256)
def recurrence_like(day: YearDay) -> Recurrence | None:
    """The recurrence of the dates on which the time of `day` falls, or None if there is no equal."""
    dates = [date.fromordinal(day.wall_s(year) // DAY_S + EPOCH_DAY) for year in ALL_CALENDARS]
    if any(found.year != year for found, year in zip(dates, ALL_CALENDARS, strict=True)):
        return None
    wanted = [found.toordinal() for found in dates]
    return next((guess for guess in _recurrences(dates) if _falls_on(guess, wanted)), None)


@lru_cache(maxsize=256)
def year_day_like(rule: Recurrence, start: date, time_s: int) -> YearDay | None:
    """The day of the year equal to a recurrence with a time of day, or None if there is no equal."""
    wanted = _dates_of(rule, start)
    if wanted is None:
        return None
    for guess in _year_days(date.fromordinal(wanted[0])):
        whole_days = guess.time_s // DAY_S
        if all(guess.ordinal(year) + whole_days == day for year, day in zip(ALL_CALENDARS, wanted, strict=True)):
            return replace(guess, time_s=guess.time_s + time_s)
    return None


def _falls_on(rule: Recurrence, wanted: list[int]) -> bool:
    """Whether it falls on these dates alone, one in each calendar; most guesses are wrong in the first."""
    return all(rule.days_in(year, _START) == [day] for year, day in zip(ALL_CALENDARS, wanted, strict=True))


def _dates_of(rule: Recurrence, start: date) -> list[int] | None:
    """Its date in every calendar, if it has exactly one in each."""
    found = [rule.days_in(year, start) for year in ALL_CALENDARS]
    return [days[0] for days in found] if all(len(days) == 1 for days in found) else None


def _recurrences(dates: list[date]) -> Iterator[Recurrence]:
    """Guesses, the plainest first."""
    first = dates[0]
    months, weekday = (first.month,), first.isoweekday() % 7
    for nth in (1, 2, 3, 4, -1):
        yield Recurrence(months, weekdays=((nth, weekday),))
    yield Recurrence(months, month_days=(first.day,))
    days = [found.day for found in dates]
    yield Recurrence(months, month_days=tuple(range(min(days), max(days) + 1)), weekdays=((0, weekday),))
    from_first = [found.toordinal() - date(found.year, 1, 1).toordinal() + 1 for found in dates]
    from_last = [found.toordinal() - date(found.year, 12, 31).toordinal() - 1 for found in dates]
    for places in (from_first, from_last):
        spread = tuple(range(min(places), max(places) + 1))
        yield Recurrence(year_days=spread)
        yield Recurrence(year_days=spread, weekdays=((0, weekday),))


def _year_days(first: date) -> Iterator[YearDay]:
    """Guesses, the plainest first; those of a weekday may count from up to six days away."""
    shifts = sorted(range(-_MOST_DAYS, _MOST_DAYS + 1), key=abs)
    for shift in shifts[:1] + [0] + shifts[1:]:
        named = date.fromordinal(first.toordinal() - shift)
        for week in range(1, LAST_WEEK + 1):
            yield YearDay("M", shift * DAY_S, named.month, week, named.isoweekday() % 7)
        if shift == 0:
            place = first.toordinal() - date(first.year, 1, 1).toordinal()
            yield YearDay("J", 0, day=place if first.month > 2 else place + 1)
            yield YearDay("N", 0, day=place)
