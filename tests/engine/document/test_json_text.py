"""Text that is no JSON (RFC 8259) is one clear fault, never a crash."""

from __future__ import annotations

import json

import pytest

from pengan.engine.document.fault import DocumentFaults
from pengan.engine.document.json_text import data_in
from pengan.words import say

BAD = {
    b"": "fault.not_json",
    b"{": "fault.not_json",
    b'{"format": 1,}': "fault.not_json",
    b"[1, NaN]": "fault.not_finite",
    b'{"a": -Infinity}': "fault.not_finite",
    b'{"a": 1, "a": 2}': "fault.name_twice",
    b'"\xff"': "fault.not_utf8",
    b"[" * 1_000_000: "fault.too_deep",
    b'{"a":' * 300_000: "fault.too_deep",
    b"1" * 10_000: "fault.too_long_number",
    json.dumps("a").encode("utf-16"): "fault.not_utf8",
}


@pytest.mark.parametrize("text", BAD, ids=[f"{code} {text[:12]!r}" for text, code in BAD.items()])
def test_bad_text_is_one_fault(text: bytes) -> None:
    with pytest.raises(DocumentFaults) as raised:
        data_in(text)
    (fault,) = raised.value.faults
    assert fault.message.code == BAD[text]
    assert say(fault.message)


def test_the_place_where_reading_stops_is_named() -> None:
    with pytest.raises(DocumentFaults) as raised:
        data_in('{"format": 1,\n "records": [}')
    assert say(raised.value.faults[0].message) == "This file is not JSON: reading stops at line 2, column 14."


def test_a_byte_order_mark_is_passed_over() -> None:
    assert data_in(b'\xef\xbb\xbf{"a": [1, 2.5, "\xc3\xa9", null, true]}') == {"a": [1, 2.5, "é", None, True]}
