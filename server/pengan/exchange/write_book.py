"""Writes a site's document, or none, as a book that people fill in: headings with units, notes, drop-down lists."""

from __future__ import annotations

from dataclasses import fields
from pathlib import Path
from typing import Any

from openpyxl import Workbook
from openpyxl.comments import Comment
from openpyxl.styles import Alignment, Font, PatternFill
from openpyxl.utils import get_column_letter
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.worksheet import Worksheet

from pengan.engine.document.document import Document
from pengan.engine.document.tables import TABLES, DayRule, Scope
from pengan.engine.document.write import write_document
from pengan.words.reader import Reader

from .filled import Writing, number_format
from .grid import MOST_ROWS
from .guide import guide_lines
from .measures import column_unit, heading
from .naming import BY_NAME, kinds, title
from .notes import note
from .vocabulary import GUIDE, LISTS, SHEETS, choice_names, field_names

_HEADING_FONT = Font(bold=True)
_HEADING_FILL = PatternFill("solid", fgColor="DCE8EE")
_REQUIRED_FILL = PatternFill("solid", fgColor="B9D3E0")
_NOTE_WIDTH, _NOTE_LINE = 320, 34
_FIRST = ("number", "name", "letter")
_SHOWN_BY = {"stations": "number"}


def write_template(path: Path, language: str, units: str) -> None:
    """An empty book, its headings in the language and with the units of the set."""
    _write(None, path, Reader(language, units))


def write_book(document: Document, path: Path, language: str, units: str) -> None:
    """The whole document as a book. Imported again it gives the same document: a last column keeps the ids."""
    _write(document, path, Reader(language, units))


def _write(document: Document | None, path: Path, reader: Reader) -> None:
    book = Workbook()
    guide = book.active
    assert isinstance(guide, Worksheet)
    _write_guide(guide, reader)
    lists = book.create_sheet(title(LISTS, reader))
    lists.sheet_state = "hidden"
    records: Any = write_document(document)["records"] if document else []
    writing = Writing(records, reader)
    for table in TABLES:
        sheet = book.create_sheet(_sheet_name(table.table, reader), index=len(book.worksheets) - 1)
        names = _columns(table.table, ids=document is not None)
        _write_headings(sheet, table.table, names, reader)
        _write_rows(sheet, table.table, names, writing)
        _offer_lists(book, sheet, table.table, names, lists, reader)
    book.save(path)


def _sheet_name(table: str, reader: Reader) -> str:
    return title(SHEETS[table], reader)[:31]


def _columns(table: str, *, ids: bool) -> list[str]:
    """The fields in the order of the sheet: what rows are called, the table's own, day rules and scope, notes.

    The id is last, and in no template.
    """
    names = [name for name in kinds(table) if name not in ("id", "notes")]
    shared = {item.name for item in fields(Scope)} if issubclass(BY_NAME[table], DayRule) else set()
    ordered = sorted(names, key=lambda name: (name not in _FIRST, name in shared))
    notes = ["notes"] if "notes" in kinds(table) else []
    return ordered + notes + (["id"] if ids else [])


def _write_guide(sheet: Worksheet, reader: Reader) -> None:
    sheet.title = title(GUIDE, reader)[:31]
    sheet.column_dimensions["A"].width = 100
    for number, line in enumerate(guide_lines(reader), start=1):
        cell = sheet.cell(number, 1, line)
        cell.alignment = Alignment(wrap_text=True, vertical="top")
        cell.font = Font(bold=number == 1, size=14 if number == 1 else 11)
    sheet.sheet_view.rightToLeft = reader.direction == "rtl"


def _write_headings(sheet: Worksheet, table: str, names: list[str], reader: Reader) -> None:
    for index, name in enumerate(names, start=1):
        kind = kinds(table)[name]
        text = heading(title(field_names(table, name), reader), column_unit(kind, name, reader), reader)
        cell = sheet.cell(1, index, text)
        cell.font, cell.fill = _HEADING_FONT, _REQUIRED_FILL if kind.required and name != "id" else _HEADING_FILL
        cell.alignment = Alignment(wrap_text=True, vertical="top")
        told = note(name, kind, reader)
        if told:
            cell.comment = Comment(told, "Pengan", width=_NOTE_WIDTH, height=_NOTE_LINE * (told.count("\n") + 2))
        column = sheet.column_dimensions[get_column_letter(index)]
        column.width = max(12, min(32, len(text) + 3))
        column.number_format = number_format(kind, name, reader)
        column.hidden = name == "id"
    sheet.freeze_panes = "A2"
    sheet.sheet_view.rightToLeft = reader.direction == "rtl"


def _write_rows(sheet: Worksheet, table: str, names: list[str], writing: Writing) -> None:
    for number, record in enumerate(writing.records_of(table), start=2):
        for index, name in enumerate(names, start=1):
            value = writing.value(table, name, record.get(name))
            if value is None:
                continue
            cell = sheet.cell(number, index)
            cell.number_format = number_format(kinds(table)[name], name, writing.reader)
            cell.value = value
            if isinstance(value, str):
                cell.data_type = "s"  # text that begins with “=” is text, whatever it says


def _offer_lists(
    book: Workbook, sheet: Worksheet, table: str, names: list[str], lists: Worksheet, reader: Reader
) -> None:
    """Drop-down lists for choices and for the rows of other sheets. They warn of other words but do not refuse them."""
    for index, name in enumerate(names, start=1):
        kind = kinds(table)[name]
        if kind.choices:
            source = _choices(book, lists, table, name, reader)
        elif kind.table:
            source = _rows_of(kind.table, reader)
        else:
            continue
        rule = DataValidation("list", formula1=source, allow_blank=True, showErrorMessage=True, errorStyle="warning")
        letter = get_column_letter(index)
        rule.add(f"{letter}2:{letter}{MOST_ROWS + 1}")
        sheet.add_data_validation(rule)


def _choices(book: Workbook, lists: Worksheet, table: str, name: str, reader: Reader) -> str:
    """The choices' names in a column of the hidden sheet: written into the rule itself they could hold no commas."""
    label = f"choices_{table}_{name}"
    column = 1 if lists["A1"].value is None else lists.max_column + 1
    choices = kinds(table)[name].choices
    lists.cell(1, column, label)
    for row, choice in enumerate(choices, start=2):
        lists.cell(row, column, title(choice_names(name, choice), reader))
    letter = get_column_letter(column)
    reference = f"{_quoted(lists.title)}!${letter}$2:${letter}${len(choices) + 1}"
    book.defined_names[label] = DefinedName(label, attr_text=reference)
    return label


def _rows_of(table: str, reader: Reader) -> str:
    """The column of a sheet that people call its rows by."""
    letter = get_column_letter(_columns(table, ids=False).index(_SHOWN_BY.get(table, "name")) + 1)
    return f"{_quoted(_sheet_name(table, reader))}!${letter}$2:${letter}${MOST_ROWS + 1}"


def _quoted(sheet: str) -> str:
    return "'" + sheet.replace("'", "''") + "'"
