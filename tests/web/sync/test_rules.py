"""Checking a change by its neighbourhood finds what checking the whole document finds."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from builders import a_closure, a_controller, a_document_data, a_program, a_site, a_station, a_supply, a_turn, a_window
from pengan.engine.document.read import faults_in
from pengan.engine.document.tables import FORMAT
from pengan.web.sync.groups import FIELDS, GROUPS, normal, parts, record_values, value_in, with_parts
from pengan.web.sync.rules import Draft, faults_of
from pengan.web.sync.working import Held, Working, as_record

SITE = "site"
IDS = {
    "site": [SITE],
    "supplies": ["town", "north", "far"],
    "controllers": ["c1", "c2"],
    "stations": ["s1", "s2", "s3", "s9"],
    "programs": ["p1", "p2"],
    "turns": ["p1.s1", "p1.s2", "p2.s3", "t9"],
    "windows": ["w1"],
    "closures": ["k1"],
}
VALUES: list[Any] = [
    None, "", "s1", "s2", " S3 ", "town", "north", "far", "c1", "c2", "p1", "nowhere", "21:30", "sunset", "weekdays",
    "every_n", "mon,tue", "Europe/Lisbon", "2026-07-01", 0, 1, 5, 60, 900, -5, 10**7, 37.5, True, [1], {"a": 1},
]  # fmt: skip


def working() -> Working:
    """A small site in which everything hangs together."""
    data = a_document_data(
        site=a_site(SITE),
        supplies=[a_supply(), a_supply("north", fed_by="town", limit_lpm=400), a_supply("far", fed_by="north")],
        controllers=[a_controller(), a_controller("c2", max_current_ma=900)],
        stations=[
            a_station("s1", controller="c1"),
            a_station("s2", controller="c2", current_ma=300),
            a_station("s3", supply="far"),
        ],
        programs=[a_program("p1", start="sunset"), a_program("p2", days="weekdays", weekdays="mon")],
        turns=[a_turn("p1", "s1"), a_turn("p1", "s2"), a_turn("p2", "s3")],
        windows=[a_window(station="s3")],
        closures=[a_closure(program="p2")],
    )
    assert faults_in(data) == ()
    made = Working(SITE, "epoch")
    for order, record in enumerate(data["records"]):
        made.put((record["table"], record["id"]), Held(record_values(record["table"], record), order=order))
    return made


@st.composite
def changes(draw: st.DrawFn) -> list[tuple[str, str, str, Any]]:
    """Some fields set, records removed or added."""
    found = []
    for _ in range(draw(st.integers(1, 4))):
        table = draw(st.sampled_from(sorted(IDS)))
        kind = draw(st.sampled_from(["set", "set", "set", "remove", "add"]))
        field = draw(st.sampled_from(sorted(FIELDS[table])))
        found.append((kind, table, draw(st.sampled_from(IDS[table])), (field, draw(st.sampled_from(VALUES)))))
    return found


def laid_over(draft: Draft, wanted: list[tuple[str, str, str, Any]]) -> None:
    for kind, table, id, (field, value) in wanted:
        held = draft.get((table, id))
        if held is None:
            if kind == "add":
                new = {"name": id, "number": id, "supply": "town", "flow_lpm": 5, "program": "p1", "station": "s1"}
                known = {
                    name: item for name, item in {**new, "run_s": 60, field: value}.items() if name in FIELDS[table]
                }
                draft.put((table, id), Held(record_values(table, known), order=99))
        elif kind == "remove":
            draft.put((table, id), held.marked(True))
        else:
            draft.put(
                (table, id), held.raised(field, values=with_parts(held.values, {field: normal(table, field, value)}))
            )


def whole(draft: Draft) -> dict[str, Any]:
    keys = dict.fromkeys([*draft.work.records, *draft.changed])
    live = [(key, held) for key in keys if (held := draft.live(key)) is not None]
    records = [as_record(key, held.values) for key, held in sorted(live, key=lambda item: item[1].order)]
    return {"format": FORMAT, "records": records}


def told(faults: tuple[Any, ...]) -> list[tuple[Any, ...]]:
    return sorted((fault.table, str(fault.record), str(fault.field), fault.message.code) for fault in faults)


@settings(max_examples=600)
@given(changes())
@example([("set", "site", SITE, ("latitude_deg", None)), ("set", "site", SITE, ("longitude_deg", None))])
@example([("remove", "stations", "s3", ("name", "")), ("remove", "windows", "w1", ("name", ""))])
def test_the_neighbourhood_of_a_change_has_the_faults_of_the_whole(wanted: list[tuple[str, str, str, Any]]) -> None:
    draft = Draft(working())
    laid_over(draft, wanted)
    assert told(faults_of(draft)) == told(faults_in(whole(draft)))


def test_one_edit_is_not_judged_by_reading_the_whole_site(monkeypatch: pytest.MonkeyPatch) -> None:
    work = working()
    draft = Draft(work)
    draft.put(("stations", "s1"), work.records["stations", "s1"].raised("name", values={"name": "Gate"}))
    asked: list[Any] = []
    real = Working.read
    monkeypatch.setattr(Working, "read", lambda self, key, values: asked.append(key) or real(self, key, values))
    faults_of(draft)
    assert set(asked) <= {("site", SITE), ("stations", "s1"), ("supplies", "town"), ("controllers", "c1")}


@pytest.mark.parametrize("table", sorted(GROUPS))
def test_every_field_belongs_to_one_group(table: str) -> None:
    named = [name for group in GROUPS[table].values() for name in group]
    assert sorted(named) == sorted(FIELDS[table])


def test_a_groups_value_is_an_object_and_a_fields_value_is_plain() -> None:
    values = {"run_s": 600, "cycles": 2}
    assert value_in("turns", "run", values) == {"run_s": 600, "cycles": 2, "soak_s": None}
    assert parts("turns", "run", {"run_s": 600.0, "cycles": 1}) == {"run_s": 600, "cycles": None, "soak_s": None}
    assert parts("turns", "run", {"rank": 1}) is None
    assert parts("turns", "rank", 1) == {"rank": 1}
