"""Takes the rows of a sheet within bounds: a book of a million rows costs no more than one of twenty thousand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from . import sayings
from .grid import MOST_BLANK_ROWS, MOST_COLUMNS, MOST_ROWS, Cell, Row
from .report import Place, Report


def bounded(rows: Iterable[tuple[Cell, ...]], sheet: str, report: Report) -> Iterator[Row]:
    """The rows that hold something, numbered from 1, until a bound is met; the report says which one was."""
    filled = blank = 0
    for number, cells in enumerate(rows, start=1):
        report.row_read()
        if all(cell.blank for cell in cells):
            blank += 1
            if blank > MOST_BLANK_ROWS:
                report.notices.add(Place(sheet, number), sayings.BLANK_BELOW(row_count=MOST_BLANK_ROWS))
                return
            continue
        filled, blank = filled + 1, 0
        if filled > MOST_ROWS:
            report.faults.add(Place(sheet, number), sayings.TOO_MANY_ROWS(row_count=MOST_ROWS))
            return
        if any(not cell.blank for cell in cells[MOST_COLUMNS:]):
            report.faults.add(Place(sheet, number), sayings.TOO_MANY_COLUMNS(column_count=MOST_COLUMNS))
            return
        yield Row(number, cells[:MOST_COLUMNS])
