"""Entries for a journal out of a CSV file: what a meter or a controller exports, line by line, not judged yet.

Columns are known by the names of an entry's fields, or by the headings one names. A station may stand there by its
number, it and supplies and controllers by their name, where that is the name of one alone. An instant without an offset
is read on the site's clock: one that comes twice means the first, one that does not exist the moment after the gap. A
line without an id of its own gets one made from all that stands in it, so that a file read twice doubles nothing.
"""

from __future__ import annotations

import csv
import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction

from pengan.engine.clock.instants import Policy
from pengan.engine.clock.zones import SiteClock
from pengan.engine.document.document import Document
from pengan.engine.journal.fields import FIELDS, PLACES, VALUES
from pengan.words.units import BASE_SUFFIXES, QUANTITIES, Unit

from .csv_folder import delimiter_of

NUMBERS = tuple(name for name, kind in VALUES.items() if kind.name in ("number", "whole"))
UNITS: Mapping[str, Mapping[str, Unit]] = {
    name: QUANTITIES[BASE_SUFFIXES[name.rpartition("_")[2]]].units for name in ("flow_lpm", "count_l")
}
"""The units that a field's figures may be in."""


@dataclass(frozen=True, slots=True)
class Mapped:
    """How a file is read: headings by field where they are others, units by field, and what is so in every line."""

    headings: Mapping[str, str]
    units: Mapping[str, str]
    always: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Columns:
    """Which field each column holds (None: it is not read), and the headings of those that are not."""

    fields: tuple[str | None, ...]
    left_out: tuple[str, ...]


Called = Mapping[str, Mapping[str, str]]
"""What people call a site's records, by field, in small letters, with their ids."""


def called(document: Document) -> Called:
    """Numbers and names that are one record's alone. What is an id means that record, whatever others are called."""
    return {field: _called(getattr(document, table)) for field, table in PLACES.items()}


def _called(records: Mapping[str, object]) -> dict[str, str]:
    found: dict[str, set[str]] = {}
    taken = {id.casefold(): id for id in records}
    for id, record in records.items():
        for word in (getattr(record, "number", ""), getattr(record, "name", "")):
            found.setdefault(str(word).strip().casefold(), set()).add(id)
    alone = {word: next(iter(ids)) for word, ids in found.items() if word and len(ids) == 1}
    return {word: id for word, id in alone.items() if taken.get(word, id) == id}


def columns_of(head: list[str], mapped: Mapped) -> Columns:
    """What the columns under these headings hold."""
    known = {name.casefold(): name for name in FIELDS if name not in mapped.headings}
    known |= {heading.strip().casefold(): name for name, heading in mapped.headings.items()}
    fields = tuple(known.get(heading.strip().casefold()) for heading in head)
    return Columns(fields, tuple(heading for heading, name in zip(head, fields, strict=True) if name is None))


def lines_of(text: str) -> Iterator[tuple[int, list[str]]]:
    """The rows that hold something, each with the number of its last line, the headings first. Raises `csv.Error`."""
    reader = csv.reader(text.splitlines(keepends=True), delimiter=delimiter_of(text), strict=True)
    for cells in reader:
        if any(cell.strip() for cell in cells):
            yield reader.line_num, cells


def entry_in(cells: list[str], columns: Columns, mapped: Mapped, clock: SiteClock, names: Called) -> dict[str, object]:
    """The entry in a row, as it would be told in JSON. What cannot be read stays as it stands, and is a fault there."""
    given = {name: cell.strip() for name, cell in zip(columns.fields, cells, strict=False) if name and cell.strip()}
    texts = {**mapped.always, **given}
    entry = {name: _value(name, text, mapped, clock, names) for name, text in texts.items()}
    return {"id": f"csv-{_sum(texts)}", **entry}


def _value(name: str, text: str, mapped: Mapped, clock: SiteClock, names: Called) -> object:
    if name == "at":
        return _instant(text, clock)
    if name in PLACES:
        return names[name].get(text.casefold(), text)
    if name in NUMBERS:
        return _number(text, UNITS[name][mapped.units[name]] if name in mapped.units else None)
    return text[1:] if text[:2] in ("'=", "'+", "'-", "'@") else text


def _instant(text: str, clock: SiteClock) -> object:
    if text.isascii() and text.isdigit():
        return int(text)
    try:
        moment = datetime.fromisoformat(text) if len(text) > len("2026-07-10") else None
    except ValueError:
        moment = None
    if moment is None:
        return text
    return int(moment.timestamp()) if moment.tzinfo else clock.instant(moment.replace(microsecond=0), Policy.COMPATIBLE)


def _number(text: str, unit: Unit | None) -> object:
    plain = text.replace(",", ".") if text.count(",") == 1 and "." not in text else text
    try:
        figure = Fraction(plain) if "/" not in plain else None
    except ValueError:
        figure = None
    if figure is None:
        return text
    base = figure if unit is None else figure * unit.factor + unit.offset
    return int(base) if base.denominator == 1 and abs(base) < 10**15 else float(base)


def _sum(texts: Mapping[str, str]) -> str:
    written = "\n".join(f"{name}={texts[name]}" for name in sorted(texts))
    return hashlib.blake2b(written.encode("utf-8", "replace"), digest_size=16).hexdigest()
