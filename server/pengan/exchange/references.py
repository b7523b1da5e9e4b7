"""Finds the record that a cell names: by number, name, letter or id, as it was typed or near enough."""

from __future__ import annotations

from collections.abc import Iterable

from pengan.words.reader import Reader

from . import sayings
from .entries import Entry
from .folding import fold
from .grid import Cell
from .naming import kinds, title
from .report import CellFault, Report
from .typed.plain import plain, read_text
from .vocabulary import SHEETS

_NAMES = ("number", "name", "letter", "id")
_SHOWN_ROWS = 5


class Directory:
    """Every record of a book that another can name."""

    def __init__(self, entries: Iterable[Entry]) -> None:
        self._exact: dict[tuple[str, str], dict[str, Entry]] = {}
        self._folded: dict[tuple[str, str], dict[str, Entry]] = {}
        for entry in entries:
            for name in _names_of(entry):
                self._exact.setdefault((entry.table, name), {}).setdefault(entry.id, entry)
                self._folded.setdefault((entry.table, fold(name)), {}).setdefault(entry.id, entry)

    def found(self, table: str, typed: str) -> list[Entry]:
        """The records that a text can mean: written just so, or else but for case, accents and spaces."""
        exact = self._exact.get((table, typed.strip()))
        return list((exact or self._folded.get((table, fold(typed)), {})).values())


def _names_of(entry: Entry) -> list[str]:
    names = [str(entry.values[name]) for name in _NAMES if name in entry.values]
    if "number" in entry.values and "name" in entry.values:
        names.append(f"{entry.values['number']} {entry.values['name']}")
    return names


def resolve(entry: Entry, directory: Directory, reader: Reader, report: Report) -> None:
    """Put ids in place of what was typed, or faults in the report."""
    for name, cell in entry.references.items():
        try:
            entry.values[name] = _id_of(cell, str(kinds(entry.table)[name].table), directory, reader)
        except CellFault as fault:
            entry.faulty.add(name)
            report.faults.add(entry.place(name), fault.message)


def _id_of(cell: Cell, table: str, directory: Directory, reader: Reader) -> str:
    typed = read_text(cell)
    found = directory.found(table, typed)
    if len(found) == 1:
        return found[0].id
    sheet = title(SHEETS[table], reader)
    if not found:
        raise CellFault(sayings.UNKNOWN_REFERENCE(typed=plain(cell)[:60], sheet=sheet))
    rows = ", ".join(str(entry.row) for entry in found[:_SHOWN_ROWS])
    raise CellFault(sayings.UNCLEAR_REFERENCE(typed=typed[:60], sheet=sheet, rows=rows))
