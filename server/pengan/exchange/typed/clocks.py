"""Reads times of day: `21:30`, `9:30 pm`, `24:00`, time cells, and sunrise and sunset with what lies between."""

from __future__ import annotations

import re
from datetime import date, datetime, time, timedelta
from functools import cache

from pengan.words import languages
from pengan.words.durations import read_duration
from pengan.words.faults import WordsFault
from pengan.words.loading import catalogue
from pengan.words.reader import N_, Reader

from .. import sayings
from ..folding import fold
from ..grid import Cell
from ..report import CellFault
from .plain import shown
from .spans import seconds_of

_TIME = re.compile(r"(\d{1,2})(?:\s*[:.hH]\s*(\d{2}))?(?::(\d{2}))?\s*(?:h|hrs?|uhr)?\s*([^\d\s:].*)?", re.IGNORECASE)
_DAY_S = 86_400
_SUN_SENTENCES = {
    ("sunrise", "-"): N_("{duration} before sunrise"),
    ("sunrise", "+"): N_("{duration} after sunrise"),
    ("sunset", "-"): N_("{duration} before sunset"),
    ("sunset", "+"): N_("{duration} after sunset"),
}
_SUN = {"sunrise": N_("sunrise"), "sunset": N_("sunset")}
_OFFSET = re.compile(r"\s*([+\-−–])\s*(.+)")


def read_clock(cell: Cell, reader: Reader) -> str:
    """A clock as the document writes it: `HH:MM`, `HH:MM:SS`, `24:00`, `sunset-00:30`. Raises `CellFault`."""
    value = cell.value
    if isinstance(value, datetime | time | timedelta):
        found = _of_seconds(seconds_of(value))
    elif isinstance(value, str):
        found = clock_in(value, reader)
    else:
        found = None
    if found is None:
        raise CellFault(sayings.NOT_A_CLOCK(typed=shown(cell)))
    return found


def clock_in(text: str, reader: Reader) -> str | None:
    """The clock that a text means, or None."""
    text = text.strip()[:80]
    return _wall(text) or _sun(text, reader)


def _of_seconds(seconds: int) -> str | None:
    if not 0 <= seconds <= _DAY_S:
        return None
    shown_seconds = f":{seconds % 60:02}" if seconds % 60 else ""
    return f"{seconds // 3600:02}:{seconds // 60 % 60:02}{shown_seconds}"


def _wall(text: str) -> str | None:
    match = _TIME.fullmatch(text)
    if match is None:
        return None
    hour, minute, second = (int(part or 0) for part in match.groups()[:3])
    half = _half_of_day(match[4]) if match[4] else None
    if match[4] and (half is None or not 1 <= hour <= 12):
        return None
    if match[2] is None and half is None:
        return None
    if minute > 59 or second > 59:
        return None
    hour = hour % 12 + (12 if half == "pm" else 0) if half else hour
    return _of_seconds(hour * 3600 + minute * 60 + second)


def _half_of_day(text: str) -> str | None:
    return _halves().get(fold(text).replace(" ", ""))


@cache
def _halves() -> dict[str, str]:
    """What `am` and `pm` are called in every shipped language (CLDR day periods)."""
    found = {"a": "am", "p": "pm", "am": "am", "pm": "pm"}
    for language in languages.shipped():
        for width in ("wide", "abbreviated", "narrow"):
            periods = languages.locale_of(language).day_periods.get("format", {}).get(width, {})
            for half in ("am", "pm"):
                found.setdefault(fold(str(periods.get(half, half))).replace(" ", ""), half)
    return found


def _sun(text: str, reader: Reader) -> str | None:
    """`sunset`, `sunset-00:30`, `sunset + 20 min`, `30 min before sunset`, in any shipped language."""
    for language in languages.shipped():
        said = catalogue(language).gettext
        for event, named in _SUN.items():
            if fold(text) == fold(said(named)):
                return event
            rest = text[len(said(named)) :] if fold(text).startswith(fold(said(named))) else ""
            match = _OFFSET.fullmatch(rest)
            if match:
                return _with_offset(event, "+" if match[1] == "+" else "-", match[2], reader)
        for (event, sign), sentence in _SUN_SENTENCES.items():
            before, _mark, after = said(sentence).partition("{duration}")
            match = re.fullmatch(f"{re.escape(before)}(.+?){re.escape(after)}", text, re.IGNORECASE)
            if match:
                return _with_offset(event, sign, match[1], reader)
    return None


def _with_offset(event: str, sign: str, span: str, reader: Reader) -> str | None:
    try:
        seconds = read_duration(span, reader)
    except WordsFault:
        return None
    if seconds >= _DAY_S or seconds % 60:
        return None
    return f"{event}{sign}{seconds // 3600:02}:{seconds // 60 % 60:02}" if seconds else event


def is_day(value: object) -> bool:
    """Whether a cell's value is a date, not the beginning of spreadsheet time that stands for a time of day alone."""
    return isinstance(value, date) and value.year >= 1901
