"""Reads dates: date cells, `2026-11-25`, `25/11/2026`, `25 nov 2026`; days of every year; dates with a time.

In which order day and month stand is what CLDR says of the book's language. English alone does not say, as it is
month first in one country and day first in most others: there a date that could be two is a fault.
"""

from __future__ import annotations

import re
from datetime import date, datetime
from functools import cache

from pengan.engine.document.written import is_dates
from pengan.words import languages
from pengan.words.reader import Reader

from .. import sayings
from ..folding import fold
from ..grid import Cell
from ..report import CellFault
from .amounts import Desk
from .clocks import clock_in, is_day
from .plain import shown

_EXAMPLE, _MONTH_DAY_EXAMPLE, _MOMENT_EXAMPLE = "2026-11-25", "11-25", "2026-11-25 21:30"
_NUMBER = re.compile(r"\d+")
_MOMENT = re.compile(r"(.+?)(?:[T,]\s*|\s+)(\d{1,2}(?:[:.hH]\d{2}.*|\s*[^\d\s].*))", re.DOTALL)
_ISO_MONTH_DAY = re.compile(r"(?:--)?(\d{2})-(\d{2})")
_LEAP_YEAR = 2024
_TIME_END = re.compile(r"[ T]00:00(:00)?")


def read_date(cell: Cell, reader: Reader) -> str:
    """A calendar date as ISO 8601 writes it. Raises `CellFault`."""
    return _date(cell, reader).isoformat()


def _date(cell: Cell, reader: Reader) -> date:
    if is_day(cell.value):
        assert isinstance(cell.value, date)
        return cell.value.date() if isinstance(cell.value, datetime) else cell.value
    if isinstance(cell.value, str):
        return date_in(_TIME_END.sub("", cell.value.strip()), reader)
    raise CellFault(sayings.NOT_A_DATE(typed=shown(cell), example=_EXAMPLE))


def date_in(text: str, reader: Reader) -> date:
    """The date that a text means. Raises `CellFault`."""
    found = {day for day in (_made(*parts) for parts in _readings(text[:60], reader)) if day is not None}
    if len(found) > 1:
        raise CellFault(sayings.UNCLEAR_DATE(typed=text[:60], example=_EXAMPLE))
    if not found:
        raise CellFault(sayings.NOT_A_DATE(typed=text[:60], example=_EXAMPLE))
    return found.pop()


def _made(year: int, month: int, day: int) -> date | None:
    try:
        return date(year + 2000 if year < 100 else year, month, day)
    except ValueError:
        return None


def _readings(text: str, reader: Reader) -> list[tuple[int, int, int]]:
    """Every way to take the numbers (and the month's name) of a text as year, month and day."""
    numbers = [int(number) for number in _NUMBER.findall(text) if len(number) <= 4]
    month = _month_named(text)
    if month is not None:
        return [(numbers[1], month, numbers[0])] if len(numbers) == 2 and numbers[0] <= 31 else []
    if len(numbers) != 3 or re.search(r"[^\W\d_]", re.sub(r"[年月日]", "", text)):
        return []
    if numbers[0] >= 1000:
        return [(numbers[0], numbers[1], numbers[2])]
    orders = _orders(reader.language)
    return [(numbers[2], numbers[order.index("M")], numbers[order.index("d")]) for order in orders if order[2] == "y"]


@cache
def _orders(language: str) -> tuple[str, ...]:
    """The orders of day, month and year that a language writes figures in."""
    if language == "en":
        return ("dMy", "Mdy")
    pattern = str(languages.locale_of(language).date_formats["short"].pattern)
    order = "".join(sorted("dMy", key=pattern.index)) if all(mark in pattern for mark in "dMy") else "dMy"
    return (order if order[2] == "y" else "dMy",)


def _month_named(text: str) -> int | None:
    words = {fold(word) for word in re.findall(r"[^\W\d_]+", text)}
    found = {_months()[word] for word in words if word in _months()}
    return found.pop() if len(found) == 1 else None


@cache
def _months() -> dict[str, int]:
    found: dict[str, int] = {}
    for language in languages.shipped():
        for use in ("format", "stand-alone"):
            for width in ("wide", "abbreviated"):
                for number, name in languages.locale_of(language).months[use][width].items():
                    found.setdefault(fold(str(name)), number)
    return found


def read_month_day(cell: Cell, reader: Reader) -> str:
    """A day of every year, `MM-DD`: a date cell without its year, `11-25`, `25 Nov`, `25/11`. Raises `CellFault`."""
    if is_day(cell.value):
        assert isinstance(cell.value, date)
        return cell.value.strftime("%m-%d")
    text = cell.value.strip()[:60] if isinstance(cell.value, str) else ""
    iso = _ISO_MONTH_DAY.fullmatch(text)
    found = {(int(iso[1]), int(iso[2]))} if iso else _month_days(text, reader)
    days = {day for month, number in found if (day := _made(_LEAP_YEAR, month, number)) is not None}
    if len(days) != 1:
        saying = sayings.UNCLEAR_DATE if days else sayings.NOT_A_DATE
        raise CellFault(saying(typed=shown(cell), example=_MONTH_DAY_EXAMPLE))
    return days.pop().strftime("%m-%d")


def _month_days(text: str, reader: Reader) -> set[tuple[int, int]]:
    numbers = [int(number) for number in _NUMBER.findall(text) if len(number) <= 2]
    month = _month_named(text)
    if month is not None:
        return {(month, numbers[0])} if len(numbers) == 1 else set()
    if len(numbers) != 2:
        return set()
    return {(numbers[0], numbers[1]) if order.index("M") < order.index("d") else (numbers[1], numbers[0])
            for order in _orders(reader.language)}  # fmt: skip


def read_dates(cell: Cell, reader: Reader) -> str:
    """A list of dates, as the document writes it: parted by `;`, commas or line ends. Raises `CellFault`."""
    if not isinstance(cell.value, str):
        return read_date(cell, reader)
    if is_dates(cell.value.strip()):
        return cell.value.strip()
    parts = [part.strip() for part in re.split(r"[;,\n]+", cell.value) if part.strip()]
    return ",".join(date_in(part, reader).isoformat() for part in parts)


def read_moment(cell: Cell, desk: Desk) -> str:
    """A local date and time. A date alone is the day's beginning, or its end where a span ends. Raises `CellFault`."""
    if isinstance(cell.value, datetime) and is_day(cell.value):
        return _whole_day(cell.value, desk, cell) if cell.day_alone else cell.value.strftime("%Y-%m-%dT%H:%M")
    text = cell.value.strip()[:60] if isinstance(cell.value, str) else ""
    match = _MOMENT.fullmatch(text)
    if match and (clock := clock_in(match[2], desk.reader)):
        day = date_in(match[1].strip(), desk.reader)
        if len(clock) == 5 and clock != "24:00":
            return f"{day.isoformat()}T{clock}"
        raise CellFault(sayings.NOT_A_DATE(typed=shown(cell), example=_MOMENT_EXAMPLE))
    return _whole_day(_date(cell, desk.reader), desk, cell)


def _whole_day(day: date, desk: Desk, cell: Cell) -> str:
    ordinal = day.toordinal()
    if desk.column.field == "ends_on":
        desk.note(sayings.DAY_INCLUDED(typed=shown(cell)))
        ordinal = min(ordinal + 1, date.max.toordinal())
    return f"{date.fromordinal(ordinal).isoformat()}T00:00"
