"""Puts a document's values into cells as this reader's spreadsheet shows them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date, datetime, time

from pengan.engine.document.fields import Kind
from pengan.words.moments import write_clock
from pengan.words.quantities import figure_in
from pengan.words.reader import Reader

from .entries import Entry
from .headings import Table
from .measures import base_unit, column_unit
from .naming import kinds, title
from .references import Directory
from .typed.weekdays import WEEKDAYS, short_names
from .vocabulary import choice_names

CellValue = str | int | float | date | datetime | time | None
_TEXT = "@"
_FORMATS = {"date": "yyyy-mm-dd", "moment": "yyyy-mm-dd hh:mm", "clock": "hh:mm"}
_FIGURES = ("whole", "number")
_LABELS = ("number", "name", "letter", "id")
_DIGITS = 12
_TWELVE_DIGITS = f".{_DIGITS}g"


def number_format(kind: Kind, name: str, reader: Reader) -> str:
    """How cells of a column are shown. What is text stays text, however much it looks like a number or a date."""
    if kind.name not in _FIGURES:
        return _FORMATS.get(kind.name, _TEXT)
    unit = column_unit(kind, name, reader)
    return (
        "0"
        if unit is None and kind.name == "whole"
        else "General"
        if unit is None or unit.places == 0
        else _places(unit.places)
    )


def _places(places: int) -> str:
    return "0." + "0" * min(places, 6)


class Writing:
    """A document's records on their way into cells for one reader."""

    def __init__(self, records: Iterable[Mapping[str, object]], reader: Reader) -> None:
        self.reader = reader
        self._by_table: dict[str, dict[str, Mapping[str, object]]] = {}
        for record in records:
            self._by_table.setdefault(str(record["table"]), {})[str(record["id"])] = record
        entries = [_entry(record) for table in self._by_table.values() for record in table.values()]
        self._directory = Directory(entries)

    def records_of(self, table: str) -> Iterable[Mapping[str, object]]:
        """The records of a table, in document order."""
        return self._by_table.get(table, {}).values()

    def value(self, table: str, name: str, value: object) -> CellValue:
        """What goes into the cell; None for nothing."""
        if value is None or value == "":
            return None
        kind = kinds(table)[name]
        if isinstance(value, int | float):
            return self._figure(kind, name, value)
        text = str(value)
        if kind.name == "ref":
            return self._label(str(kind.table), text)
        if kind.name == "choice":
            return title(choice_names(name, text), self.reader)
        if name == "weekdays":
            return ", ".join(short_names(self.reader)[WEEKDAYS.index(day.strip())] for day in text.split(","))
        return _timed(kind, text, self.reader)

    def _figure(self, kind: Kind, name: str, value: int | float) -> int | float:
        unit = column_unit(kind, name, self.reader)
        if unit is None or unit is base_unit(kind):
            return value
        figure = float(format(float(figure_in(unit, value)), _TWELVE_DIGITS))
        return int(figure) if figure.is_integer() else figure

    def _label(self, table: str, record: str) -> str:
        """The shortest thing people call a record by that means this record and no other."""
        fields = self._by_table[table][record]
        for name in _LABELS:
            label = str(fields.get(name, ""))
            found = self._directory.found(table, label) if label else []
            if [entry.id for entry in found] == [record]:
                return label
        return record


def _entry(record: Mapping[str, object]) -> Entry:
    table = str(record["table"])
    return Entry(Table(table, table, 1, (), ()), 0, table, dict(record))


def _timed(kind: Kind, text: str, reader: Reader) -> CellValue:
    if kind.name == "date":
        return date.fromisoformat(text)
    if kind.name == "moment":
        return datetime.fromisoformat(text)
    if kind.name == "clock" and text.startswith("sun"):
        return write_clock(text, reader)
    if kind.name == "clock" and not text.startswith("24"):
        return time.fromisoformat(text)
    return text
