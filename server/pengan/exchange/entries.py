"""Turns the rows of a recognised sheet into records in the making, cell by cell, and keeps where each came from."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from pengan.engine.message import Message
from pengan.words.reader import Reader

from . import sayings
from .grid import Cell, Row
from .headings import Column, Table
from .report import CellFault, Place, Report
from .typed.amounts import Desk, read_amount
from .typed.choices import read_choice, read_days
from .typed.clocks import read_clock
from .typed.dates import read_date, read_dates, read_moment, read_month_day
from .typed.plain import plain, read_text, shown
from .typed.spans import read_span
from .typed.weekdays import read_weekdays


@dataclass(slots=True)
class Entry:
    """A record in the making. `values` can be taken as they are, `references` are still what was typed.

    `faulty` are the fields whose fault is in the report already, so that no later step calls them missing.
    """

    source: Table
    row: int
    table: str
    values: dict[str, object] = field(default_factory=dict)
    references: dict[str, Cell] = field(default_factory=dict)
    faulty: set[str] = field(default_factory=set)

    @property
    def id(self) -> str:
        """The record's id, once it has one."""
        return str(self.values.get("id", ""))

    def place(self, name: str | None) -> Place:
        """Where a field of this record stands in the book."""
        return self.source.place(self.row, name)


def read_entries(table: Table, reader: Reader, report: Report) -> list[Entry]:
    """One entry for each row that fills at least one known column."""
    reading = _Reading(table, reader, report)
    entries = []
    for row in table.rows:
        report.row_read()
        if (entry := reading.entry(row)) is not None:
            entries.append(entry)
    return entries


@dataclass(slots=True)
class _Reading:
    """Reads one sheet. What is wrong with a column as a whole is said once, not for every row."""

    table: Table
    reader: Reader
    report: Report
    _said: set[tuple[str, str]] = field(default_factory=set)

    def entry(self, row: Row) -> Entry | None:
        entry = Entry(self.table, row.number, self.table.table)
        for column in self.table.columns:
            cell = row.at(column.index)
            if not cell.blank:
                self._take(entry, column, cell)
        if not (entry.values or entry.references or entry.faulty):
            return None
        _infer_days(entry)
        return entry

    def _take(self, entry: Entry, column: Column, cell: Cell) -> None:
        try:
            _refuse_formula(cell)
            if column.kind.name == "ref":
                entry.references[column.field] = cell
            else:
                desk = Desk(self.table.table, column, self.reader, self._notes(entry, column))
                entry.values |= {name: value for name, value in read_cell(cell, desk).items() if value != ""}
        except CellFault as fault:
            entry.faulty.add(column.field)
            self._fault(entry, column, fault.message)

    def _fault(self, entry: Entry, column: Column, message: Message) -> None:
        if message.code != sayings.NO_UNIT.code:
            self.report.faults.add(entry.place(column.field), message)
        elif not column.refused and self._first_time(column, message):
            self.report.faults.add(self.table.place(None, column.field), message)

    def _notes(self, entry: Entry, column: Column) -> Callable[[Message], None]:
        def note(message: Message) -> None:
            if message.code != sayings.THOUSANDS.code or self._first_time(column, message):
                self.report.notices.add(entry.place(column.field), message)

        return note

    def _first_time(self, column: Column, message: Message) -> bool:
        known = (column.field, message.code) in self._said
        self._said.add((column.field, message.code))
        return not known


def _refuse_formula(cell: Cell) -> None:
    if cell.formula:
        raise CellFault(sayings.FORMULA())
    if cell.error:
        raise CellFault(sayings.ERROR_CELL(typed=shown(cell)))


def read_cell(cell: Cell, desk: Desk) -> dict[str, object]:
    """The fields a cell sets: its column's, and for a day rule those that belong to it. Raises `CellFault`."""
    special = _BY_FIELD.get(desk.column.field)
    if special is not None:
        return special(cell, desk)
    if desk.column.kind.unit == "s":
        return {desk.column.field: read_span(cell, desk)}
    return {desk.column.field: _BY_KIND[desk.column.kind.name](cell, desk)}


_BY_FIELD: dict[str, Callable[[Cell, Desk], dict[str, object]]] = {
    "days": read_days,
    "weekdays": lambda cell, desk: {"weekdays": read_weekdays(plain(cell), desk.reader)},
    "dates": lambda cell, desk: {"dates": read_dates(cell, desk.reader)},
}
_BY_KIND: dict[str, Callable[[Cell, Desk], object]] = {
    "id": lambda cell, desk: read_text(cell),
    "text": lambda cell, desk: read_text(cell),
    "whole": read_amount,
    "number": read_amount,
    "choice": read_choice,
    "clock": lambda cell, desk: read_clock(cell, desk.reader),
    "date": lambda cell, desk: read_date(cell, desk.reader),
    "month_day": lambda cell, desk: read_month_day(cell, desk.reader),
    "moment": read_moment,
}


def _infer_days(entry: Entry) -> None:
    """Somebody who fills in weekdays, an interval or dates alone means the rule they belong to."""
    if "days" in entry.values or "days" in entry.faulty:
        return
    for name, rule in (("weekdays", "weekdays"), ("every_n_days", "every_n"), ("dates", "dates")):
        if name in entry.values:
            entry.values["days"] = rule
            return
