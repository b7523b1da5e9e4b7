"""What happens at noon: the night past is written down, the soil's water moves on, percentages are taken."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from pengan.engine.need.site.nights import needs_on
from web.need.conftest import DAY_S, NIGHT, Noon, a_need_site, deficit, soil_water, weather


def test_the_day_after_a_night_the_soil_lacks_what_the_day_took_less_what_the_sheet_brought(noon: Noon) -> None:
    """20 mm and 4 mm a day, watered with all of it: nothing is lacking in the morning of the 11th."""
    noon.put(deficit())
    noon.plan()
    assert noon.soil() == {"h1.2026-07-10": ("2026-07-10", 20, "guessed")}
    noon.now += DAY_S
    noon.plan()
    assert noon.soil()["worked.h1"] == ("2026-07-11", pytest.approx(0, abs=0.01), "worked_out")
    kept = noon.nights()["2026-07-10"]
    assert kept.volume_l == pytest.approx(sum(run.volume_l for run in noon.runs()))
    assert kept.applied_mm == pytest.approx(24 / 0.79, abs=0.01)
    assert kept.depletion_mm == pytest.approx(0, abs=0.01)


def test_the_same_noon_twice_is_the_same_as_once(noon: Noon) -> None:
    noon.put(deficit())
    noon.plan()
    noon.now += DAY_S
    assert noon.carry()
    before = (noon.soil(), len(noon.edits()))
    assert not noon.carry()
    assert (noon.soil(), len(noon.edits())) == before


def test_each_noon_moves_the_same_record_on_in_one_set_by_the_server(noon: Noon) -> None:
    noon.put(deficit())
    noon.plan()
    for _day in range(3):
        noon.now += DAY_S
        noon.plan()
    assert set(noon.soil()) == {"h1.2026-07-10", "worked.h1"}
    assert noon.soil()["worked.h1"][0] == "2026-07-13"
    sets = {edit.edit_set for edit in noon.edits() if edit.record == "worked.h1"}
    assert len(sets) == 3


def test_a_late_rain_changes_every_day_from_its_own_on_and_not_what_was_given(noon: Noon) -> None:
    """No sheets, and 4 mm a day: with 3 mm of rain on the 8th all mornings after it lack less."""
    start = NIGHT - timedelta(days=4)
    zone = {"soil": "clay", "roots_m": 1.0, "species_factor": 0.8, "watering": "deficit"}
    dry = [weather(start + timedelta(days=number), et_mm=5, rain_mm=0) for number in range(5)]
    noon.put(a_need_site(soil_water(10, start), *dry, zone=zone))
    noon.carry()
    assert noon.soil()["worked.h1"][1] == pytest.approx(10 + 4 * 4)
    wet = [{**row, "rain_mm": 3.0} if row["day"] == "2026-07-08" else row for row in dry]
    worked = {**soil_water(26, NIGHT), "id": "worked.h1", "how": "worked_out"}
    noon.put(a_need_site(soil_water(10, start), worked, *wet, zone=zone))
    given = {night: row.applied_mm for night, row in noon.nights().items()}
    assert noon.carry()
    assert noon.soil()["worked.h1"][1] == pytest.approx(10 + 4 * 4 - 3)
    mornings = {night: row.depletion_mm for night, row in sorted(noon.nights().items())}
    assert mornings == pytest.approx({"2026-07-06": 14, "2026-07-07": 18, "2026-07-08": 19, "2026-07-09": 23})
    assert {night: row.applied_mm for night, row in noon.nights().items()} == given


def test_what_somebody_measured_today_stands_alone_and_the_balance_goes_on_from_it(noon: Noon) -> None:
    noon.put(deficit())
    noon.plan()
    noon.now += DAY_S
    measured = soil_water(31, NIGHT + timedelta(days=1), how="measured")
    noon.put(a_need_site(soil_water(20), measured))
    noon.carry()
    found = noon.found().document
    assert not [one for one in found.soil_water.values() if one.day == "2026-07-11" and one.how == "worked_out"]
    need = needs_on(found, date(2026, 7, 11)).zones["h1"].need
    assert need is not None and need.decision.depletion_mm == pytest.approx(35)


def test_a_site_set_by_hand_is_left_alone(noon: Noon) -> None:
    data = deficit()
    for record in data["records"]:
        record.pop("mode", None)
    noon.put(data)
    noon.plan()
    noon.now += DAY_S
    noon.plan()
    assert (noon.edits(), noon.nights()) == ([], {})


def by_itself(pct: int) -> dict[str, Any]:
    week = [weather(NIGHT - timedelta(days=back), et_mm=4.5, rain_mm=0) for back in range(1, 8)]
    return a_need_site(soil_water(20, NIGHT), *week, program={"seasonal_by_itself_pct": pct})


@pytest.mark.parametrize(("allowed", "after"), [(10, 90), (5, 100), (0, 100)])
def test_a_program_takes_by_itself_what_it_may(noon: Noon, allowed: int, after: int) -> None:
    """4.5 mm beside a peak of 5: 90 percent."""
    noon.put(by_itself(allowed))
    noon.plan()
    assert noon.found().document.programs["p1"].seasonal_pct == after
    taken = [edit for edit in noon.edits() if edit.record_table == "programs"]
    assert [(edit.record, edit.field, edit.now) for edit in taken] == ([("p1", "seasonal_pct", "90")] * (after == 90))


def test_what_somebody_set_back_is_not_taken_again_before_the_next_noon(noon: Noon) -> None:
    noon.put(by_itself(10))
    noon.plan()
    noon.put(by_itself(10))
    noon.plan()
    assert noon.found().document.programs["p1"].seasonal_pct == 100
    noon.now += DAY_S
    noon.plan()
    assert noon.found().document.programs["p1"].seasonal_pct == 90
