"""What uneven heads cost in water, by the demo's audit and by figures that can be worked out by hand."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date
from math import isclose
from pathlib import Path

import pytest

from pengan.engine.document.document import Document
from pengan.engine.document.read import read_document
from pengan.engine.need.cans import Wetting, audit
from pengan.engine.need.rates import multiplier
from pengan.engine.need.site.planting import given_audit
from pengan.engine.need.site.unevenness import AIM_LQ, unevenness
from pengan.engine.phone.weather_days import weather_days
from pengan.engine.phone.wetting import wetting

DEMO = Path(__file__).resolve().parents[3] / "fixtures" / "demo" / "site.json"
TODAY = date(2026, 10, 24)
STATION = "s801"


@pytest.fixture(scope="module")
def demo() -> Document:
    return read_document(json.loads(DEMO.read_text("utf-8")))


def wet(document: Document) -> Wetting:
    found, _ = audit(given_audit(document, document.audits["audit-801"]))
    assert found is not None
    return found


def without(document: Document, **fields: object) -> Document:
    """The same site with something of the audited station taken away or changed."""
    station = replace(document.stations[STATION], **fields)  # type: ignore[arg-type]
    return replace(document, stations={**document.stations, STATION: station})


def test_a_run_costs_what_it_is_longer_than_at_the_aim(demo: Document) -> None:
    uneven = replace(wet(demo), uniformity_lq=0.5)
    cost = unevenness(demo, uneven, TODAY)
    assert isclose(cost.share, 1 - 0.7 / 0.85)  # multipliers 1 / (0.4 + 0.6 x 0.5) and 1 / (0.4 + 0.6 x 0.75)
    flow = demo.stations[STATION].flow_lpm
    turns = {turn.id: turn.run_s for turn in demo.turns.values() if turn.station == STATION and turn.mode == "hand"}
    assert {run.turn: run.run_l for run in cost.runs} == {id: flow * run_s / 60 for id, run_s in turns.items()}
    assert all(isclose(run.extra_l, run.run_l * cost.share) for run in cost.runs)


def test_a_year_costs_the_same_share_of_what_it_takes(demo: Document) -> None:
    uneven = replace(wet(demo), uniformity_lq=0.5)
    season = unevenness(demo, uneven, TODAY).season
    assert season is not None and season.net_mm > 100
    assert isclose(season.season_l, season.net_mm * season.area_m2 / 0.7)
    assert isclose(season.extra_l, season.net_mm * season.area_m2 * (1 / 0.7 - 1 / 0.85))


def test_heads_at_the_aim_or_above_it_cost_nothing(demo: Document) -> None:
    for evenness in (AIM_LQ, 0.9, 1.0):
        cost = unevenness(demo, replace(wet(demo), uniformity_lq=evenness), TODAY)
        assert cost.share == 0 and all(run.extra_l == 0 for run in cost.runs)
        assert cost.season is not None and cost.season.extra_l == 0


def test_without_an_area_it_follows_from_flow_and_rate_and_is_said(demo: Document) -> None:
    cost = unevenness(without(demo, area_m2=None, flow_lpm=30.0), replace(wet(demo), rate_mm_h=18.0), TODAY)
    assert cost.season is not None and isclose(cost.season.area_m2, 100)  # 60 Q / A = 18 mm/h
    assert "unevenness.area_from_flow" in {message.code for message in cost.messages}


def test_what_is_missing_for_a_year_is_said(demo: Document) -> None:
    homeless = unevenness(without(demo, hydrozone=None), wet(demo), TODAY)
    assert homeless.season is None and [one.code for one in homeless.messages] == ["unevenness.no_hydrozone"]
    untold = unevenness(replace(demo, normals={}), wet(demo), TODAY)
    assert untold.season is None and [one.code for one in untold.messages] == ["unevenness.no_normals"]
    some = {id: one for id, one in demo.normals.items() if one.month <= 6}
    assert "unevenness.months_missing" in {
        one.code for one in unevenness(replace(demo, normals=some), wet(demo), TODAY).messages
    }


def test_the_app_is_told_the_engines_own_figures(demo: Document) -> None:
    told = wetting(demo, {"audit": "audit-801", "today": "2026-10-24"})
    figures, found = told["wetting"], wet(demo)
    assert isinstance(figures, dict)
    assert (figures["uniformity_lq"], figures["christiansen"]) == (found.uniformity_lq, found.christiansen)
    assert figures["multiplier"] == multiplier(found.uniformity_lq)
    assert len(figures["lowest"]) == 6
    json.dumps(told, allow_nan=False)


def test_an_audit_without_a_reading_is_told_so(demo: Document) -> None:
    bare = replace(demo, cans={id: replace(can, catch=None) for id, can in demo.cans.items()})
    told = wetting(bare, {"audit": "audit-801", "today": "2026-10-24"})
    assert told["wetting"] is None
    assert told["messages"] == [{"code": "audit.no_cans", "params": {"station": STATION}}]


def test_the_days_carry_their_rung_and_their_flags(demo: Document) -> None:
    """A swapped minimum and maximum is flagged on its day; nothing is repaired."""
    record = next(one for one in demo.weather.values() if one.day == "2026-10-20")
    swapped = replace(record, high_degc=5.0, low_degc=21.0)
    site = replace(demo, weather={**demo.weather, record.id: swapped})
    told = weather_days(site, {"first": "2026-10-19", "last": "2026-10-21"})
    days = told["days"]
    assert isinstance(days, list) and [day["day"] for day in days] == ["2026-10-19", "2026-10-20", "2026-10-21"]
    assert [flag["code"] for flag in days[1]["flags"]] == ["weather.swapped"]
    assert days[1]["flags"][0]["barred"] and days[1]["rung"] == "normal"
    assert days[0]["flags"] == [] and days[0]["rung"] == "full"


def test_a_sensor_that_says_the_same_for_days_is_flagged_on_the_first(demo: Document) -> None:
    first, last = "2026-10-11", "2026-10-20"
    stuck = {id: replace(one, wind_mps=1.7) if first <= one.day <= last else one for id, one in demo.weather.items()}
    told = weather_days(replace(demo, weather=stuck), {"first": first, "last": last})
    days = told["days"]
    assert isinstance(days, list)
    assert [flag["code"] for flag in days[0]["flags"]] == ["weather.stuck"]


def test_a_site_without_a_place_says_so(demo: Document) -> None:
    nowhere = replace(demo, normals={}, site=replace(demo.site, latitude_deg=None, longitude_deg=None))
    told = weather_days(nowhere, {"first": "2026-10-19", "last": "2026-10-21"})
    assert told == {"days": [], "messages": [{"code": "need.no_place", "params": {}}]}
