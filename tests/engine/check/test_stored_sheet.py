"""A stored sheet is held against the document it is said to be of."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from builders import a_closure, a_document, a_station, a_supply
from pengan.engine.check.stored_sheet import sheet_violations
from pengan.engine.plan.night import plan_night

STATIONS = [a_station("s1"), a_station("s2")]
DOCUMENT = a_document(supplies=[a_supply(limit_lpm=100)], stations=STATIONS)
SHEET = plan_night(DOCUMENT, date(2026, 7, 1), effort=2)


def rules(document: object = DOCUMENT, sheet: object = SHEET) -> list[str]:
    return [found.rule for found in sheet_violations(document, sheet)]  # type: ignore[arg-type]


def test_a_sheet_of_its_own_document_is_sound() -> None:
    assert rules() == []


def test_a_sheet_of_an_earlier_document_breaks_what_was_tightened_since() -> None:
    assert rules(a_document(stations=STATIONS, closures=[a_closure(starts="12:00", ends="13:00")])) == ["window"] * 2


def test_a_run_that_was_moved_by_hand_is_found() -> None:
    first, second = SHEET.runs
    moved = replace(second, start=first.start + 1, end=first.end + 1)
    assert rules(sheet=replace(SHEET, runs=(first, moved))) == ["supply_flow"]


def test_a_run_that_is_not_due_or_of_another_length_is_strange() -> None:
    first, second = SHEET.runs
    sheet = replace(SHEET, runs=(replace(first, turn="gone"), replace(second, end=second.end + 1)))
    assert rules(sheet=sheet) == ["sheet_run", "sheet_run"]
