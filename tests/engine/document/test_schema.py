"""The JSON Schema and the reader agree, judged by a general-purpose validator of the standard (JSON Schema 2020-12)."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

import pytest
from hypothesis import given, settings
from jsonschema import Draft202012Validator, FormatChecker

from builders import a_closure, a_document_data, a_program, a_site, a_station, a_supply, a_turn, an_asked
from pengan.engine.document.fields import kind_of
from pengan.engine.document.read import faults_in
from pengan.engine.document.schema import document_schema
from pengan.engine.document.tables import TABLES
from valid_documents import documents

VALIDATOR = Draft202012Validator(document_schema(), format_checker=FormatChecker())


def test_the_schema_itself_fits_the_standard() -> None:
    Draft202012Validator.check_schema(document_schema())


@given(documents())
@settings(max_examples=25)
def test_every_valid_document_fits_the_schema(data: dict[str, Any]) -> None:
    assert list(VALIDATOR.iter_errors(data)) == []


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.table)
def test_every_field_is_described_in_one_line(table: Any) -> None:
    described = document_schema()["$defs"][table.table]["properties"]
    assert described.keys() == {"table", *(item.name for item in fields(table))}
    for item in fields(table):
        about = kind_of(item).about
        assert described[item.name]["description"] == about
        assert about.endswith(".") and "\n" not in about and len(about) <= 100


BROKEN: dict[str, dict[str, Any]] = {
    "text for a number": {"stations": [a_station(flow_lpm="60")]},
    "a flag for a number": {"stations": [a_station(flow_lpm=True)]},
    "beyond the limit": {"stations": [a_station(flow_lpm=60_001)]},
    "below the limit": {"turns": [a_turn(run_s=0)]},
    "half a cycle": {"turns": [a_turn(cycles=1.5)]},
    "missing": {"stations": [a_station(flow_lpm=None)]},
    "empty": {"site": a_site(name="")},
    "blank": {"site": a_site(name=" ")},
    "too long": {"site": a_site(name="a" * 201)},
    "control characters": {"site": a_site(notes="\x00")},
    "no text": {"site": a_site(notes=3)},
    "unknown choice": {"supplies": [a_supply(water="sea")]},
    "unknown field": {"site": a_site(flow=3)},
    "an id with blanks": {"supplies": [a_supply(), a_supply("a b")]},
    "too long an id": {"supplies": [a_supply(), a_supply("a" * 65)]},
    "no clock time": {"programs": [a_program(start="24:01")]},
    "sunset by a day": {"programs": [a_program(start="sunset-13:00")]},
    "no date": {"asked": [an_asked("2026-02-29", station="s1")]},
    "a date of another script": {"asked": [an_asked("2026-٠2-28", station="s1")]},
    "no day of the year": {"programs": [a_program(season_from="02-30", season_to="03-01")]},
    "no moment": {"closures": [a_closure(starts_on="2026-11-25 21:00", ends_on="2026-11-26T21:00")]},
    "no list of weekdays": {"programs": [a_program(days="weekdays", weekdays="mon;tue")]},
    "no list of dates": {"programs": [a_program(days="dates", dates="2027-02-30")]},
}
FINE: dict[str, dict[str, Any]] = {
    "a whole number with a point": {"turns": [a_turn(run_s=600.0)]},
    "null": {"site": a_site(notes=None, finish_by=None, seasonal_pct=None)},
    "midnight at the day's end": {"programs": [a_program(start="24:00")]},
    "seconds": {"programs": [a_program(start="21:30:15")]},
    "lists with blanks": {"programs": [a_program(days="weekdays", weekdays="mon, tue,sun")]},
    "a leap day": {"asked": [an_asked("2028-02-29", station="s1")]},
}


@pytest.mark.parametrize("what", BROKEN)
def test_schema_and_reader_turn_down_the_same_documents(what: str) -> None:
    data = a_document_data(**BROKEN[what])
    assert not VALIDATOR.is_valid(data)
    assert faults_in(data)


@pytest.mark.parametrize("what", FINE)
def test_schema_and_reader_take_the_same_documents(what: str) -> None:
    data = a_document_data(**FINE[what])
    assert VALIDATOR.is_valid(data)
    assert faults_in(data) == ()


@pytest.mark.parametrize("data", [[], {}, {"format": 2, "records": []}, {"format": 1, "records": [{"table": "ponds"}]}])
def test_schema_and_reader_turn_down_what_is_no_document(data: object) -> None:
    assert not VALIDATOR.is_valid(data)
    assert faults_in(data)
