"""Reads lists of weekdays: `Mon, Wed`, `lun mié`, `Mon-Fri`, and letters such as `MWF` where each means one day."""

from __future__ import annotations

import re
from functools import cache

from pengan.words import languages
from pengan.words.reader import N_, Reader

from .. import sayings
from ..folding import fold
from ..naming import names_in
from ..report import CellFault

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_AND = N_("and")
_RANGE = re.compile(r"\s*[-–—]\s*")
_GAP = re.compile(r"[\s,;/+&.·|]+")


def read_weekdays(text: str, reader: Reader) -> str:
    """The days as the document writes them, Monday first. Raises `CellFault`."""
    days: set[int] = set()
    for part in _GAP.split(_RANGE.sub("-", text.strip()[:200])):
        if part and fold(part) not in _joiners():
            days |= _days_of(part, text, reader)
    if not days:
        raise _fault(text, reader)
    return ",".join(WEEKDAYS[day] for day in sorted(days))


def _days_of(part: str, text: str, reader: Reader) -> set[int]:
    first, dash, last = part.partition("-")
    if dash:
        return _span(_day(first, text, reader), _day(last, text, reader))
    found = _named(fold(part), reader.language)
    if len(found) == 1:
        return found
    return _letters(part, text, reader)


def _span(first: int, last: int) -> set[int]:
    """From one day to another, over the turn of the week where need be."""
    return {(first + step) % 7 for step in range((last - first) % 7 + 1)}


def _day(part: str, text: str, reader: Reader) -> int:
    found = _named(fold(part), reader.language) or _letters(part, text, reader)
    if len(found) != 1:
        raise CellFault(sayings.UNCLEAR_WEEKDAY(part=part, typed=text.strip()[:60]))
    return next(iter(found))


def _named(part: str, language: str) -> set[int]:
    """The days a word can mean: by name, or by the beginning of one day's name, the book's own language first."""
    if not part:
        return set()
    for names in (_names(language), *(_names(other) for other in languages.shipped())):
        exact = {day for name, day in names if name == part}
        begun = {day for name, day in names if len(part) >= 2 and name.startswith(part)}
        if exact or begun:
            return exact or begun
    return set()


@cache
def _names(language: str) -> tuple[tuple[str, int], ...]:
    days = languages.locale_of(language).days
    return tuple(
        (fold(str(name)), day)
        for use in ("format", "stand-alone")
        for width in ("wide", "abbreviated", "short")
        for day, name in days[use].get(width, {}).items()
    )


def _letters(part: str, text: str, reader: Reader) -> set[int]:
    """A word made of the single letters calendars use, each of which must stand for one day."""
    narrow = languages.locale_of(reader.language).days["stand-alone"]["narrow"]
    found: set[int] = set()
    for letter in fold(part):
        meant = {day for day, name in narrow.items() if fold(str(name)) == letter}
        if not meant or len(part) > 7:
            raise _fault(text, reader)
        if len(meant) > 1:
            raise CellFault(sayings.UNCLEAR_WEEKDAY(part=letter.upper(), typed=text.strip()[:60]))
        found |= meant
    return found


@cache
def _joiners() -> frozenset[str]:
    return frozenset(fold(name) for language in languages.shipped() for name in names_in(_AND, language))


def short_names(reader: Reader) -> list[str]:
    """The days' short names in the reader's language, Monday first."""
    days = languages.locale_of(reader.language).days["format"]["abbreviated"]
    return [str(days[day]) for day in range(7)]


def _fault(text: str, reader: Reader) -> CellFault:
    short = short_names(reader)
    return CellFault(sayings.NOT_WEEKDAYS(typed=text.strip()[:60], example=f"{short[0]}, {short[2]}"))
