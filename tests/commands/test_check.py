"""`pengan check FILE`."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from builders import a_document_data, a_site, a_supply, a_turn
from pengan.cli import main

DEMO = Path(__file__).parents[2] / "fixtures" / "demo" / "site.json"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "site.json"


def test_a_sound_document_is_summed_up_in_a_line() -> None:
    result = CliRunner().invoke(main, ["check", str(DEMO)], env={"PENGAN_LANGUAGE": "en"})
    assert result.exit_code == 0, result.output
    assert result.output.startswith("Quinta das Marés is sound: 15 supplies, 8 controllers, 140 stations, ")
    assert len(result.output.splitlines()) == 1


def test_every_fault_is_a_line_with_its_record_and_field(file: Path) -> None:
    data = a_document_data(site=a_site(zone="Europe/Lisbn"), supplies=[a_supply(limit_lpm=-1)], turns=[a_turn(run_s=0)])
    file.write_text(json.dumps(data), encoding="utf-8")
    result = CliRunner().invoke(main, ["check", str(file)], env={"PENGAN_LANGUAGE": "en"})
    assert result.exit_code == 1
    assert result.stdout == ""
    assert [line.split(":")[0] for line in result.stderr.splitlines()] == [
        "site/site zone",
        "supplies/town limit_lpm",
        "turns/p1.s1 run_s",
        "3 faults in site.json.",
    ]
    assert "between 0.1 L/min and 60,000 L/min" in result.stderr


@pytest.mark.parametrize("text", ["", "[", "{}", "null", '{"format": 99, "records": []}', "[" * 100_000])
def test_a_file_that_is_no_document_is_told_in_a_line_or_two(file: Path, text: str) -> None:
    file.write_text(text, encoding="utf-8")
    result = CliRunner().invoke(main, ["check", str(file)], env={"PENGAN_LANGUAGE": "en"})
    assert result.exit_code == 1
    assert 2 <= len(result.stderr.splitlines()) <= 4
    assert "Traceback" not in result.stderr


def test_a_file_that_is_not_there_is_an_error_of_use(file: Path) -> None:
    result = CliRunner().invoke(main, ["check", str(file)], env={"PENGAN_LANGUAGE": "en"})
    assert result.exit_code == 2
