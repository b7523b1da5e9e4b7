"""Whatever is handed in, the reader says what is wrong with it and never breaks."""

from __future__ import annotations

import math
from dataclasses import fields
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pengan.engine.document.fault import DocumentFaults
from pengan.engine.document.read import faults_in, read_document
from pengan.engine.document.tables import TABLES
from pengan.words import say
from valid_documents import documents

FIELDS = sorted({item.name for table in TABLES for item in fields(table)})
ODD = ("sunset", "2026-02-30", "mon,mon", "24:00", "\x00", "\ud800", "s0", "u0", "UTC", "WET0WEST", 10**400)
SCALARS = st.none() | st.booleans() | st.integers() | st.floats() | st.text() | st.sampled_from(ODD)
JSON = st.recursive(SCALARS, lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(), inner, max_size=4))
ROWS = st.builds(
    lambda table, row: {"table": table, **row},
    st.sampled_from([table.table for table in TABLES]),
    st.dictionaries(st.sampled_from(FIELDS), JSON, max_size=8),
)


@given(JSON | st.fixed_dictionaries({"format": st.just(1), "records": st.lists(ROWS | JSON, max_size=6)}))
@settings(max_examples=150)
def test_any_json_at_all_is_read_or_faulted_in_words(data: Any) -> None:
    faults = faults_in(data)
    for fault in faults:
        assert say(fault.message)
    if not faults:
        read_document(data)


@given(documents(), st.data())
@settings(max_examples=60)
def test_a_valid_document_with_one_field_spoilt_is_read_or_faulted_in_words(data: dict[str, Any], draw: Any) -> None:
    row = draw.draw(st.sampled_from(data["records"]))
    row[draw.draw(st.sampled_from([*row, *FIELDS]))] = draw.draw(JSON)
    faults = faults_in(data)
    for fault in faults:
        assert say(fault.message)
    if faults:
        with pytest.raises(DocumentFaults) as raised:
            read_document(data)
        assert raised.value.faults == faults
    else:
        read_document(data)


def test_nesting_beyond_all_reason_is_a_fault() -> None:
    deep: list[Any] = []
    for _ in range(200_000):
        deep = [deep]
    data = {"format": 1, "records": [{"table": "site", "id": "s", "name": deep, "zone": "UTC"}, deep]}
    assert [fault.message.code for fault in faults_in(data)] == ["fault.not_text", "fault.not_object"]
    while deep:
        deep = deep.pop()  # taken apart by hand: CPython 3.11 recurses when it frees


@pytest.mark.parametrize("given_value", [math.nan, math.inf, -math.inf, True, "12", [12], {}])
def test_what_is_not_a_finite_number_is_no_flow(given_value: object) -> None:
    row = {"table": "supplies", "id": "u", "name": "U", "limit_lpm": given_value}
    site = {"table": "site", "id": "s", "name": "S", "zone": "UTC"}
    (fault,) = faults_in({"format": 1, "records": [site, row]})
    assert (fault.table, fault.record, fault.field, fault.message.code) == (
        "supplies",
        "u",
        "limit_lpm",
        "fault.not_number",
    )
