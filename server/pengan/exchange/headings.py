"""Finds a sheet's row of headings and which field, in which unit, each column holds."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from pengan.engine.document.fields import Kind
from pengan.words.reader import Reader
from pengan.words.units import Unit

from . import sayings
from .folding import fold
from .grid import Cell, Grid, Row
from .measures import base_unit, column_unit, heading, named_unit
from .naming import field_meanings, kinds, meaning_of, title, titles
from .report import Place, Report
from .vocabulary import field_names

LOOKED_AT = 30
_LONGEST = 120
_BRACKETED = re.compile(r"(.*?)[(\[](.*)[)\]]\s*[*:]?\s*")
_GAP = re.compile(r"[\s,;:–—·-]+")


@dataclass(frozen=True, slots=True)
class Column:
    """A recognised column: where it is, what it holds, and the unit its heading names, if it names one.

    `refused` is set where it names one that is none for the field; the report says so already.
    """

    index: int
    heading: str
    field: str
    kind: Kind
    unit: Unit | None
    refused: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A sheet that was recognised: what it holds, its columns, and its rows below the headings."""

    table: str
    sheet: str
    headings_row: int
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    others: tuple[tuple[int, str], ...] = ()
    """Columns that are no field of the table: index and heading."""

    def column(self, field: str) -> Column | None:
        """The column of a field."""
        return next((column for column in self.columns if column.field == field), None)

    def place(self, row: int | None, field: str | None) -> Place:
        """Where a field of a row stands; the row alone where the sheet has no such column."""
        column = self.column(field) if field else None
        return Place(self.sheet, row, column.index, column.heading) if column else Place(self.sheet, row)


def splits(text: str) -> Iterator[tuple[str, str, bool]]:
    """Ways to read a heading as a name and a unit: with what stands in brackets, then whole, then cut at each gap.

    The last part says whether the unit stood in brackets.
    """
    text = text[:_LONGEST].strip().rstrip("*:").strip()
    bracketed = _BRACKETED.fullmatch(text)
    if bracketed:
        yield bracketed[1].strip(), bracketed[2].strip(), True
    yield text, "", False
    for gap in reversed(list(_GAP.finditer(text))):
        yield text[: gap.start()], text[gap.end() :], False


def read_headings(grid: Grid, table: str, reader: Reader, report: Report) -> Table | None:
    """The sheet with its columns recognised, or None (and a fault) if it has no row of headings."""
    at = _headings_row(grid, table, reader)
    if at is None:
        if grid.rows:
            names = titles((field_names(table, field) for field in kinds(table)), reader)
            report.faults.add(Place(grid.name), sayings.NO_HEADINGS(row_count=LOOKED_AT, names=names))
        return None
    row = grid.rows[at]
    columns, others = _columns(row, table, grid.name, reader, report)
    below = grid.rows[at + 1 :]
    _remark_bare_columns(row, below, grid.name, report)
    return Table(table, grid.name, row.number, columns, below, others)


def _headings_row(grid: Grid, table: str, reader: Reader) -> int | None:
    """The row, among the first, with the most headings that are known; two at least, or one that stands alone."""
    best, best_score = None, 0
    for at, row in enumerate(grid.rows[:LOOKED_AT]):
        filled = [cell for cell in row.cells if not cell.blank]
        known = sum(1 for cell in filled if isinstance(cell.value, str) and fields_of(cell.value, table, reader))
        if known > best_score and (known >= 2 or len(filled) == 1):
            best, best_score = at, known
    return best


def fields_of(text: str, table: str, reader: Reader) -> list[tuple[str, Unit | None, str]]:
    """What a heading can mean: field, unit, and a unit's name that is none for this field. Empty for nothing."""
    for name, named, bracketed in splits(text):
        found = meaning_of(name, field_meanings(table), reader.language)
        read = [_read_as(field, table, name, named, reader) for field in found]
        sound = [each for each in read if not each[2]]
        if sound or (read and bracketed):
            return sound or read
    return []


def _read_as(field: str, table: str, name: str, named: str, reader: Reader) -> tuple[str, Unit | None, str]:
    return field, *_unit_of(field, table, name, named, reader)


def _unit_of(field: str, table: str, name: str, named: str, reader: Reader) -> tuple[Unit | None, str]:
    """The unit, and the unit's name where it is none for the field."""
    kind = kinds(table)[field]
    if not named:
        whole_is_code = fold(name) == fold(field)
        unit = base_unit(kind) if whole_is_code else named_unit(kind, name, reader)
        return unit, ""
    unit = named_unit(kind, named, reader)
    return unit, ("" if unit else named)


def _columns(
    row: Row, table: str, sheet: str, reader: Reader, report: Report
) -> tuple[tuple[Column, ...], tuple[tuple[int, str], ...]]:
    """The columns of fields, each field once; and the headings that are none."""
    claimed: dict[str, Column] = {}
    others: list[tuple[int, str]] = []
    for index, cell in enumerate(row.cells, start=1):
        if cell.blank:
            continue
        column = _column(index, cell, table, sheet, reader, report)
        if column is None:
            others.append((index, str(cell.value).strip()))
        elif column.field in claimed:
            shown = title(field_names(table, column.field), reader)
            message = sayings.TWO_COLUMNS(first=claimed[column.field].heading, second=column.heading, field=shown)
            report.faults.add(Place(sheet, row.number, index, column.heading), message)
        else:
            claimed[column.field] = column
    return tuple(claimed.values()), tuple(others)


def _column(index: int, cell: Cell, table: str, sheet: str, reader: Reader, report: Report) -> Column | None:
    text = str(cell.value).strip()
    found = fields_of(text, table, reader) if isinstance(cell.value, str) else []
    if not found:
        return None
    place = Place(sheet, None, index, text)
    if len(found) > 1:
        names = titles((field_names(table, field) for field, _unit, _wrong in found), reader)
        report.faults.add(place, sayings.UNCLEAR_COLUMN(heading=text, names=names))
    field, unit, wrong = found[0]
    kind = kinds(table)[field]
    refused = bool(wrong) and base_unit(kind) is not None
    if refused:
        report.faults.add(place, sayings.WRONG_UNIT(unit=wrong, **example_of(table, field, reader)))
    return Column(index, text, field, kind, unit, refused)


def example_of(table: str, field: str, reader: Reader) -> dict[str, str]:
    """The field's title and a heading that would do, for sayings."""
    shown = title(field_names(table, field), reader)
    return {"field": shown, "example": heading(shown, column_unit(kinds(table)[field], field, reader), reader)}


def _remark_bare_columns(row: Row, below: tuple[Row, ...], sheet: str, report: Report) -> None:
    """Say which columns have cells but no heading."""
    widest = max((len(each.cells) for each in below), default=0)
    for index in range(1, widest + 1):
        if row.at(index).blank and any(not each.at(index).blank for each in below):
            report.notices.add(Place(sheet, None, index), sayings.NO_HEADING())
