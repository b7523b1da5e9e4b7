"""`pengan need` on a document: decisions, the work behind a turn, a season."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

import builders as made
from pengan.cli import main

DAY = "2026-07-10"


@pytest.fixture
def site(tmp_path: Path) -> str:
    """A lawn of 240 m² that lacks 20 mm this morning, beside a station set by hand."""
    lawn = {"name": "Great lawn", "soil": "loam", "roots_m": 0.5, "species_factor": 0.8, "watering": "days"}
    soil = {"table": "soil_water", "id": "a", "hydrozone": "h1", "day": DAY, "depletion_mm": 20}
    data = made.a_document_data(
        hydrozones=[made.a_hydrozone("h1", **lawn), made.a_hydrozone("h2")],
        stations=[
            made.a_station("s1", number="N14", name="Palm walk", hydrozone="h1", area_m2=240),
            made.a_station("s2", number="N15", name="Roses"),
        ],
        turns=[made.a_turn("p1", "s1", mode="need"), made.a_turn("p1", "s2")],
        others=[
            *({"table": "normals", "id": f"n{month}", "month": month, "et_mm": 5} for month in range(1, 13)),
            soil,
            {"table": "weather", "id": "w1", "day": DAY, "high_degc": 30, "low_degc": 18, "rain_mm": 0, "et_mm": 5},
        ],
    )
    path = tmp_path / "site.json"
    path.write_text(json.dumps(data), encoding="utf-8")
    return str(path)


def run(*arguments: str) -> Result:
    environ = {"PENGAN_LANGUAGE": "en-GB", "PENGAN_UNITS": None, "PENGAN_HOURS": None}
    return CliRunner().invoke(main, ["need", *arguments], env=environ, catch_exceptions=False)


def test_the_night_says_what_each_planting_gets_and_for_how_long(site: str) -> None:
    """20 mm and 4 mm a day; 15 mm/h at an evenness of 0.65: 30.4 mm in 2 h 1 min 31 s."""
    lines = run(site, "--date", DAY).output.splitlines()
    assert lines[2].startswith("Great lawn: 24 mm tonight.")
    assert lines[3].split("  ")[1:3] == ["N14 Palm walk", "30.4 mm"]
    assert "2 cycles" in lines[3]
    assert lines[-1].startswith("These figures are planning aids.")


def test_the_work_of_a_turn_ends_with_its_run_time(site: str) -> None:
    text = run(site, "--date", DAY, "--turn", "p1.s1").output
    assert "Reference evapotranspiration" in text and "given, w1" in text
    assert "15 mm an hour" in text
    rows = list(csv.DictReader(io.StringIO(run(site, "--date", DAY, "--turn", "p1.s1", "--csv").output)))
    found = {row["key"]: row["value"] for row in rows}
    assert float(found["run"]) == pytest.approx(3600 * 24 / 0.79 / 15, abs=1)
    assert set(rows[-1]["inputs"].split()) <= found.keys()


def test_a_season_is_a_line_a_day(site: str) -> None:
    lines = run(site, "--date", "2026-07-11", "--hydrozone", "h1").output.splitlines()
    assert lines[2].split() == ["Day", "Reference", "Rung", "Need", "Rain", "Given", "Taken", "Lacking"]
    assert [line.split("  ")[0][:3] for line in lines[3:5]] == ["Fri", "Sat"]
    rows = list(csv.DictReader(io.StringIO(run(site, "--date", DAY, "--hydrozone", "h1", "--csv").output)))
    assert [(row["day"], float(row["depletion_mm"])) for row in rows] == [(DAY, 24.0)]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--turn", "none"], "There is no turn none"),
        (["--turn", "p1.s2"], "set by hand"),
        (["--hydrozone", "none"], "There is no hydrozone none"),
        (["--hydrozone", "h2"], "No balance of hydrozone h2"),
        (["--csv"], "add --turn or --hydrozone"),
        (["--turn", "p1.s1", "--hydrozone", "h1"], "not for both"),
    ],
)
def test_what_cannot_be_shown_is_said(site: str, arguments: list[str], said: str) -> None:
    result = run(site, *arguments)
    assert result.exit_code != 0
    assert said in result.stderr


def test_a_site_by_hand_says_so(tmp_path: Path) -> None:
    path = tmp_path / "hand.json"
    path.write_text(json.dumps(made.a_document_data()), encoding="utf-8")
    assert "all run times are set by hand" in run(str(path)).output
