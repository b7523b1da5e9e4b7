"""Makes small books for tests: a sound one to change, and files from plain rows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from copy import deepcopy
from pathlib import Path
from typing import Any

from openpyxl import Workbook

from pengan.exchange.import_book import Imported, import_book
from pengan.exchange.report import Remark

Rows = Sequence[Any]
"""Rows of cells."""

SOUND: dict[str, list[list[Any]]] = {
    "Site": [["Name", "Time zone"], ["Test garden", "Europe/Lisbon"]],
    "Supplies": [["Name", "Fed by", "Flow limit (L/min)"], ["Well", None, 200], ["Main", "Well", 120]],
    "Controllers": [["Name", "Max open"], ["Cabinet 1", 3]],
    "Stations": [
        ["Number", "Name", "Supply", "Controller", "Flow (L/min)"],
        [1, "Lawn", "Main", "Cabinet 1", 40],
        [2, "Beds", "Main", "Cabinet 1", 25.5],
    ],
    "Programs": [["Name", "Letter", "Start", "Days"], ["Nightly", "A", "22:00", "daily"]],
    "Turns": [["Program", "Station", "Run time (min)"], ["A", 1, 20], ["Nightly", 2, 12.5]],
}


def sound(**changed: Rows | None) -> dict[str, Rows]:
    """The sound book with some sheets changed, added, or (None) left out."""
    sheets: dict[str, Rows] = {**deepcopy(SOUND)}
    for name, rows in changed.items():
        if rows is None:
            sheets.pop(name)
        else:
            sheets[name] = rows
    return sheets


def xlsx(path: Path, sheets: Mapping[str, Rows]) -> Path:
    """A book of these sheets."""
    book = Workbook()
    book.remove(book.worksheets[0])
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(list(row))
    book.save(path)
    return path


def imported(path: Path, sheets: Mapping[str, Rows], language: str | None = None, units: str = "metric") -> Imported:
    """What comes of a book of these sheets."""
    return import_book(xlsx(path / "book.xlsx", sheets), language, units)


def faults(result: Imported) -> list[tuple[str, str | None, str]]:
    """Code, sheet and cell (or column or row) of each fault."""
    return [_short(remark) for remark in result.report.faults.kept]


def notices(result: Imported) -> list[tuple[str, str | None, str]]:
    """Code, sheet and cell (or column or row) of each notice."""
    return [_short(remark) for remark in result.report.notices.kept]


def _short(remark: Remark) -> tuple[str, str | None, str]:
    place = remark.place
    return remark.message.code, place.sheet, place.cell or place.letter or str(place.row or "")


def records(result: Imported, table: str) -> list[dict[str, Any]]:
    """The records of a table."""
    found: Any = result.data["records"]
    return [record for record in found if record["table"] == table]
