"""The same site and night give the same sheet, byte for byte, on every interpreter and on the phone.

The sheets kept in `fixtures/golden/sheets` are a contract. Where a change of the planner is meant to change them,
`python tests/golden` writes them anew, and the change shows in the history.
"""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import Any
from zipfile import ZipFile

import pytest
from jsonschema import Draft202012Validator

from golden.engine_zip import pack_engine
from golden.interpreters import interpreters
from golden.nights import EFFORT, NIGHTS, GoldenNight
from golden.work_out import in_cpython, in_pyodide
from golden.write_sheets import sheets
from pengan.engine.document.read import read_document
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.sheet_json import dumps, sheet_from_json, sheet_schema

INTERPRETERS = interpreters()


def kept() -> list[str]:
    return [night.sheet.read_text(encoding="utf-8").rstrip("\n") for night in NIGHTS]


def named(night: GoldenNight) -> str:
    return night.sheet.stem


def differing(texts: list[str]) -> list[str]:
    """The nights whose sheet is not the one kept."""
    return [named(night) for night, text, golden in zip(NIGHTS, texts, kept(), strict=True) if text != golden]


@pytest.fixture(scope="module")
def zipped(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return pack_engine(tmp_path_factory.mktemp("engine") / "engine.zip")


@pytest.mark.parametrize("night", NIGHTS, ids=named)
def test_this_python_gives_the_golden_sheet(night: GoldenNight) -> None:
    (text,) = sheets(EFFORT, [f"{night.site}={night.day}"])
    assert differing([text if other == night else golden for other, golden in zip(NIGHTS, kept(), strict=True)]) == []


@pytest.mark.parametrize("version", INTERPRETERS)
def test_every_cpython_here_gives_the_same_bytes(version: str, zipped: Path, tmp_path: Path) -> None:
    """Each runs with random string hashes and sees the packed engine only."""
    with ZipFile(zipped) as packed:
        packed.extractall(tmp_path)
    assert differing(in_cpython(INTERPRETERS[version], tmp_path)) == []


def test_pyodide_gives_the_same_bytes(zipped: Path) -> None:
    assert differing(in_pyodide(zipped)) == []


@pytest.mark.parametrize("night", NIGHTS, ids=named)
def test_a_golden_sheet_fits_the_schema_and_comes_back_as_it_was(night: GoldenNight) -> None:
    text = night.sheet.read_text(encoding="utf-8").rstrip("\n")
    data = json.loads(text)
    assert list(Draft202012Validator(sheet_schema()).iter_errors(data)) == []
    assert dumps(sheet_from_json(data)) == text


def test_golden_nights_show_what_they_are_kept_for() -> None:
    """A short night, a long one, half-hour ones, shortfalls, water as late as it can be, minutes by need, a drought."""
    by_name = {named(night): json.loads(night.sheet.read_text(encoding="utf-8")) for night in NIGHTS}
    hours = {name: (sheet["ends"] - sheet["starts"]) / 3600 for name, sheet in by_name.items()}
    assert hours["demo-2026-07-14"] == 24
    assert hours["demo-2026-10-24"] == hours["own-rule-2026-10-24"] == 25
    assert hours["demo-2027-03-27"] == 23
    assert hours["half-hour-change-2026-10-03"] == 23.5
    assert hours["half-hour-change-2027-04-03"] == 24.5
    assert len(by_name["too-much-2026-08-14"]["shortfalls"]) >= 4
    assert by_name["own-rule-2026-10-24"]["finish"] is not None
    by_need = by_name["by-need-2026-07-10"]
    assert {run["station"]: run["end"] - run["start"] for run in by_need["runs"]}["s5"] == 420, "set by hand"
    assert {run["end"] - run["start"] for run in by_need["runs"] if run["station"] != "s5"}.isdisjoint({900})
    assert {notice["code"] for notice in by_need["notices"]} == {"need.no_hydrozone"}


def test_the_drought_rule_decides_a_golden_night() -> None:
    """The border has 60 percent of its need for this night alone, and runs for as much less as the rule says."""
    night = next(night for night in NIGHTS if named(night) == "by-need-2026-07-19")
    data = json.loads(night.site.read_text(encoding="utf-8"))
    for rule in data["records"]:
        if rule["table"] == "droughts":
            rule["starts"] = rule["ends"] = night.day
    shared = _open_s(data, night.day, "s4")
    for rule in data["records"]:
        if rule["table"] == "droughts":
            rule["share_pct"] = 100
    assert shared == pytest.approx(0.6 * _open_s(data, night.day, "s4"), abs=2)
    assert _open_s(json.loads(night.site.read_text(encoding="utf-8")), night.day, "s4") > 0


def _open_s(data: dict[str, Any], day: str, station: str) -> int:
    """Seconds of water that a station gets in a night."""
    sheet = plan_night(read_document(data), date.fromisoformat(day), effort=1)
    return sum(run.end - run.start for run in sheet.runs if run.station == station)
