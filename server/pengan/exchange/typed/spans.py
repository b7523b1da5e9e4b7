"""Reads spans of time into seconds: bare figures, `1 h 20`, `0:48`, and the time cells of spreadsheet programs."""

from __future__ import annotations

import re
from datetime import datetime, time, timedelta

from pengan.words.durations import read_duration
from pengan.words.faults import WordsFault

from .. import sayings
from ..grid import Cell
from ..measures import HOURS_MINUTES, HOURS_MINUTES_SECONDS, MINUTES, MINUTES_SECONDS, SECONDS
from ..report import CellFault
from .amounts import Desk, read_amount
from .plain import shown

_COLONS = re.compile(r"(\d{1,4}):(\d{2})(?::(\d{2}))?")
_FIGURE = re.compile(r"[\d.,٫٬'’\s]+")
_SPREADSHEET_DAY_ZERO = datetime(1899, 12, 31)  # ECMA-376 part 1, 18.17.4.1: serial 1 is 1900-01-01


def read_span(cell: Cell, desk: Desk) -> int:
    """Whole seconds. Raises `CellFault`; what could be hours or minutes is a fault, not a guess."""
    value = cell.value
    if isinstance(value, time | timedelta | datetime):
        return _of_time_cell(cell, desk)
    if isinstance(value, str):
        colons = _COLONS.fullmatch(value.strip())
        if colons:
            return _of_colons(colons, cell, desk)
        if not _FIGURE.fullmatch(value.strip()):
            return _of_words(value, cell, desk)
    if desk.column.unit in (HOURS_MINUTES, MINUTES_SECONDS, HOURS_MINUTES_SECONDS):
        raise CellFault(sayings.NOT_A_DURATION(typed=shown(cell)))
    return int(read_amount(cell, desk))


def seconds_of(value: time | timedelta | datetime) -> int:
    """The seconds a time cell stands for; a date far from the beginning of spreadsheet time gives a huge number."""
    if isinstance(value, time):
        value = timedelta(hours=value.hour, minutes=value.minute, seconds=value.second, microseconds=value.microsecond)
    elif isinstance(value, datetime):
        value = value - _SPREADSHEET_DAY_ZERO
    return round(value.total_seconds())


def _of_time_cell(cell: Cell, desk: Desk) -> int:
    """Spreadsheet programs take `12:30` for hours and minutes, whatever was meant: the heading decides."""
    assert isinstance(cell.value, time | timedelta | datetime)
    seconds = seconds_of(cell.value)
    if not 0 <= seconds <= 366 * 86_400:
        raise CellFault(sayings.NOT_A_DURATION(typed=shown(cell)))
    if desk.column.unit is MINUTES_SECONDS and seconds >= 3600 and seconds % 60 == 0:
        return seconds // 60
    if desk.column.unit in (MINUTES, SECONDS) and seconds >= 3600 and seconds % 60 == 0:
        raise CellFault(sayings.UNCLEAR_DURATION(typed=shown(cell)))
    return seconds


def _of_colons(colons: re.Match[str], cell: Cell, desk: Desk) -> int:
    first, second, third = (int(part or 0) for part in colons.groups())
    if second > 59 or third > 59:
        raise CellFault(sayings.NOT_A_DURATION(typed=shown(cell)))
    if colons.group(3) is not None:
        return first * 3600 + second * 60 + third
    if desk.column.unit in (MINUTES, SECONDS):
        raise CellFault(sayings.UNCLEAR_DURATION(typed=shown(cell)))
    return first * 60 + second if desk.column.unit is MINUTES_SECONDS else first * 3600 + second * 60


def _of_words(text: str, cell: Cell, desk: Desk) -> int:
    try:
        return read_duration(text[:60], desk.reader)
    except WordsFault:
        raise CellFault(sayings.NOT_A_DURATION(typed=shown(cell))) from None
