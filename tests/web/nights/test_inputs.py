"""The fingerprint of a night: where it stays the same, the sheet does; where only words change, it stays the same."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from datetime import date
from typing import Any

import pytest

from pengan.engine.document.fault import DocumentFaults
from pengan.engine.document.read import read_document
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.sheet_json import dumps
from pengan.web.nights.inputs import SILENT, NightInputs

NIGHTS = (date(2026, 7, 14), date(2026, 10, 24))


def prints(data: Any) -> list[str]:
    inputs = NightInputs(read_document(data), "1 2026a")
    return [inputs.of(night) for night in NIGHTS]


def sheets(data: Any) -> list[str]:
    document = read_document(data)
    return [dumps(plan_night(document, night, effort=1)) for night in NIGHTS]


def one_field_changed(data: dict[str, Any]) -> Iterator[tuple[str, str, dict[str, Any]]]:
    """For each field of each table, the document with that field of its first record another one, where it may be."""
    seen = set()
    for place, record in enumerate(data["records"]):
        for field, value in record.items():
            if field in ("id", "table") or (record["table"], field) in seen:
                continue
            seen.add((record["table"], field))
            other = copy.deepcopy(data)
            other["records"][place][field] = changed(value)
            yield record["table"], field, other


def changed(value: object) -> object:
    if isinstance(value, int | float) and not isinstance(value, bool):
        return value + 1
    clock = isinstance(value, str) and value[:5].count(":") == 1
    return "22:10" if clock else f"{value} too"


def test_where_the_fingerprint_stays_so_does_the_sheet(demo_data: dict[str, Any]) -> None:
    """Every field of the demo site, changed alone."""
    before, planned, tried, kept = prints(demo_data), sheets(demo_data), 0, set()
    for table, field, other in one_field_changed(demo_data):
        try:
            after = prints(other)
        except DocumentFaults:
            continue
        tried += 1
        same = [night for night in range(len(NIGHTS)) if before[night] == after[night]]
        if same:
            kept.add((table, field))
            again = sheets(other)
            assert [again[night] for night in same] == [planned[night] for night in same], (table, field)
    assert tried > 30
    assert {("stations", "name"), ("supplies", "name"), ("programs", "name")} <= kept
    assert not {("stations", "flow_lpm"), ("supplies", "limit_lpm"), ("site", "seasonal_pct")} & kept


@pytest.mark.parametrize("field", sorted(SILENT & {"name", "notes"}))
def test_words_change_no_fingerprint(demo_data: dict[str, Any], field: str) -> None:
    other = copy.deepcopy(demo_data)
    for record in other["records"]:
        if field in record:
            record[field] = f"{record[field]} too"
    assert prints(other) == prints(demo_data)


def test_another_planner_is_another_fingerprint(demo_data: dict[str, Any]) -> None:
    document = read_document(demo_data)
    assert NightInputs(document, "1 2026a").of(NIGHTS[0]) != NightInputs(document, "1 2026b").of(NIGHTS[0])
