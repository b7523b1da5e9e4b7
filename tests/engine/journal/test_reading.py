"""What is told to the journal: read into an entry, or into every fault it has; the schema agrees."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator, FormatChecker

from pengan.engine.journal.entry import Entry, Found, Kind
from pengan.engine.journal.fields import ALLOWED, FIELDS, MOST_BYTES, MOST_ENTRIES, NEEDED
from pengan.engine.journal.reading import AHEAD_S, EARLIEST, Batch, Known, as_text, read_entry, read_message, told
from pengan.engine.journal.schema import entries_schema, entry_schema

Row = dict[str, Any]
NOW = 1_783_720_800
"""2026-07-10T22:00:00Z."""
KNOWN = Known({"s1", "s2"}, {"town", "north"}, {"cab"})
ENTRY_SCHEMA = Draft202012Validator(entry_schema(), format_checker=FormatChecker())
EXAMPLES: dict[str, object] = {
    "station": "s1", "supply": "north", "controller": "cab", "flow_lpm": 31.5, "count_l": 120_400,
    "alarm": "alarm-0001", "finding": "head", "count": 2, "explained": "work", "text": "by the pond",
}  # fmt: skip


def row(kind: Kind = Kind.OPENED, **fields: Any) -> Row:
    needed = {name: EXAMPLES[name] for name in NEEDED[kind]}
    return {"id": "entry-0001", "at": NOW - 60, "kind": kind.value, **needed, **fields}


def codes(given: object, now: int = NOW) -> list[tuple[str | None, str]]:
    read = read_entry(given, "reporter:r", KNOWN, now)
    assert not isinstance(read, Entry)
    return [(fault.field, fault.message.code) for fault in read]


@pytest.mark.parametrize("kind", Kind)
def test_each_kind_is_read_with_all_it_may_have(kind: Kind) -> None:
    given = row(kind, **{name: EXAMPLES[name] for name in ALLOWED[kind]})
    read = read_entry(given, "person:ana", KNOWN, NOW)
    assert isinstance(read, Entry)
    assert (read.kind, read.by, told(read)) == (kind, "person:ana", given)


@pytest.mark.parametrize("kind", Kind)
def test_each_kind_misses_what_it_has_to_have(kind: Kind) -> None:
    bare = {"id": "entry-0001", "at": NOW, "kind": kind.value}
    if not NEEDED[kind]:
        assert isinstance(read_entry(bare, "x", KNOWN, NOW), Entry)
        return
    assert codes(bare) == [(name, "fault.missing") for name in NEEDED[kind]]
    assert codes({**bare, **dict.fromkeys(NEEDED[kind])}) == codes(bare), "null is as if it were not there"


@pytest.mark.parametrize(
    ("at", "instant"),
    [
        (NOW, NOW),
        ("2026-07-10T22:00:00Z", NOW),
        ("2026-07-10t23:00:00.999+01:00", NOW),
        ("2026-07-10 17:30:00-04:30", NOW),
        (NOW + AHEAD_S, NOW + AHEAD_S),
        (EARLIEST, EARLIEST),
    ],
)
def test_an_instant_is_a_number_of_seconds_or_a_moment_with_its_offset(at: object, instant: int) -> None:
    read = read_entry(row(at=at), "x", KNOWN, NOW)
    assert isinstance(read, Entry) and read.at == instant


@pytest.mark.parametrize(
    ("at", "code"),
    [
        (NOW + AHEAD_S + 1, "journal.from_the_future"),
        (NOW * 1000, "journal.from_the_future"),
        ("9999-12-31T23:59:59Z", "journal.no_instant"),
        (10**400, "journal.from_the_future"),
        (0, "journal.clock_not_set"),
        ("1970-01-01T00:12:00Z", "journal.clock_not_set"),
        ("1999-12-31T23:59:59Z", "journal.clock_not_set"),
        (-5, "journal.clock_not_set"),
        ("2026-07-10T22:00:00", "journal.no_instant"),
        ("20260710T220000Z", "journal.no_instant"),
        ("2026-02-30T22:00:00Z", "journal.no_instant"),
        ("2026-07-10", "journal.no_instant"),
        (float(NOW), "journal.no_instant"),
        (True, "journal.no_instant"),
        ({}, "journal.no_instant"),
    ],
)
def test_a_clock_that_is_wrong_is_no_entry(at: object, code: str) -> None:
    assert codes(row(at=at)) == [("at", code)]


@pytest.mark.parametrize(
    ("given", "fault"),
    [
        (row(Kind.FLOW, flow_lpm=-0.1), ("flow_lpm", "journal.negative_flow")),
        (row(Kind.FLOW, flow_lpm=60_001), ("flow_lpm", "fault.outside_lpm")),
        (row(Kind.FLOW, flow_lpm=float("nan")), ("flow_lpm", "fault.not_number")),
        (row(Kind.FLOW, flow_lpm="12"), ("flow_lpm", "fault.not_number")),
        (row(Kind.FLOW, flow_lpm=True), ("flow_lpm", "fault.not_number")),
        (row(Kind.COUNT, count_l=-1), ("count_l", "fault.outside_bare")),
        (row(station="s9"), ("station", "journal.no_such_station")),
        (row(station=["s1"]), ("station", "journal.no_such_station")),
        (row(Kind.FLOW, supply="s1"), ("supply", "journal.no_such_supply")),
        (row(Kind.ALIVE, controller="CAB"), ("controller", "journal.no_such_controller")),
        (row(Kind.NOTE, text="x" * 2001), ("text", "fault.too_long")),
        (row(Kind.NOTE, text="a\0b"), ("text", "fault.control")),
        (row(Kind.NOTE, text="\ud800"), ("text", "fault.control")),
        (row(Kind.NOTE, text=""), ("text", "fault.missing")),
        (row(Kind.NOTE, text=7), ("text", "fault.not_text")),
        (row(Kind.FINDING, finding="gnome"), ("finding", "fault.not_choice")),
        (row(Kind.FINDING, finding=3), ("finding", "fault.not_choice")),
        (row(Kind.FINDING, count=0), ("count", "fault.outside")),
        (row(Kind.FINDING, count=1.5), ("count", "fault.not_whole")),
        (row(Kind.ALARM_SEEN, alarm="a b"), ("alarm", "journal.not_an_id")),
        (row(id="short"), ("id", "journal.not_an_id")),
        (row(id="entry-0001\n"), ("id", "journal.not_an_id")),
        (row(id="x" * 65), ("id", "journal.not_an_id")),
        (row(id=12345678), ("id", "journal.not_an_id")),
        ({**row(), "kind": "exploded"}, ("kind", "journal.no_such_kind")),
        ({**row(), "kind": []}, ("kind", "journal.no_such_kind")),
        (row(flow_lpm=3), ("flow_lpm", "journal.not_of_kind")),
        (row(colour="red"), ("colour", "fault.unknown_field")),
        (row(by="person:somebody-else"), ("by", "fault.unknown_field")),
        ("opened", (None, "fault.not_object")),
        (None, (None, "fault.not_object")),
    ],
)
def test_what_is_wrong_is_named_with_its_field(given: object, fault: tuple[str | None, str]) -> None:
    assert codes(given) == [fault]


def test_every_fault_is_named_at_once() -> None:
    given = {"id": "x", "at": 0, "kind": "flow", "supply": "sea", "flow_lpm": -3, "count": 2, "extra": 1}
    assert codes(given) == [
        ("id", "journal.not_an_id"),
        ("at", "journal.clock_not_set"),
        ("supply", "journal.no_such_supply"),
        ("flow_lpm", "journal.negative_flow"),
        ("count", "journal.not_of_kind"),
        ("extra", "fault.unknown_field"),
    ]


ANYTHING = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(FIELDS) | st.text(), inner, max_size=6),
)


@given(ANYTHING)
def test_anything_at_all_is_an_entry_or_has_faults(given: object) -> None:
    read = read_entry(given, "x", KNOWN, NOW)
    assert isinstance(read, Entry) or read
    as_text(given).encode("utf-8")


@given(st.binary(max_size=60) | st.text(max_size=60).map(str.encode))
def test_any_bytes_are_a_batch_or_have_faults(text: bytes) -> None:
    read = read_message(text)
    assert isinstance(read, Batch) or read
    as_text(text).encode("utf-8")


def test_a_message_may_hold_so_many_entries_and_no_more() -> None:
    many = json.dumps({"entries": [1] * MOST_ENTRIES, "token": "t"}).encode()
    assert read_message(many) == Batch([1] * MOST_ENTRIES, "t")
    for body, code in (
        (json.dumps({"entries": [1] * (MOST_ENTRIES + 1)}).encode(), "journal.too_many"),
        (b" " * (MOST_BYTES + 1), "journal.too_large"),
        (b'{"entries": [{"id": "entry-0001", "at": 178', "fault.not_json"),
        (b"\x89PNG\r\n\x1a\n", "fault.not_utf8"),
        (b"[]", "fault.not_object"),
        (b"{}", "journal.no_entries"),
        (b'{"entries": {}}', "journal.no_entries"),
        (b'{"entries": [], "token": 7}', "fault.not_text"),
        (b'{"entries": [], "site": "park"}', "fault.unknown_field"),
        (b'{"entries": ' + b"[" * 100_000, "fault.too_deep"),
    ):
        read = read_message(body)
        assert not isinstance(read, Batch) and read[0].message.code == code, body[:60]


def test_the_schema_fits_the_standard() -> None:
    Draft202012Validator.check_schema(entries_schema())


@pytest.mark.parametrize("kind", Kind)
def test_what_is_read_fits_the_schema_and_what_it_says_is_missing_is(kind: Kind) -> None:
    whole = row(kind, **{name: EXAMPLES[name] for name in ALLOWED[kind]})
    assert list(ENTRY_SCHEMA.iter_errors(whole)) == []
    for name in ("id", "at", "kind", *NEEDED[kind]):
        without = {field: value for field, value in whole.items() if field != name}
        for wrong in (without, {**without, name: None}):
            assert list(ENTRY_SCHEMA.iter_errors(wrong)) and codes(wrong)
    for name in set(EXAMPLES) - ALLOWED[kind]:
        assert list(ENTRY_SCHEMA.iter_errors({**whole, name: EXAMPLES[name]}))


def test_what_is_broken_has_the_words_of_a_wet_check() -> None:
    described = entry_schema()["properties"]["finding"]["anyOf"][0]
    assert described == {"enum": [found.value for found in Found]}
