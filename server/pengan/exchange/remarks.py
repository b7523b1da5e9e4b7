"""Puts faults and notices of a book into sentences, each with its place."""

from __future__ import annotations

from pengan.engine.message import Message, Saying
from pengan.words.names import Names
from pengan.words.reader import Reader
from pengan.words.say import say

from . import sayings
from .report import Place, Remark, Remarks


def told(remark: Remark, reader: Reader, names: Names | None = None) -> str:
    """One remark as a line: `Sheet Stations, row 7, column D (Flow): …`."""
    text = say(remark.message, reader, names)
    place = _where(remark.place)
    return text if place is None else say(sayings.REMARK(place=say(place, reader), text=text), reader)


def lines(remarks: Remarks, reader: Reader, names: Names | None = None) -> list[str]:
    """All remarks that were kept, and how many more there are."""
    told_lines = [told(remark, reader, names) for remark in remarks.kept]
    if remarks.left_out:
        told_lines.append(say(sayings.MORE(more_count=remarks.left_out), reader))
    return told_lines


def _where(place: Place) -> Message | None:
    if place.sheet is None:
        return None
    if place.row is not None and place.letter is not None:
        return _with_heading(sayings.AT_CELL, sayings.AT_HEADING_CELL, place, row=str(place.row))
    if place.row is not None:
        return _row(place)
    if place.letter is not None:
        return _with_heading(sayings.AT_COLUMN, sayings.AT_HEADING, place)
    return sayings.AT_SHEET(sheet=place.sheet)


def _row(place: Place) -> Message:
    """A row, and the field in it that the sheet has no column for."""
    if place.heading is None:
        return sayings.AT_ROW(sheet=place.sheet, row=str(place.row))
    return sayings.AT_ROW_WITHOUT(sheet=place.sheet, row=str(place.row), heading=place.heading)


def _with_heading(plain: Saying, headed: Saying, place: Place, **row: str) -> Message:
    if place.heading is None:
        return plain(sheet=place.sheet, column=place.letter, **row)
    return headed(sheet=place.sheet, column=place.letter, heading=place.heading[:60], **row)
