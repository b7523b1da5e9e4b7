"""Dates and times of day as people write them. Everything here is wall time of the site; CLDR gives the patterns."""

from __future__ import annotations

import re
from datetime import date, datetime, time, timedelta

from babel.dates import format_date, format_skeleton, format_time

from .durations import write_duration
from .faults import NOT_A_DATE, WordsFault
from .reader import N_, Reader

_SUN = re.compile(r"(sunrise|sunset)(?:([+-])(\d{2}):(\d{2}))?")
_SUN_PATTERNS = {
    ("sunrise", ""): N_("sunrise"),
    ("sunset", ""): N_("sunset"),
    ("sunrise", "-"): N_("{duration} before sunrise"),
    ("sunrise", "+"): N_("{duration} after sunrise"),
    ("sunset", "-"): N_("{duration} before sunset"),
    ("sunset", "+"): N_("{duration} after sunset"),
}
_SKELETONS_OF_DAYS = {"weekday": "MMMEd", "month": "yMMMM"}
_SKELETONS = {("12", False): "hm", ("24", False): "Hm", ("12", True): "hms", ("24", True): "Hms"}


def write_time(wall: datetime | time, reader: Reader, *, seconds: bool | None = None) -> str:
    """A time of day: `23:42`, or `11:42 PM` where the reader or their language has it so.

    Seconds are shown where they are not zero, unless `seconds` says otherwise.
    """
    fine = bool(wall.second) if seconds is None else seconds
    return str(format_time(wall, _time_pattern(fine, reader), locale=reader.locale))


def _time_pattern(fine: bool, reader: Reader) -> str:
    """CLDR's pattern; where it has 24 hours, in two digits, so that times stand in line like a departure board."""
    if reader.hour_cycle is None:
        pattern = reader.locale.time_formats["medium" if fine else "short"].pattern
    else:
        pattern = reader.locale.datetime_skeletons[_SKELETONS[reader.hour_cycle, fine]].pattern
    return re.sub(r"(?<!H)H(?!H)", "HH", pattern)


def write_clock(text: str, reader: Reader) -> str:
    """A clock field of the document for people: `21:30`, `24:00`, `sunset-00:30` → `30 min before sunset`."""
    sun = _SUN.fullmatch(text)
    if sun is None:
        hour, minute, second = (int(part) for part in (text + ":00").split(":")[:3])
        return write_time(time(hour % 24, minute, second), reader)
    event, sign, hours, minutes = sun.groups()
    offset = timedelta(hours=int(hours or 0), minutes=int(minutes or 0)).seconds
    pattern = _SUN_PATTERNS[event, sign or "" if offset else ""]
    return reader.gettext(pattern, duration=write_duration(offset, reader))


def write_date(day: date | str, reader: Reader, style: str = "medium") -> str:
    """A calendar date. Styles: `short`, `medium`, `long`, `full` as in CLDR, `weekday` (`Thu 26 Nov`) and `month`
    (`November 2026`)."""
    if isinstance(day, str):
        day = date.fromisoformat(day)
    if style in _SKELETONS_OF_DAYS:
        return str(format_skeleton(_SKELETONS_OF_DAYS[style], datetime.combine(day, time()), locale=reader.locale))
    return str(format_date(day, style, locale=reader.locale))


def read_date(text: str) -> date:
    """A date typed on the command line: `2026-11-25`, the same in every language. Raises `WordsFault`."""
    try:
        return date.fromisoformat(text.strip())
    except ValueError:
        raise WordsFault(NOT_A_DATE(text=text, example="2026-11-25")) from None


def write_offset(offset_s: int) -> str:
    """An offset from UTC as RFC 3339 writes it: `+01:00`."""
    minutes = abs(offset_s) // 60
    return f"{'-' if offset_s < 0 else '+'}{minutes // 60:02}:{minutes % 60:02}"
