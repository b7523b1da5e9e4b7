"""Names in books: every field has some in every language, and none means two things in one place."""

from __future__ import annotations

import pytest

from pengan.engine.document.tables import TABLES
from pengan.exchange.folding import fold
from pengan.exchange.headings import fields_of
from pengan.exchange.measures import column_unit, heading
from pengan.exchange.naming import choice_meanings, field_meanings, kinds, names_in, sheet_meanings, title
from pengan.exchange.vocabulary import SHEETS, choice_names, field_names
from pengan.words import languages
from pengan.words.reader import UNIT_SETS, Reader

_TABLES = [table.table for table in TABLES]


def test_every_table_has_a_sheet() -> None:
    assert list(SHEETS) == _TABLES


@pytest.mark.parametrize("table", _TABLES)
def test_no_name_of_a_column_means_two_fields(table: str) -> None:
    assert {name: set(found) for name, found in field_meanings(table).items() if len(found) > 1} == {}


@pytest.mark.parametrize("table", _TABLES)
def test_no_name_of_a_choice_means_two_choices(table: str) -> None:
    for field, kind in kinds(table).items():
        if kind.choices:
            assert {name: set(f) for name, f in choice_meanings(table, field).items() if len(f) > 1} == {}


def test_no_name_of_a_sheet_means_two_tables() -> None:
    assert {name: set(found) for name, found in sheet_meanings().items() if len(found) > 1} == {}


@pytest.mark.parametrize("language", languages.shipped())
def test_sheet_titles_fit_into_a_spreadsheet(language: str) -> None:
    """Spreadsheet programs take 31 characters and none of []:*?/\\."""
    for listed in SHEETS.values():
        name = title(listed, Reader(language))
        assert 0 < len(name) <= 31 and not set(name) & set("[]:*?/\\")


@pytest.mark.parametrize("language", languages.shipped())
@pytest.mark.parametrize("units", UNIT_SETS)
def test_every_heading_of_the_template_is_read_as_its_own_field_and_unit(language: str, units: str) -> None:
    reader = Reader(language, units)
    for table in _TABLES:
        for field, kind in kinds(table).items():
            unit = column_unit(kind, field, reader)
            written = heading(title(field_names(table, field), reader), unit, reader)
            assert fields_of(written, table, reader) == [(field, unit, "")], written


@pytest.mark.parametrize("language", languages.shipped())
def test_every_name_of_every_column_is_understood(language: str) -> None:
    reader = Reader(language)
    for table in _TABLES:
        for field in kinds(table):
            for name in names_in(field_names(table, field), language):
                assert [found[0] for found in fields_of(name, table, reader)] == [field], name


def test_every_choice_has_a_name_of_its_own() -> None:
    for table in _TABLES:
        for field, kind in kinds(table).items():
            named = [title(choice_names(field, choice), Reader()) for choice in kind.choices]
            assert len(set(named)) == len(named)


@pytest.mark.parametrize(("typed", "folded"), [("  CAUDAL_límite ", "caudal limite"), ("N.º", "n o"), ("m³/h", "m3 h")])
def test_folding_keeps_letters_and_figures_alone(typed: str, folded: str) -> None:
    assert fold(typed) == folded
