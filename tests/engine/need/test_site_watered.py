"""What a night brought, carried over into the next day, and the sources from which balances begin."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from builders import a_document, a_hydrozone, a_program, a_station, a_turn
from engine.need.test_site_need import LAWN, NIGHT, a_site_by_need, normals, soil_water, weather
from pengan.engine.need.days import Inflow
from pengan.engine.need.site.nights import Start, needs_on, starts_on
from pengan.engine.need.site.watered import carried_over, told_starts, watered_by
from pengan.engine.need.site.work import season
from pengan.engine.need.tonight import need_on
from pengan.engine.plan.night import plan_night


def test_a_night_as_planned_brings_what_was_decided() -> None:
    """24 mm net over 15 mm/h at an evenness of 0.65: 30.4 mm gross, and nothing runs off."""
    document = a_site_by_need(soil_water(20))
    brought = watered_by(document, plan_night(document, NIGHT, effort=3).runs)["h1"]
    assert brought.inflow is not None
    assert brought.inflow.applied_mm == pytest.approx(24 / 0.79, abs=0.01)
    assert (brought.inflow.useful_mm, brought.inflow.ran_off_mm) == (pytest.approx(24, abs=0.01), 0)
    assert brought.volume_l == pytest.approx(240 * 24 / 0.79, abs=2)


def test_stations_that_did_not_run_count_in_the_mean_and_no_rate_means_not_known() -> None:
    two = [a_station("s1", hydrozone="h1", area_m2=240), a_station("s2", hydrozone="h1", area_m2=240)]
    document = a_document(hydrozones=[a_hydrozone("h1", **LAWN)], stations=two, turns=[a_turn("p1", "s1", run_s=3600)])
    brought = watered_by(document, plan_night(document, NIGHT, effort=3).runs)["h1"]
    assert brought.inflow is not None and brought.inflow.applied_mm == pytest.approx(15 / 2)
    bare = a_document(hydrozones=[a_hydrozone("h1")], stations=[a_station("s1", hydrozone="h1")])
    assert watered_by(bare, ())["h1"].inflow is None


def test_a_day_carried_over_is_the_balance_less_the_nights_water() -> None:
    """20 mm in the morning, 4 mm taken: 24 mm in the evening; 10 mm of useful water leave 14."""
    document = a_site_by_need(soil_water(20))
    carried = carried_over(document, NIGHT, {"h1": {NIGHT: Inflow(12, 1, 1)}}, {})
    assert carried == {"h1": pytest.approx(14)}


def test_a_night_that_is_not_known_counts_as_decided() -> None:
    assert carried_over(a_site_by_need(soil_water(20)), NIGHT, {}, {}) == {"h1": pytest.approx(0, abs=1e-9)}


def test_carrying_day_by_day_equals_the_balance_in_order_and_a_late_rain_recomputes_from_its_day() -> None:
    """The soil is never full here: what would drain between two days is told of in the module's first words."""
    start = NIGHT - timedelta(days=12)
    waters = {start + timedelta(days=n): Inflow(4, 0, 0.5) for n in range(0, 12, 3)}
    dry = [weather(start + timedelta(days=n), et_mm=5, rain_mm=0) for n in range(13)]
    wet = [{**row, "rain_mm": 3} if number == 5 else row for number, row in enumerate(dry)]
    for rows in (dry, wet):
        document = a_site_by_need(soil_water(25, start), *rows)
        daily: dict[str, Start] = {}
        for number in range(12):
            night = start + timedelta(days=number)
            known = {"h1": {day: waters.get(day, Inflow()) for day in (night,)}}
            carried = carried_over(document, night, known, daily)
            daily = {"h1": Start(night + timedelta(days=1), carried["h1"])}
        all_known = {"h1": {start + timedelta(days=n): waters.get(start + timedelta(days=n), Inflow())
                            for n in range(12)}}  # fmt: skip
        at_once = carried_over(document, NIGHT - timedelta(days=1), all_known, told_starts(document, NIGHT))
        assert at_once["h1"] == pytest.approx(daily["h1"].depletion_mm, abs=1e-9)


def test_what_somebody_measured_goes_before_what_was_worked_out() -> None:
    worked = {**soil_water(30, NIGHT - timedelta(days=1)), "how": "worked_out"}
    told = {**soil_water(12), "how": "measured"}
    later = {**soil_water(3, NIGHT + timedelta(days=1)), "how": "measured"}
    document = a_site_by_need(worked, told, later)
    assert starts_on(document, ["h1"], NIGHT)["h1"].depletion_mm == 12
    assert told_starts(document, NIGHT)["h1"] == Start(NIGHT, 12)
    assert told_starts(a_site_by_need(worked), NIGHT) == {}


def test_one_hydrozone_alone_needs_what_it_needs_among_all() -> None:
    zones = [a_hydrozone("h1", **LAWN), a_hydrozone("h2", **LAWN)]
    stations = [a_station(f"s{n}", hydrozone=f"h{n}", area_m2=240) for n in (1, 2)]
    turns = [a_turn("p1", f"s{n}", mode="need") for n in (1, 2)]
    others = [*normals(), soil_water(20), soil_water(11, hydrozone="h2")]
    document = a_document(hydrozones=zones, stations=stations, turns=turns, others=others)
    alone = needs_on(document, NIGHT, only="h2")
    assert list(alone.zones) == ["h2"]
    assert alone.zones["h2"].need == needs_on(document, NIGHT).zones["h2"].need


def test_a_season_begins_where_it_is_told_to() -> None:
    document = a_site_by_need({**soil_water(9), "how": "worked_out"})
    start = date(2026, 6, 1)
    found = season(document, "h1", NIGHT, starts={"h1": Start(start, 5.0)})
    assert found is not None
    assert (found.kept.first, found.kept.start_mm, len(found.kept.days)) == (start, 5.0, 40)


@pytest.mark.parametrize("depletion", range(0, 60, 3))
@pytest.mark.parametrize("days", ["every", "weekdays"])
def test_looking_a_little_way_finds_what_looking_all_the_way_finds(depletion: int, days: str) -> None:
    """`need` looks to the next allowed night first, then a week, then all the way."""
    rule: dict[str, object] = {"days": "weekdays", "weekdays": "tue"} if days == "weekdays" else {}
    document = a_document(
        hydrozones=[a_hydrozone("h1", **{**LAWN, "watering": "deficit"})],
        stations=[a_station("s1", hydrozone="h1", area_m2=240)],
        programs=[a_program("p1", **rule)],
        turns=[a_turn("p1", "s1", mode="need")],
        others=[*normals(), soil_water(depletion)],
    )
    zone = needs_on(document, NIGHT).zones["h1"]
    assert zone.kept is not None and zone.planting is not None and zone.need is not None
    tuesdays = {
        NIGHT + timedelta(days=number) for number in range(20) if (NIGHT + timedelta(days=number)).weekday() == 1
    }
    allowed = (lambda night: night in tuesdays) if days == "weekdays" else (lambda _night: True)
    whole = need_on(zone.planting, zone.kept, NIGHT, [5.0] * 15, allowed=allowed)
    assert zone.need.decision == whole.decision
