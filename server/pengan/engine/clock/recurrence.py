"""Yearly recurrence rules (RFC 5545 section 3.3.10), as far as descriptions of time zones use them.

`FREQ=YEARLY` with BYMONTH, BYDAY, BYMONTHDAY, BYYEARDAY, INTERVAL, COUNT and UNTIL. Anything else is refused rather
than misread.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from ..message import saying
from .fault import ClockFault

UNREADABLE = saying("clock.recurrence_unreadable", "The recurrence {rule} cannot be read because of “{part}”.")

WEEKDAY_NAMES = ("SU", "MO", "TU", "WE", "TH", "FR", "SA")
_BY_DAY = re.compile(r"([+-]?\d{1,2})?(SU|MO|TU|WE|TH|FR|SA)", re.ASCII)
_UNTIL = re.compile(r"(\d{8})(?:T(\d{6})(Z?))?", re.ASCII)
_LISTS = {"BYMONTH": range(1, 13), "BYMONTHDAY": range(-31, 32), "BYYEARDAY": range(-366, 367)}


@dataclass(frozen=True, slots=True)
class Recurrence:
    """Days of every year.

    `weekdays` are pairs (which one, day): (0, 0) every Sunday, (2, 0) the second, (-1, 0) the last.
    """

    months: tuple[int, ...] = ()
    weekdays: tuple[tuple[int, int], ...] = ()
    month_days: tuple[int, ...] = ()
    year_days: tuple[int, ...] = ()
    interval: int = 1
    count: int | None = None
    until: str = ""

    @property
    def endless(self) -> bool:
        """Whether it goes on for ever."""
        return self.count is None and not self.until

    def days_in(self, year: int, start: date) -> list[int]:
        """The days of one year, as ordinals in order. `start` gives month and day where the rule leaves them open."""
        if (year - start.year) % self.interval:
            return []
        return [day for day in self._days_of(year) if self._holds(date.fromordinal(day), start)]

    def _days_of(self, year: int) -> Iterator[int]:
        """Every day of the year, or of its months if some are named."""
        spans = [_month_span(date(year, month, 1)) for month in sorted(set(self.months))] or [_year_span(year)]
        for first, last in spans:
            yield from range(first, last + 1)

    def _holds(self, day: date, start: date) -> bool:
        if self.year_days and not self._has(self.year_days, _place_in(_year_span(day.year), day)):
            return False
        if self.month_days and not self._has(self.month_days, _place_in(_month_span(day), day)):
            return False
        if self.weekdays:
            return any(self._is_weekday(day, nth, weekday) for nth, weekday in self.weekdays)
        if self.year_days or self.month_days:
            return True
        return day.day == start.day and (bool(self.months) or day.month == start.month)

    def _is_weekday(self, day: date, nth: int, weekday: int) -> bool:
        if day.isoweekday() % 7 != weekday:
            return False
        first, last = _month_span(day) if self.months else _year_span(day.year)
        from_first, from_last = (day.toordinal() - first) // 7 + 1, (day.toordinal() - last) // -7 + 1
        return nth in (0, from_first, -from_last)

    @staticmethod
    def _has(wanted: tuple[int, ...], places: tuple[int, int]) -> bool:
        return places[0] in wanted or places[1] in wanted


def read_recurrence(text: str) -> Recurrence:
    """The recurrence an RRULE's value means. Raises `ClockFault`."""
    parts = dict(part.partition("=")[::2] for part in text.upper().split(";") if part)
    if parts.pop("FREQ", "") != "YEARLY":
        raise ClockFault(UNREADABLE(rule=text, part="FREQ"))
    parts.pop("WKST", None)
    read = _PartReader(text, parts)
    found = Recurrence(
        months=read.numbers("BYMONTH"),
        weekdays=read.weekdays(),
        month_days=read.numbers("BYMONTHDAY"),
        year_days=read.numbers("BYYEARDAY"),
        interval=read.number("INTERVAL") or 1,
        count=read.number("COUNT"),
        until=read.until(),
    )
    if parts:
        raise ClockFault(UNREADABLE(rule=text, part=sorted(parts)[0]))
    return found


def write_recurrence(rule: Recurrence) -> str:
    """An endless recurrence as an RRULE's value."""
    text = "FREQ=YEARLY"
    for name, numbers in (("BYMONTH", rule.months), ("BYMONTHDAY", rule.month_days), ("BYYEARDAY", rule.year_days)):
        if numbers:
            text += f";{name}=" + ",".join(map(str, numbers))
    if rule.weekdays:
        text += ";BYDAY=" + ",".join(f"{nth or ''}{WEEKDAY_NAMES[weekday]}" for nth, weekday in rule.weekdays)
    return text


class _PartReader:
    """Takes the parts of a recurrence out of a mapping, one kind after another; what is left was not understood."""

    def __init__(self, text: str, parts: dict[str, str]) -> None:
        self.text = text
        self.parts = parts

    def numbers(self, name: str) -> tuple[int, ...]:
        value = self.parts.pop(name, None)
        if value is None:
            return ()
        numbers = tuple(self.whole(name, item) for item in value.split(","))
        if any(number == 0 or number not in _LISTS[name] for number in numbers):
            raise self.fault(f"{name}={value}")
        return numbers

    def number(self, name: str) -> int | None:
        value = self.parts.pop(name, None)
        if value is None:
            return None
        number = self.whole(name, value)
        if number < 1:
            raise self.fault(f"{name}={value}")
        return number

    def whole(self, name: str, item: str) -> int:
        if not re.fullmatch(r"[+-]?\d{1,4}", item, re.ASCII):
            raise self.fault(f"{name}={item}")
        return int(item)

    def weekdays(self) -> tuple[tuple[int, int], ...]:
        value = self.parts.pop("BYDAY", None)
        if value is None:
            return ()
        matches = [_BY_DAY.fullmatch(item) for item in value.split(",")]
        found = tuple((int(m[1] or 0), WEEKDAY_NAMES.index(m[2])) for m in matches if m)
        if len(found) != len(matches):
            raise self.fault(f"BYDAY={value}")
        return found

    def until(self) -> str:
        value = self.parts.pop("UNTIL", "")
        if value and not _UNTIL.fullmatch(value):
            raise self.fault(f"UNTIL={value}")
        return value

    def fault(self, part: str) -> ClockFault:
        return ClockFault(UNREADABLE(rule=self.text, part=part))


def _year_span(year: int) -> tuple[int, int]:
    return date(year, 1, 1).toordinal(), date(year, 12, 31).toordinal()


def _month_span(day: date) -> tuple[int, int]:
    first = day.replace(day=1)
    following = first.replace(month=first.month % 12 + 1, year=first.year + first.month // 12)
    return first.toordinal(), following.toordinal() - 1


def _place_in(span: tuple[int, int], day: date) -> tuple[int, int]:
    """Which day of a month or year it is, counted from the first (1, 2, …) and from the last (-1, -2, …)."""
    return day.toordinal() - span[0] + 1, day.toordinal() - span[1] - 1
