"""The demo site is a valid document, as its maker makes it, and has what a demonstration needs."""

from __future__ import annotations

import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator, FormatChecker

from pengan.engine.document.document import Document
from pengan.engine.document.json_text import data_in
from pengan.engine.document.read import read_document
from pengan.engine.document.schema import document_schema

DEMO = Path(__file__).parents[3] / "fixtures" / "demo"
MAKE_ELSEWHERE = "import make; print(make.text(), end='')"


@pytest.fixture(scope="module")
def demo() -> Document:
    return read_document(data_in((DEMO / "site.json").read_bytes()))


def test_the_file_is_what_its_maker_makes() -> None:
    words = [sys.executable, "-B", "-X", "utf8", "-c", MAKE_ELSEWHERE]
    made = subprocess.run(words, cwd=DEMO, capture_output=True, check=True, timeout=60).stdout
    assert made.replace(b"\r\n", b"\n") == (DEMO / "site.json").read_bytes()


def test_it_fits_the_json_schema() -> None:
    data = data_in((DEMO / "site.json").read_bytes())
    validator = Draft202012Validator(document_schema(), format_checker=FormatChecker())
    assert list(validator.iter_errors(data)) == []


def test_it_has_three_sources_and_a_tree_of_mains(demo: Document) -> None:
    sources = [supply for supply in demo.supplies.values() if supply.fed_by is None]
    assert sorted(supply.water for supply in sources) == ["reclaimed", "town", "well"]
    assert max(_depth(demo, supply) for supply in demo.supplies) == 3


def _depth(demo: Document, supply: str | None) -> int:
    return 0 if supply is None else 1 + _depth(demo, demo.supplies[supply].fed_by)


def test_it_has_140_stations_and_two_dozen_programs_of_all_kinds_of_days(demo: Document) -> None:
    assert len(demo.stations) == 140
    days = Counter(program.days for program in demo.programs.values())
    assert 24 <= days.total() <= 26
    assert days.keys() == {"every_day", "weekdays", "every_n", "odd", "even", "dates", "asked"}


def test_every_station_has_a_turn_and_figures_of_its_kind_of_heads(demo: Document) -> None:
    assert {turn.station for turn in demo.turns.values()} == demo.stations.keys()
    usual = {"spray": (20, 60), "rotor": (60, 180), "drip": (5, 25), "micro": (5, 25), "bubbler": (5, 25)}
    for station in demo.stations.values():
        least, most = usual[station.heads or ""]
        assert least <= station.flow_lpm <= most, station.id
        assert station.area_m2 and station.pressure_kpa and station.current_ma, station.id


def test_it_shows_every_limit_there_is(demo: Document) -> None:
    assert any(supply.lead_s and supply.least_lpm and supply.steady_lpm for supply in demo.supplies.values())
    assert any(controller.max_current_ma for controller in demo.controllers.values())
    assert any(controller.valve_gap_s for controller in demo.controllers.values())
    programs = demo.programs.values()
    assert any(program.limit_lpm for program in programs) and any(program.order == "listed" for program in programs)
    assert any(program.aim == "latest" for program in programs) and any("sunset" in (p.start or "") for p in programs)
    causes = {closure.cause for closure in demo.closures.values()}
    assert {"authority", "event", "mowing", "works", "tide"} <= causes
    assert demo.apart and demo.windows and demo.asked
