"""A meter's CSV file becomes entries: columns by name, units, the site's clock, ids that make twice once."""

from __future__ import annotations

from typing import Any

import pytest

from pengan.engine.clock.zones import zone_clock
from pengan.exchange.journal_csv import PLACES, Mapped, columns_of, entry_in, lines_of

LISBON = zone_clock("Europe/Lisbon")
NOBODY: dict[str, dict[str, str]] = {field: {} for field in PLACES}
"""A site of whose records only ids are known."""
Row = dict[str, Any]


def read(text: str, **mapped: dict[str, str]) -> list[Row]:
    how = Mapped(mapped.get("headings", {}), mapped.get("units", {}), mapped.get("always", {}))
    (_number, head), *lines = lines_of(text)
    columns = columns_of(head, how)
    return [entry_in(cells, columns, how, LISBON, NOBODY) for _line, cells in lines]


def test_columns_are_known_by_the_names_of_fields() -> None:
    text = "id,at,kind,supply,flow_lpm,text\nentry-0001,1783720800,flow,north,31.5,\n"
    assert read(text) == [{"id": "entry-0001", "at": 1783720800, "kind": "flow", "supply": "north", "flow_lpm": 31.5}]


def test_headings_units_and_what_is_so_in_every_line_are_named() -> None:
    """1.5 m³ is 1500 L; a comma may mark the decimals."""
    text = "Zeit;Zählerstand\n2026-07-10 22:00;1,5\n2026-07-10 23:00;2\n"
    found = read(
        text,
        headings={"at": "zeit", "count_l": "Zählerstand"},
        units={"count_l": "m3"},
        always={"kind": "count", "supply": "town"},
    )
    assert [(one["at"], one["count_l"], one["kind"], one["supply"]) for one in found] == [
        (1783717200, 1500, "count", "town"),
        (1783720800, 2000, "count", "town"),
    ]


@pytest.mark.parametrize(
    ("text", "instant"),
    [
        ("2026-07-10T23:00:00+01:00", 1783720800),
        ("2026-07-10T22:00Z", 1783720800),
        ("2026-07-10 23:00:00.75", 1783720800),
        ("2026-10-25 01:30", 1792888200),
        ("2026-03-29 01:30", 1774747800),
        ("2026-07-10", "2026-07-10"),
        ("yesterday", "yesterday"),
    ],
)
def test_an_instant_without_its_offset_is_on_the_sites_clock(text: str, instant: object) -> None:
    """Lisbon's clock goes back on 25 October 2026 at 2:00 and forward on 29 March at 1:00 (Directive 2000/84/EC)."""
    assert read(f"at\n{text}\n")[0]["at"] == instant


def test_a_line_read_twice_has_the_same_id_and_another_line_another() -> None:
    text = "at,kind,text\n1783720800,note,Wet\n1783720800,note,Dry\n"
    one, other = read(text)
    assert [one, other] == read(text)
    assert one["id"] != other["id"] and one["id"].startswith("csv-") and len(one["id"]) <= 64


def test_what_cannot_be_read_stays_as_it_is_to_be_named_as_a_fault() -> None:
    found = read("at,count_l,flow_lpm\nsoon,1/2,n/a\n", units={"count_l": "m3"})
    assert {name: value for name, value in found[0].items() if name != "id"} == {
        "at": "soon", "count_l": "1/2", "flow_lpm": "n/a",
    }  # fmt: skip


def test_other_columns_are_told_and_empty_lines_passed_over() -> None:
    columns = columns_of(["at", "Colour", "KIND "], Mapped({}, {}, {}))
    assert (columns.fields, columns.left_out) == (("at", None, "kind"), ("Colour",))
    assert read("at,kind\n\n1783720800,lifted\n,\n\n")[0]["kind"] == "lifted"


def test_a_text_that_was_kept_from_being_a_formula_is_itself_again() -> None:
    assert read("at,text\n1,'=1+1\n")[0]["text"] == "=1+1"
