"""Reads a word out of a fixed list, and day rules with what belongs to them."""

from __future__ import annotations

import re
from functools import cache

from pengan.words import languages
from pengan.words.loading import catalogue
from pengan.words.reader import N_, Reader

from .. import sayings
from ..folding import fold
from ..grid import Cell
from ..naming import choice_meanings, kinds, meaning_of, titles
from ..report import CellFault
from ..vocabulary import choice_names
from .amounts import Desk
from .plain import plain, shown
from .weekdays import read_weekdays

_EVERY_N = N_("every {n} days")


def read_choice(cell: Cell, desk: Desk) -> str:
    """The code of the choice that the cell names in any shipped language. Raises `CellFault`."""
    field = desk.column.field
    found = meaning_of(plain(cell), choice_meanings(desk.table, field), desk.reader.language)
    if len(found) == 1:
        return found[0]
    names = titles((choice_names(field, choice) for choice in kinds(desk.table)[field].choices), desk.reader)
    saying = sayings.UNCLEAR_CHOICE if found else sayings.UNKNOWN_CHOICE
    raise CellFault(saying(typed=shown(cell), names=names))


def read_days(cell: Cell, desk: Desk) -> dict[str, object]:
    """The fields a cell of the column of day rules sets: a rule's name, `every 3 days`, or a list of weekdays."""
    try:
        return {"days": read_choice(cell, desk)}
    except CellFault as fault:
        every = _every_n(plain(cell))
        if every is not None:
            return {"days": "every_n", "every_n_days": every}
        return {"days": "weekdays", "weekdays": _weekdays_or(fault, plain(cell), desk.reader)}


def _weekdays_or(fault: CellFault, text: str, reader: Reader) -> str:
    """Weekdays; where it is no list of weekdays at all, the first fault says more."""
    try:
        return read_weekdays(text, reader)
    except CellFault as second:
        unclear = second.message.code == sayings.UNCLEAR_WEEKDAY.code
        raise second if unclear else fault from None


def _every_n(text: str) -> int | None:
    match = next((match for pattern in _every_n_patterns() if (match := pattern.fullmatch(fold(text)))), None)
    return int(match[1]) if match else None


@cache
def _every_n_patterns() -> tuple[re.Pattern[str], ...]:
    said = [catalogue(language).gettext(_EVERY_N).partition("{n}") for language in languages.shipped()]
    return tuple(_around_number(fold(before), fold(after)) for before, _mark, after in said)


def _around_number(before: str, after: str) -> re.Pattern[str]:
    return re.compile(rf"{re.escape(before)}\s*(\d{{1,3}})\s*{re.escape(after)}")
