"""How clock times, dates and lists of them are written in a document: one pattern each, for reader and JSON Schema.

Patterns are plain enough to mean the same to Python and to ECMAScript, as JSON Schema asks. What no pattern
can tell (that 2026-02-29 does not exist) is told by `is_date` and `is_moment`.
"""

from __future__ import annotations

import datetime
import re

_HOUR_MINUTE = r"(?:[01][0-9]|2[0-3]):[0-5][0-9]"
_LONG_MONTH = r"(?:0[13578]|1[02])-(?:0[1-9]|[12][0-9]|3[01])"
_SHORT_MONTH = r"(?:0[469]|11)-(?:0[1-9]|[12][0-9]|30)"
_FEBRUARY = r"02-(?:0[1-9]|1[0-9]|2[0-9])"
_MONTH_DAY = rf"(?:{_LONG_MONTH}|{_SHORT_MONTH}|{_FEBRUARY})"
_DATE = rf"(?:19|2[0-9])[0-9]{{2}}-{_MONTH_DAY}"
_WEEKDAY = r"(?:mon|tue|wed|thu|fri|sat|sun)"

ID = r"[A-Za-z0-9._-]+"
CLOCK = rf"(?:{_HOUR_MINUTE}(?::[0-5][0-9])?|24:00(?::00)?|(?:sunrise|sunset)(?:[+-](?:0[0-9]|1[0-2]):[0-5][0-9])?)"
DATE = _DATE
MONTH_DAY = _MONTH_DAY
MOMENT = rf"{_DATE}T{_HOUR_MINUTE}"
WEEKDAYS = rf"{_WEEKDAY}(?:, ?{_WEEKDAY})*"
DATES = rf"{_DATE}(?:, ?{_DATE})*"
TEXT = r"[^\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F]*"
"""Text without control characters, but for tab and line ends."""


def fits(pattern: str, given: str) -> bool:
    """Whether the whole of `given` is written as `pattern` says."""
    return re.fullmatch(pattern, given) is not None


def is_date(given: str) -> bool:
    """Whether it is a day of the calendar, written `YYYY-MM-DD`."""
    if not fits(DATE, given):
        return False
    try:
        datetime.date.fromisoformat(given)
    except ValueError:
        return False
    return True


def is_moment(given: str) -> bool:
    """Whether it is a local date and time, written `YYYY-MM-DDTHH:MM`."""
    return fits(MOMENT, given) and is_date(given[:10])


def parts_of(listed: str) -> list[str]:
    """The parts of a list with commas."""
    return [part.strip() for part in listed.split(",")]


def is_weekdays(given: str) -> bool:
    """Whether it is a list of `mon` … `sun`."""
    return fits(WEEKDAYS, given)


def is_dates(given: str) -> bool:
    """Whether it is a list of days of the calendar."""
    return fits(DATES, given) and all(is_date(part) for part in parts_of(given))


def of_the_sun(given: str) -> bool:
    """Whether a clock text speaks of sunrise or sunset."""
    return given.startswith("sun")
