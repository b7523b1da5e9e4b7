"""The sheet as JSON: there and back without loss, fulfilling its schema, the same bytes each time."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from jsonschema import Draft202012Validator

from builders import a_closure, a_document, a_program, a_station, a_supply, a_turn, a_window
from pengan.engine.document.read import read_document
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.sheet import NightSheet
from pengan.engine.plan.sheet_json import dumps, loads, sheet_as_json, sheet_from_json, sheet_schema
from valid_documents import documents

JULY = date(2026, 7, 1)


def a_sheet() -> NightSheet:
    """A sheet with something in each of its parts."""
    sheet = plan_night(
        a_document(
            supplies=[a_supply(limit_lpm=115, lead_s=60)],
            stations=[a_station(f"s{n}", flow_lpm=40 + n / 8) for n in range(4)],
            programs=[a_program(start="20:00")],
            turns=[a_turn(station=f"s{n}", run_s=601, cycles=2) for n in range(4)],
            windows=[a_window(opens="21:00", closes="21:25")],
            closures=[a_closure(starts="21:20", ends="21:22")],
        ),
        JULY,
        effort=4,
    )
    return replace(sheet, moved_pct=12.5)


def faults(data: Any) -> list[str]:
    return [fault.json_path for fault in Draft202012Validator(sheet_schema()).iter_errors(data)]


def test_the_schema_is_one() -> None:
    Draft202012Validator.check_schema(sheet_schema())


def test_a_sheet_with_every_part_comes_back_whole() -> None:
    sheet = a_sheet()
    assert sheet.runs and sheet.shortfalls and sheet.draws and sheet.closed and sheet.bound and sheet.notices
    assert loads(dumps(sheet)) == sheet
    assert faults(json.loads(dumps(sheet))) == []


def test_the_text_has_sorted_keys_and_no_spaces() -> None:
    text = dumps(a_sheet())
    assert text == json.dumps(json.loads(text), sort_keys=True, separators=(",", ":"), ensure_ascii=False)


@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(documents())
def test_the_sheet_of_any_document_fulfils_the_schema_and_comes_back(data: dict[str, Any]) -> None:
    sheet = plan_night(read_document(data), JULY, effort=2)
    assert faults(json.loads(dumps(sheet))) == []
    assert loads(dumps(sheet)) == sheet


@pytest.mark.parametrize(
    ("field", "value"), [("night", "1 July"), ("runs", [{}]), ("volume_l", "12"), ("starts_local", "2026-07-01T12:00")]
)
def test_the_schema_refuses_what_is_no_sheet(field: str, value: object) -> None:
    assert faults({**sheet_as_json(a_sheet()), field: value})


def test_the_schema_refuses_what_it_does_not_know() -> None:
    assert faults({**sheet_as_json(a_sheet()), "weather": "fine"})


def test_another_format_is_refused() -> None:
    with pytest.raises(ValueError, match="format 2"):
        sheet_from_json({**sheet_as_json(a_sheet()), "format": 2})
