"""Reads an .xlsx book into grids: shown sheets only, formulas seen as formulas, merged rows filled down."""

from __future__ import annotations

import warnings
from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from pathlib import Path
from typing import Any

import openpyxl
from openpyxl.cell.read_only import EMPTY_CELL

from . import sayings
from .archive import look_over
from .grid import BLANK, Cell, Grid, Row
from .merges import Merge, merges_in
from .recognition import is_own
from .report import BookFault, Place, Report
from .rows import bounded

MOST_SHEETS = 100
_VALUES = (str, int, float, bool, datetime, date, time, timedelta)


def read_xlsx(path: Path, report: Report) -> list[Grid]:
    """The shown sheets of a book. Raises `BookFault` where the file as a whole cannot be read."""
    look_over(path)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # openpyxl warns of extensions it drops; none of them holds a cell's value
        return _read(path, report)


def _read(path: Path, report: Report) -> list[Grid]:
    """`openpyxl` meets damaged XML with whatever exception its code runs into, so any of them means damage here."""
    try:
        book = openpyxl.load_workbook(path, read_only=True, data_only=False, keep_links=False)
        try:
            return _grids(book, path, report)
        finally:
            book.close()
    except BookFault:
        raise
    except Exception as error:
        raise BookFault(sayings.DAMAGED_BOOK(path=path.name)) from error


def _grids(book: Any, path: Path, report: Report) -> list[Grid]:
    if len(book.worksheets) > MOST_SHEETS:
        raise BookFault(sayings.MANY_SHEETS(path=path.name, limit_count=MOST_SHEETS))
    grids = []
    for sheet in book.worksheets:
        if sheet.sheet_state == "visible":
            grids.append(_grid(book, sheet, report))
        elif not is_own(sheet.title):
            report.notices.add(Place(sheet.title), sayings.HIDDEN_SHEET())
    return grids


def _grid(book: Any, sheet: Any, report: Report) -> Grid:
    sheet.reset_dimensions()  # what a file says of its own size is often wrong, and can be huge
    rows = tuple(bounded(_cells(sheet), sheet.title, report))
    merges = merges_in(book._archive, sheet._worksheet_path)
    return Grid(sheet.title, _filled_down(rows, merges, sheet.title, report))


def _cells(sheet: Any) -> Iterator[tuple[Cell, ...]]:
    for row in sheet.iter_rows():
        width = len(row)
        while width and row[width - 1].value is None:
            width -= 1
        yield tuple(BLANK if cell is EMPTY_CELL else _cell(cell) for cell in row[:width])


def _cell(cell: Any) -> Cell:
    value = cell.value
    if value is None:
        return Cell(None)
    if cell.data_type == "f" or not isinstance(value, _VALUES):
        return Cell(str(value), formula=True)
    shown_as = (cell.number_format or "").lower()
    return Cell(
        value,
        error=cell.data_type == "e",
        percent=cell.data_type == "n" and "%" in shown_as,
        day_alone=cell.data_type == "d" and "h" not in shown_as,
    )


def _filled_down(rows: tuple[Row, ...], merges: list[Merge], sheet: str, report: Report) -> tuple[Row, ...]:
    """The rows with the value of each merged range in the first column of all its rows."""
    by_number = {row.number: row for row in rows}
    for first_column, first_row, _last_column, last_row in merges:
        source = by_number.get(first_row)
        if source is None or last_row == first_row or source.at(first_column).blank:
            continue
        reference = f"{Place(None, first_row, first_column).cell}:{Place(None, last_row, _last_column).cell}"
        report.notices.add(Place(sheet, first_row), sayings.MERGED(range=reference))
        for number in range(first_row + 1, min(last_row, rows[-1].number) + 1):
            if number in by_number:
                by_number[number] = _with(by_number[number], first_column, source.at(first_column))
    return tuple(by_number.values())


def _with(row: Row, column: int, cell: Cell) -> Row:
    cells = list(row.cells) + [Cell(None)] * (column - len(row.cells))
    cells[column - 1] = cell
    return Row(row.number, tuple(cells))
