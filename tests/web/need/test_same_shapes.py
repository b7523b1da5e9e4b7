"""What the phone works out has the shape of what the server answers, and on the same ground the same figures."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from pengan.engine.document.read import read_document
from pengan.engine.need.filling import HOWS
from pengan.engine.need.ladder import RUNGS
from pengan.engine.phone.need import need_on_night, season_of_hydrozone, work_of_turn
from web.need.conftest import NIGHT, a_need_site, serve, soil_water, weather
from web.people.crew import SITE, Server

RUNG_WORDS = Path(__file__).parents[3] / "pwa" / "src" / "page" / "need" / "told" / "rungs.ts"
WORDED = ("detail", "caution", "name")
"""What only the server adds: sentences in the reader's language."""
SITE_DATA = a_need_site(
    soil_water(20),
    weather(NIGHT, high_degc=30, low_degc=18, dampest_pct=90, driest_pct=40, wind_mps=2, solar_mj=44, rain_mm=0),
)


@pytest.fixture
def server(tmp_path: Path) -> Server:
    return serve(tmp_path, SITE_DATA)


@pytest.mark.parametrize(
    ("path", "asked", "given"),
    [
        ("/tonight", need_on_night, {}),
        ("/tonight/turns/p1.s1", work_of_turn, {"turn": "p1.s1"}),
        ("/hydrozones/h1/season", season_of_hydrozone, {"hydrozone": "h1"}),
    ],
)
def test_the_phone_tells_what_the_server_tells(server: Server, path: str, asked: Any, given: dict[str, str]) -> None:
    told = server.person("crew").get(f"/api/sites/{SITE}/need{path}?language=en").json
    found = asked(read_document(SITE_DATA), {"night": NIGHT.isoformat(), **given})
    assert found == _bare(told)


def test_odd_weather_is_told_with_the_night_and_with_the_work(server: Server) -> None:
    """44 MJ/m² is more than reaches the top of the air there, which is not used: another rung, and a flag."""
    person = server.person("crew")
    night = person.get(f"/api/sites/{SITE}/need/tonight?language=en").json
    work = person.get(f"/api/sites/{SITE}/need/tonight/turns/p1.s1?language=en").json
    assert night["weather"]["rung"] == "filled" and night["weather"]["row"] == f"w{NIGHT}"
    assert [flag["code"] for flag in night["weather"]["flags"]] == ["weather.solar_impossible"]
    assert "weather.solar_impossible" in [message["code"] for message in work["messages"]]


def test_what_is_not_there_is_answered_with_nothing() -> None:
    document, night = read_document(SITE_DATA), NIGHT.isoformat()
    assert work_of_turn(document, {"night": night, "turn": "none"}) is None
    assert work_of_turn(document, {"night": night, "turn": "p1.s2"}) is None
    assert season_of_hydrozone(document, {"night": night, "hydrozone": "h2"}) is None


def test_the_page_has_words_for_every_way_in_which_a_figure_is_come_by() -> None:
    words = RUNG_WORDS.read_text(encoding="utf-8")
    unworded = [name for name in (*RUNGS, *HOWS, "audit", "flow_area") if f"\n  {name}: () => t(" not in words]
    assert unworded == []


def _bare(told: Any) -> Any:
    if isinstance(told, list):
        return [_bare(one) for one in told]
    if isinstance(told, dict):
        return {key: _bare(value) for key, value in told.items() if key not in WORDED}
    return told
