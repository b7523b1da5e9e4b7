"""The work behind a site's nights: figures, seasons, suggestions, budgets."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from builders import a_document, a_hydrozone, a_program, a_site, a_station, a_turn
from engine.need.test_site_need import LAWN, NIGHT, a_site_by_need, normals, soil_water, weather
from pengan.engine.need.site.budget import budget, month_bill
from pengan.engine.need.site.suggestions import suggestions
from pengan.engine.need.site.work import season, turn_work
from pengan.engine.plan.night import plan_night


def test_every_number_behind_a_turn_is_shown_and_the_last_is_what_runs() -> None:
    document = a_site_by_need(soil_water(20), weather(NIGHT, high_degc=30, low_degc=18, rain_mm=0))
    work = turn_work(document, "p1.s1", NIGHT)
    assert work is not None
    shown = {figure.key: figure for figure in work.figures}
    assert shown["reference"].rung == "temperature"
    assert shown["reference"].row == f"w{NIGHT}"
    assert shown["run"].value == sum(run.end - run.start for run in plan_night(document, NIGHT, effort=3).runs)
    known: set[str] = set()
    for figure in work.figures:
        assert set(figure.inputs) <= known, f"{figure.key} stands before what it follows from"
        known.add(figure.key)


def test_a_turn_by_hand_has_no_work_to_show() -> None:
    assert turn_work(a_document(), "p1.s1", NIGHT) is None


def test_what_is_missing_is_said_where_no_number_can_be_shown() -> None:
    work = turn_work(a_site_by_need(soil_water(20), station={}), "p1.s1", NIGHT)
    assert work is not None and "need.no_area" in {message.code for message in work.messages}


def test_a_season_closes_to_the_hundredth_of_a_millimetre() -> None:
    start = NIGHT - timedelta(days=40)
    rain = [weather(start + timedelta(days=day), rain_mm=12 if day % 9 == 0 else 0, et_mm=5.5) for day in range(41)]
    found = season(a_site_by_need(soil_water(30, start), *rain, zone={**LAWN, "watering": "deficit"}), "h1", NIGHT)
    assert found is not None and len(found.references) == len(found.kept.days) == 41
    days, outs = found.kept.days, found.kept.outs
    came = sum(day.rain_mm + day.watering.applied_mm for day in days)
    went = sum(out.taken_mm + out.percolated_mm for out in outs)
    aside = sum(day.lost_mm + day.rain_ran_off_mm + day.watering.ran_off_mm for day in days)
    change = found.kept.start_mm - found.kept.depletion_mm
    assert sum(day.watering.applied_mm for day in days) > 0
    assert came == pytest.approx(went + aside + change, abs=0.01)


def test_a_cool_week_suggests_less_and_a_person_takes_it() -> None:
    """2.5 mm a day beside a peak of 5: half; the program runs at 100."""
    week = [weather(NIGHT - timedelta(days=back), et_mm=2.5) for back in range(1, 8)]
    document = a_document(others=[*normals(5), *week])
    found, said = suggestions(document, NIGHT)
    assert [(one.program, one.from_pct, one.to_pct, one.by_itself) for one in found] == [("p1", 100, 50, False)]
    assert said == ()


def test_a_program_keeps_its_limits_and_may_take_small_steps_by_itself() -> None:
    week = [weather(NIGHT - timedelta(days=back), et_mm=2.5) for back in range(1, 8)]
    program = a_program("p1", seasonal_least_pct=90, seasonal_by_itself_pct=10)
    found, _said = suggestions(a_document(programs=[program], others=[*normals(5), *week]), NIGHT)
    assert [(one.to_pct, one.by_itself) for one in found] == [(90, True)]


def test_normals_alone_suggest_nothing() -> None:
    found, said = suggestions(a_document(others=normals(5)), NIGHT)
    assert found == () and [message.code for message in said] == ["seasonal.no_recent"]


def test_a_years_allowance_is_reference_by_share_by_area() -> None:
    """5 mm × 365 days × 0.45 × 240 m² (the form of MWELO section 492.4, factor 1 for mm, m² and litres)."""
    document = a_document(
        site=a_site(allowance_pct=45),
        hydrozones=[a_hydrozone("h1", **LAWN)],
        stations=[a_station("s1", hydrozone="h1", area_m2=240)],
        turns=[a_turn("p1", "s1", mode="need")],
        others=normals(5),
    )
    found = budget(document, 2026, {("2026-07", "h1"): 1000.0})
    assert sum(line.allowed_l for line in found) == pytest.approx(5 * 365 * 0.45 * 240)
    july = next(line for line in found if line.month == "2026-07")
    assert july.planned_l == pytest.approx(31 * 5 * 0.8 / 0.79 * 240)
    assert july.left_l == pytest.approx(july.allowed_l - 1000)


def test_a_month_is_billed_by_its_steps() -> None:
    """10 m³ at 0.50, 5 m³ at 1.20, and a standing charge of 3."""
    tiers = [
        {"table": "tiers", "id": "2", "price": 1.2},
        {"table": "tiers", "id": "1", "up_to_l": 10_000, "price": 0.5},
    ]
    parts, whole = month_bill(a_document(site=a_site(standing_charge=3, currency="EUR"), others=tiers), 15_000)
    assert [part.amount for part in parts] == [Decimal("5.0"), Decimal("6.0")]
    assert whole == Decimal("14.00")
