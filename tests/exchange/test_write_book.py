"""A document written as a book and imported again is the same document; a template is a book with nothing in it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook

from exchange.made_books import faults, imported, notices, sound
from pengan.engine.document.document import Document
from pengan.engine.document.read import read_document
from pengan.engine.document.tables import TABLES
from pengan.engine.document.write import write_document
from pengan.exchange.import_book import import_book
from pengan.exchange.write_book import write_book, write_template
from pengan.words import languages
from pengan.words.reader import UNIT_SETS
from valid_documents import documents

DEMO = Path(__file__).parents[2] / "fixtures" / "demo" / "site.json"


def _demo() -> Any:
    return read_document(json.loads(DEMO.read_text(encoding="utf-8")))


@pytest.mark.parametrize("language", languages.shipped())
@pytest.mark.parametrize("units", UNIT_SETS)
def test_the_demo_site_comes_back_as_it_went(tmp_path: Path, language: str, units: str) -> None:
    document = _demo()
    write_book(document, tmp_path / "book.xlsx", language, units)
    result = import_book(tmp_path / "book.xlsx", units=units)
    assert faults(result) == [] and notices(result) == []
    assert result.language == language
    assert write_document(read_document(result.data)) == write_document(document)


def test_text_that_looks_like_a_formula_or_an_error_stays_text(tmp_path: Path) -> None:
    data = imported(tmp_path, sound()).data
    records: Any = data["records"]
    records[0] |= {"name": "=1+1", "notes": "#N/A"}
    document = read_document(data)
    write_book(document, tmp_path / "again.xlsx", "en", "metric")
    result = import_book(tmp_path / "again.xlsx")
    assert faults(result) == []
    assert read_document(result.data).site == document.site


def test_two_records_of_one_name_are_told_apart_by_something_else(tmp_path: Path) -> None:
    data = imported(tmp_path, sound()).data
    records: Any = data["records"]
    records += [{"table": "controllers", "id": "other", "name": "Cabinet 1"}]
    document = read_document(data)
    write_book(document, tmp_path / "again.xlsx", "en", "metric")
    result = import_book(tmp_path / "again.xlsx")
    assert faults(result) == []
    assert read_document(result.data).stations == document.stations


@pytest.mark.parametrize("language", languages.shipped())
@pytest.mark.parametrize("units", UNIT_SETS)
def test_a_template_has_every_sheet_with_headings_notes_and_lists(tmp_path: Path, language: str, units: str) -> None:
    write_template(tmp_path / "empty.xlsx", language, units)
    book = load_workbook(tmp_path / "empty.xlsx")
    assert len(book.worksheets) == len(TABLES) + 2
    for sheet in book.worksheets[1:-1]:
        assert sheet.freeze_panes == "A2" and sheet.max_row == 1
        assert all(cell.value for cell in sheet[1])
    stations = book.worksheets[5]
    assert {str(rule.formula1).partition("!")[2] for rule in stations.data_validations.dataValidation} >= {
        "$A$2:$A$20001"
    }
    assert any(cell.comment for cell in stations[1])
    assert book.worksheets[-1].sheet_state == "hidden"


def test_an_empty_template_lacks_nothing_but_the_site(tmp_path: Path) -> None:
    write_template(tmp_path / "empty.xlsx", "en", "us")
    assert faults(import_book(tmp_path / "empty.xlsx")) == [("fault.no_site", None, "")]


@settings(max_examples=25)
@given(data=documents(), language=st.sampled_from(languages.shipped()), units=st.sampled_from(UNIT_SETS))
def test_any_valid_document_comes_back_from_its_book(
    tmp_path_factory: pytest.TempPathFactory, data: dict[str, Any], language: str, units: str
) -> None:
    """But for space around names, the order of weekdays, and what lies beyond the ninth digit."""
    document = read_document(data)
    path = tmp_path_factory.mktemp("any") / "book.xlsx"
    write_book(document, path, language, units)
    result = import_book(path, language, units)
    assert faults(result) == []
    assert _plain(read_document(result.data)) == _plain(document)


def _plain(document: Document) -> list[dict[str, Any]]:
    records: Any = write_document(document)["records"]
    return [{name: _plain_value(name, value) for name, value in record.items()} for record in records]


def _plain_value(name: str, value: Any) -> Any:
    if name == "weekdays":
        return sorted(value.split(","))
    return float(f"{value:.9g}") if isinstance(value, float) else value.strip() if isinstance(value, str) else value
