"""From a document's weather and plantings to the runs of its night."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from builders import a_document, a_hydrozone, a_program, a_site, a_station, a_turn
from pengan.engine.document.document import Document
from pengan.engine.document.fault import DocumentFaults
from pengan.engine.document.tables import PLANTINGS
from pengan.engine.need.plants import PLANTS
from pengan.engine.need.site.nights import needs_on
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.sheet import NightSheet

NIGHT = date(2026, 7, 10)
Row = dict[str, Any]
LAWN: Row = {"soil": "loam", "roots_m": 0.5, "species_factor": 0.8, "watering": "days"}


def normals(mm: float = 5) -> list[Row]:
    return [{"table": "normals", "id": f"n{month}", "month": month, "et_mm": mm} for month in range(1, 13)]


def soil_water(depletion_mm: float, day: date = NIGHT, hydrozone: str = "h1") -> Row:
    return {
        "table": "soil_water", "id": f"{hydrozone}.{day}", "hydrozone": hydrozone, "day": day.isoformat(),
        "depletion_mm": depletion_mm,
    }  # fmt: skip


def weather(day: date, **fields: Any) -> Row:
    return {"table": "weather", "id": f"w{day}", "day": day.isoformat(), **fields}


def a_site_by_need(*others: Row, zone: Row = LAWN, station: Row | None = None, **turn: Any) -> Document:
    return a_document(
        hydrozones=[a_hydrozone("h1", **zone)],
        stations=[a_station("s1", hydrozone="h1", **({"area_m2": 240} if station is None else station))],
        turns=[a_turn("p1", "s1", **{"run_s": 600, "mode": "need", **turn})],
        others=[*normals(), *others],
    )


def seconds(sheet: NightSheet) -> list[int]:
    return [run.end - run.start for run in sheet.runs]


def codes(sheet: NightSheet) -> set[str]:
    return {notice.code for notice in sheet.notices}


def test_a_turn_by_need_runs_as_long_as_its_soil_and_heads_ask() -> None:
    """20 mm lacking in the morning and 4 mm a day: 24 mm. Rate 60 × 60 / 240 = 15 mm/h, multiplier
    1 / (0.4 + 0.6 × 0.65) (Irrigation Association 2005, from memory): 121.5 min. Loam, flat: cycles up to
    60 × 7.62 / (15 − 8.89) = 74.8 min, so two."""
    sheet = plan_night(a_site_by_need(soil_water(20)), NIGHT, effort=3)
    assert sum(seconds(sheet)) == pytest.approx(60 * 60 * 24 / 0.79 / 15, abs=1)
    assert len(sheet.runs) == 2
    assert sheet.runs[1].start - sheet.runs[0].end >= 41 * 60


def test_a_planting_that_needs_nothing_gets_nothing_and_nothing_is_short() -> None:
    sheet = plan_night(a_site_by_need(soil_water(5), zone={**LAWN, "watering": "deficit"}), NIGHT, effort=3)
    assert (sheet.runs, sheet.shortfalls, sheet.volume_due_l) == ((), (), 0)


def test_the_seasonal_percentage_leaves_what_is_worked_out_alone() -> None:
    half = a_document(
        site=a_site(seasonal_pct=50),
        hydrozones=[a_hydrozone("h1", **LAWN)],
        stations=[a_station("s1", hydrozone="h1", area_m2=240)],
        turns=[a_turn("p1", "s1", run_s=600, mode="need")],
        others=[*normals(), soil_water(20)],
    )
    assert seconds(plan_night(half, NIGHT)) == seconds(plan_night(a_site_by_need(soil_water(20)), NIGHT))


@pytest.mark.parametrize(
    ("zone", "station", "code"),
    [
        (LAWN, {}, "need.no_area"),
        ({**LAWN, "soil": None}, None, "need.no_soil"),
        ({"soil": "loam", "species_factor": 0.8}, None, "need.no_roots"),
        ({"soil": "loam", "roots_m": 0.5}, None, "need.no_coefficient"),
    ],
)
def test_what_cannot_be_worked_out_runs_as_set_by_hand_and_says_why(zone: Row, station: Row | None, code: str) -> None:
    known = {name: value for name, value in zone.items() if value is not None}
    sheet = plan_night(a_site_by_need(soil_water(20), zone=known, station=station), NIGHT, effort=3)
    assert seconds(sheet) == [600]
    assert code in codes(sheet)


def test_a_station_without_a_hydrozone_runs_as_set_by_hand() -> None:
    document = a_document(turns=[a_turn("p1", "s1", run_s=600, mode="need")], others=normals())
    sheet = plan_night(document, NIGHT, effort=3)
    assert (seconds(sheet), "need.no_hydrozone" in codes(sheet)) == ([600], True)


def test_a_site_without_place_or_normals_says_so() -> None:
    document = a_document(
        site={"table": "site", "id": "site", "name": "Nowhere", "zone": "Europe/Lisbon"},
        hydrozones=[a_hydrozone("h1", **LAWN)],
        stations=[a_station("s1", hydrozone="h1", area_m2=240)],
        turns=[a_turn("p1", "s1", run_s=600, mode="need")],
    )
    sheet = plan_night(document, NIGHT, effort=3)
    assert (seconds(sheet), "need.no_place" in codes(sheet)) == ([600], True)


def test_rain_that_was_seen_late_shortens_the_run() -> None:
    """The soil lacks 40 mm tonight and is watered; six of them came the day before, and it can wait."""
    zone, start = {**LAWN, "watering": "deficit"}, soil_water(28, NIGHT - timedelta(days=2))
    before = plan_night(a_site_by_need(start, zone=zone), NIGHT)
    rain = weather(NIGHT - timedelta(days=1), rain_mm=6)
    assert sum(seconds(before)) == pytest.approx(3600 * 40 / 0.79 / 15, abs=1)
    assert plan_night(a_site_by_need(start, rain, zone=zone), NIGHT).runs == ()


def test_an_observation_takes_the_place_of_a_forecast() -> None:
    day = NIGHT
    both = [weather(day, kind="forecast", et_mm=9), {**weather(day, et_mm=2), "id": "seen"}]
    kept = needs_on(a_site_by_need(soil_water(10), *both), NIGHT).zones["h1"].kept
    assert kept is not None and kept.depletion_mm == pytest.approx(10 + 0.8 * 2)


def test_days_without_news_are_bridged_as_if_each_had_been_known() -> None:
    """A balance begun five days ago gives tonight what one carried on from day to day gives."""
    zone = {**LAWN, "watering": "deficit"}
    start = NIGHT - timedelta(days=12)
    whole = needs_on(a_site_by_need(soil_water(30, start), zone=zone), NIGHT).zones["h1"]
    early = needs_on(a_site_by_need(soil_water(30, start), zone=zone), NIGHT - timedelta(days=5)).zones["h1"]
    assert whole.kept is not None and early.kept is not None
    assert any(inflow.applied_mm for inflow in whole.kept.days.watering), "nothing was watered: a test of nothing"
    count = len(early.kept.days)
    assert tuple(whole.kept.outs.depletion[:count]) == tuple(early.kept.outs.depletion)


def test_what_really_came_goes_before_what_was_decided() -> None:
    from pengan.engine.need.days import Inflow

    start = NIGHT - timedelta(days=1)
    document = a_site_by_need(soil_water(20, start))
    none = needs_on(document, NIGHT, {"h1": {start: Inflow()}}).zones["h1"].kept
    decided = needs_on(document, NIGHT).zones["h1"].kept
    assert none is not None and decided is not None
    assert none.depletion_mm == pytest.approx(28)
    assert decided.depletion_mm == pytest.approx(4)


def by_hand(*others: Row, **turn: Any) -> Document:
    return a_site_by_need(*others, mode="hand", **turn)


def test_a_hydrozone_watered_by_hand_has_a_balance_to_look_at_and_the_night_does_not_follow_it() -> None:
    """15 mm/h for 600 s bring 2.5 mm, of which 1 / (0.4 + 0.6 × 0.65) is uneven; 4 mm a day are used."""
    document = by_hand(soil_water(20, NIGHT - timedelta(days=1)))
    assert needs_on(document, NIGHT).zones == {}
    zone = needs_on(document, NIGHT, all_zones=True).zones["h1"]
    assert zone.by_hand and zone.kept is not None and zone.need is not None
    assert zone.kept.days.watering[1].applied_mm == pytest.approx(2.5)
    assert zone.kept.depletion_mm == pytest.approx(20 + 4 + 4 - 2.5 * 0.79)
    assert sum(seconds(plan_night(document, NIGHT))) == 600
    by_need = needs_on(a_site_by_need(soil_water(10)), NIGHT)
    assert needs_on(a_site_by_need(soil_water(10)), NIGHT, all_zones=True) == by_need


def test_what_run_times_bring_follows_percentages_days_and_cycles() -> None:
    start = soil_water(40, NIGHT - timedelta(days=2))
    whole = by_hand(start)
    half = replace(whole, site=replace(whole.site, seasonal_pct=50))
    told = [needs_on(one, NIGHT, all_zones=True).zones["h1"].kept for one in (whole, half)]
    assert [kept.days.watering[2].applied_mm for kept in told if kept] == pytest.approx([2.5, 1.25])
    cycled = needs_on(by_hand(start, cycles=3, soak_s=600), NIGHT, all_zones=True).zones["h1"].kept
    assert cycled is not None and cycled.days.watering[2].applied_mm == pytest.approx(2.5)


def test_a_drought_rule_gives_each_priority_its_share() -> None:
    rule = {"table": "droughts", "id": "d5", "starts": NIGHT.isoformat(), "priority": 5, "share_pct": 0}
    sheet = plan_night(a_site_by_need(soil_water(40), rule), NIGHT, effort=3)
    assert sheet.runs == ()


def test_an_audit_goes_before_flow_and_area() -> None:
    cans = [
        {"table": "cans", "id": f"c{n}", "audit": "a1", "column": n % 5, "row": n // 5, "catch": 5} for n in range(20)
    ]
    held = {"table": "audits", "id": "a1", "name": "In June", "station": "s1", "day": "2026-06-01", "run_s": 1200}
    sheet = plan_night(a_site_by_need(soil_water(20), held, *cans), NIGHT, effort=3)
    assert sum(seconds(sheet)) == pytest.approx(24 / 15 * 3600, abs=1), "15 mm/h, wetted evenly"


def test_soils_fill_of_themselves_where_nobody_said_how_dry_they_are() -> None:
    sheet = plan_night(a_site_by_need(), NIGHT, effort=3)
    assert "need.no_start" in codes(sheet)


def test_the_documents_plantings_are_those_with_published_values() -> None:
    assert tuple(PLANTS) == PLANTINGS


@pytest.mark.parametrize(
    ("rows", "code"),
    [
        ([weather(NIGHT), {**weather(NIGHT), "id": "again"}], "fault.weather_twice"),
        ([{"table": "normals", "id": "x", "month": 7, "et_mm": 4}], "fault.normal_twice"),
        ([soil_water(1), {**soil_water(2), "id": "y"}], "fault.soil_water_twice"),
        (
            [{"table": "audits", "id": "a", "name": "A", "station": "s1", "day": "2026-06-01", "run_s": 60,
              "caught_in": "ml"}],
            "fault.audit_no_opening",
        ),
        ([{"table": "tiers", "id": "1", "price": 1}, {"table": "tiers", "id": "2", "price": 2}], "fault.tier_twice"),
        (
            [{"table": "droughts", "id": "d", "starts": "2026-08-01", "ends": "2026-07-01", "priority": 1,
              "share_pct": 50}],
            "fault.drought_backwards",
        ),
    ],
)  # fmt: skip
def test_what_contradicts_itself_is_a_fault_with_its_record(rows: list[Row], code: str) -> None:
    with pytest.raises(DocumentFaults) as caught:
        a_site_by_need(*rows)
    assert code in {fault.message.code for fault in caught.value.faults}


def test_a_season_without_lengths_is_a_fault() -> None:
    with pytest.raises(DocumentFaults) as caught:
        a_site_by_need(zone={**LAWN, "kc_middle": 1, "grows_from": "03-01"})
    assert {fault.message.code for fault in caught.value.faults} == {"fault.growth_without_stages"}


def test_a_program_not_due_waters_nothing_whatever_the_need() -> None:
    document = a_document(
        hydrozones=[a_hydrozone("h1", **LAWN)],
        programs=[a_program("p1", days="dates", dates="2026-01-01")],
        stations=[a_station("s1", hydrozone="h1", area_m2=240)],
        turns=[a_turn("p1", "s1", run_s=600, mode="need")],
        others=[*normals(), soil_water(40)],
    )
    assert plan_night(document, NIGHT, effort=3).runs == ()
