"""Reads a sheet that holds one record upright: names in a column, values beside them, as is common for a site."""

from __future__ import annotations

from dataclasses import replace

from pengan.words.reader import Reader

from .grid import Cell, Grid, Row
from .headings import LOOKED_AT, fields_of
from .report import Place, Report


def turned(grid: Grid, table: str, reader: Reader) -> tuple[Grid, dict[int, tuple[int, int]]] | None:
    """The sheet laid flat, and for each of its columns the row and column where the value stands.

    None where more headings stand in one row than in one column, or fewer than two in a column.
    """
    rows = grid.rows[:LOOKED_AT]
    widest = max((len(row.cells) for row in rows), default=0)
    known = {at: sum(_known(row.at(at), table, reader) for row in rows) for at in range(1, min(widest, 5) + 1)}
    best = max(known, key=lambda at: (known[at], -at), default=0)
    flat = max((sum(_known(cell, table, reader) for cell in row.cells) for row in rows), default=0)
    if not best or known[best] < 2 or known[best] <= flat:
        return None
    named = [row for row in rows if not row.at(best).blank]
    headings = Row(1, tuple(row.at(best) for row in named))
    values = Row(2, tuple(row.at(best + 1) for row in named))
    spots = {at: (row.number, best + 1) for at, row in enumerate(named, start=1)}
    return Grid(grid.name, (headings, values)), spots


def _known(cell: Cell, table: str, reader: Reader) -> bool:
    return isinstance(cell.value, str) and bool(fields_of(cell.value, table, reader))


def put_back(report: Report, sheet: str, spots: dict[int, tuple[int, int]]) -> None:
    """Let what the report says of a sheet that was laid flat speak of the sheet as it stands in the book."""
    for remarks in (report.faults, report.notices):
        remarks.kept = [
            replace(remark, place=_as_it_stands(remark.place, spots)) if remark.place.sheet == sheet else remark
            for remark in remarks.kept
        ]


def _as_it_stands(place: Place, spots: dict[int, tuple[int, int]]) -> Place:
    if place.column is None:
        return replace(place, row=None, heading=None) if place.heading is None else replace(place, row=1)
    row, column = spots[place.column]
    return replace(place, row=row, column=column)
