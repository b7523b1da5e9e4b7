"""`pengan night`, `pengan ahead` and `pengan why` on a document, through the real planner."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from jsonschema import Draft202012Validator

import builders as made
from pengan.cli import main
from pengan.engine.plan.sheet_json import sheet_schema

DAY = "2026-11-25"


@pytest.fixture
def site(tmp_path: Path) -> str:
    """Two stations that cannot run together, and one that no supply can feed."""
    data = made.a_document_data(
        supplies=[made.a_supply("town", name="Main North", limit_lpm=100)],
        stations=[
            made.a_station("s1", number="N14", name="Palm walk", part="North", supply="town", flow_lpm=80),
            made.a_station("s2", number="E2", name="Rose bed", part="East", supply="town", flow_lpm=60),
            made.a_station("s3", number="E3", name="Great lawn", part="East", supply="town", flow_lpm=120),
        ],
        programs=[made.a_program("p1", name="Evening", letter="A", start="23:42", order="listed")],
        turns=[
            made.a_turn("p1", "s1", run_s=720, position=1),
            made.a_turn("p1", "s2", run_s=600, position=2),
            made.a_turn("p1", "s3", run_s=600, position=3),
        ],
    )
    path = tmp_path / "site.json"
    path.write_text(json.dumps(data), encoding="utf-8")
    return str(path)


def run(*arguments: str) -> Result:
    """One call in British English; what is raised inside is raised here."""
    environ = {"PENGAN_LANGUAGE": "en-GB", "PENGAN_UNITS": None, "PENGAN_HOURS": None}
    return CliRunner().invoke(main, arguments, env=environ, catch_exceptions=False)


def test_a_night_is_printed_next_water_first(site: str) -> None:
    lines = run("night", site, "--now", f"{DAY}T22:00").output.splitlines()
    assert lines[3] == "Next water 23:42, N14 Palm walk, North."
    assert "2.8 m³ short" not in lines[3]
    assert any(line.startswith("  E3 Great lawn: 1.2 m³ short. Alone it takes 120 L/min;") for line in lines)


def test_the_night_meant_is_the_one_that_now_belongs_to(site: str) -> None:
    assert "night of Wednesday, 25 November 2026" in run("night", site, "--now", "2026-11-26T03:00").output
    assert "night of Thursday, 26 November 2026" in run("night", site, "--now", "2026-11-26T13:00").output


def test_now_may_carry_an_offset(site: str) -> None:
    assert "night of Tuesday, 24 November" in run("night", site, "--now", "2026-11-25T12:30+01:00").output


def test_the_sheet_is_printed_as_json_that_its_schema_accepts(site: str) -> None:
    sheet = json.loads(run("night", site, "--date", DAY, "--json").output)
    Draft202012Validator(sheet_schema()).validate(sheet)
    assert sheet["night"] == DAY
    assert len(sheet["runs"]) == 2


def test_the_json_is_the_same_in_every_language_and_unit(site: str) -> None:
    plain = run("night", site, "--date", DAY, "--json").output
    assert run("night", site, "--date", DAY, "--json", "--language", "es", "--units", "us").output == plain


def test_a_sheet_from_before_an_edit_tells_how_much_moved(site: str, tmp_path: Path) -> None:
    before = tmp_path / "before.json"
    before.write_text(run("night", site, "--date", DAY, "--json").output, encoding="utf-8")
    assert (
        "0 % of the runs moved by more than ten minutes."
        in run("night", site, "--date", DAY, "--before", str(before)).output
    )


@pytest.mark.parametrize("text", ["[]", "{}", '{"format": 99}', '{"format": 1, "runs": 3}'])
def test_what_is_no_sheet_is_refused(site: str, tmp_path: Path, text: str) -> None:
    before = tmp_path / "before.json"
    before.write_text(text, encoding="utf-8")
    result = run("night", site, "--date", DAY, "--before", str(before))
    assert result.exit_code == 1
    assert "is not a night sheet" in result.stderr


@pytest.mark.parametrize(
    ("option", "typed", "expected"),
    [
        ("--date", "26-11-2026", "is not a date. Write it like 2026-11-25."),
        ("--date", "3026-11-25", "Nights can be worked out from 1 Jan 1900"),
        ("--now", "soon", "is not a date and time. Write it like 2026-11-25T23:30."),
    ],
)
def test_a_date_that_cannot_be_is_one_clear_line(site: str, option: str, typed: str, expected: str) -> None:
    result = run("night", site, option, typed)
    assert result.exit_code == 1
    assert expected in result.stderr


def test_ahead_prints_one_line_a_night(site: str) -> None:
    lines = run("ahead", site, "--date", DAY, "--days", "3", "--now", f"{DAY}T12:30").output.splitlines()
    assert [line[:10] for line in lines[2:5]] == ["Wed 25 Nov", "Thu 26 Nov", "Fri 27 Nov"]


def test_ahead_prints_sheets_as_json_lines(site: str) -> None:
    lines = run("ahead", site, "--date", DAY, "--days", "2", "--json").output.splitlines()
    assert [json.loads(line)["night"] for line in lines] == [DAY, "2026-11-26"]


@pytest.mark.parametrize("wanted", ["E2", "e2", "s2", "rose bed"])
def test_why_finds_a_station_by_number_id_or_name(site: str, wanted: str) -> None:
    lines = run("why", site, wanted, "--date", DAY).output.splitlines()
    assert lines[0] == "E2 Rose bed, night of Wednesday, 25 November 2026"
    assert any(line.endswith("Waits for Main North to fall below 40 L/min. This decides.") for line in lines)


def test_why_tells_what_did_not_fit(site: str) -> None:
    assert "E3 Great lawn: 1.2 m³ short." in run("why", site, "E3", "--date", DAY).output


def test_why_refuses_a_station_that_is_not_there(site: str) -> None:
    assert run("why", site, "X9", "--date", DAY).stderr == "Error: There is no station X9 in this document.\n"
