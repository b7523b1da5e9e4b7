"""Rates, uniformity, run times, cycles and soaks beside published and derived arithmetic."""

from __future__ import annotations

from math import inf

import pytest

from engine.need.need_cases import cases, holds
from pengan.engine.need import cans, intake, rates
from pengan.engine.need.cans import Audit, Can, audit
from pengan.engine.need.intake import Cycles, Intake
from pengan.engine.need.minutes import run_time

CASES = cases("sprinklers")
INCH, GALLON_L, FOOT2_M2 = 25.4, 3.785411784, 0.09290304


def inches_an_hour(gallons_a_minute: float, square_feet: float) -> float:
    return rates.rate_mm_h(gallons_a_minute * GALLON_L, square_feet * FOOT2_M2) / INCH


def test_the_constant_of_the_rate() -> None:
    holds(
        CASES["pr-constant"],
        US_gpm_ft2_in_h=inches_an_hour(1, 1),
        SI_L_min_m2_mm_h=rates.rate_mm_h(1, 1),
        SI_m3_h_m2_mm_h=rates.rate_mm_h(1000 / 60, 1),
    )


def test_rates_of_whole_stations() -> None:
    case = CASES["pr-zone-example"]
    flow = sum(head["n"] * head["gpm"] for head in case["inputs"]["heads"])
    holds(case, total_gpm=flow, PR_in_h=inches_an_hour(flow, case["inputs"]["area_ft2"]))
    case = CASES["pr-metric"]
    rate = rates.rate_mm_h(case["inputs"]["Q_L_min"], case["inputs"]["area_m2"])
    holds(case, PR_mm_h=rate, PR_in_h=rate / INCH)
    case = CASES["pr-us-si-consistency"]
    holds(case, PR_mm_h=inches_an_hour(case["inputs"]["Q_gpm"], case["inputs"]["area_ft2"]) * INCH)


def test_the_rate_of_a_triangle_of_heads() -> None:
    case = CASES["pr-triangular-example"]
    given = case["inputs"]
    area = given["row_spacing_ft"] * given["head_spacing_ft"] * given["factor"]
    holds(case, denominator=area, PR_in_h=inches_an_hour(given["gpm_full_circle"], area))


@pytest.mark.parametrize("case_id", sorted(case for case in CASES if case.startswith("sm-du")))
def test_the_multiplier(case_id: str) -> None:
    case = CASES[case_id]
    holds(case, scheduling_multiplier=rates.multiplier(case["inputs"]["DU_lq"]))


def test_run_times_by_either_multiplier() -> None:
    case = CASES["runtime-old-vs-new"]
    need, rate = case["inputs"]["plant_water_requirement_in"], case["inputs"]["PR_in_h"]
    quarter = rates.multiplier(case["inputs"]["DU_lq"], "quarter")
    half = rates.multiplier(case["inputs"]["DU_lq"], "half")
    holds(
        case,
        IWR_lq_in=need * quarter, runtime_lq_min=rates.run_minutes(need, rate, quarter),
        IWR_sm_in=need * half, runtime_sm_min=rates.run_minutes(need, rate, half),
    )  # fmt: skip
    case = CASES["runtime-depth"]
    given = case["inputs"]
    minutes = rates.run_minutes(given["net_depth_mm"], given["PR_mm_h"], given["scheduling_multiplier"])
    holds(case, runtime_min=minutes, gross_depth_mm=given["net_depth_mm"] * given["scheduling_multiplier"])


def test_intake_and_surface_storage_are_those_of_the_table() -> None:
    expected = CASES["soil-intake-and-asa"]["expected"]
    for texture, rate in expected["basic_intake_rate_in_h"].items():
        for slope, storage in zip((2, 5, 10, 20), expected["allowable_surface_accumulation_in"][texture], strict=True):
            found = intake.intake_of(texture, slope)
            assert found.rate_mm_h == pytest.approx(rate * INCH) and found.storage_mm == pytest.approx(storage * INCH)


@pytest.mark.parametrize("case_id", ["clay-1_5", "clay_loam-1_6", "loam-1_5", "sand-0_55"])
def test_the_longest_cycle_and_the_least_soak(case_id: str) -> None:
    case = CASES[f"cycle-soak-{case_id}"]
    given = case["inputs"]
    place = Intake(given["IR_in_h"] * INCH, given["ASA_in"] * INCH)
    longest = intake.longest_cycle_min(given["PR_in_h"] * INCH, place)
    holds(case, soak_min=intake.least_soak_min(place))
    if case["expected"]["max_cycle_min"] is None:
        assert longest == inf
    else:
        holds(case, max_cycle_min=longest)


def test_half_an_hour_on_clay_in_cycles() -> None:
    case = CASES["cycle-soak-plan"]
    clay = intake.intake_of("clay", 2)
    assert intake.longest_cycle_min(1.5 * INCH, clay) == pytest.approx(case["inputs"]["max_cycle_min"], abs=1e-4)
    split = intake.split_run(round(60 * case["inputs"]["total_runtime_min"]), 1.5 * INCH, clay)
    holds(case, cycles=split.cycles, minutes_per_cycle=split.longest_s / 60)
    assert split.soak_s <= 60 * intake.least_soak_min(clay)


def test_a_turn_without_room_says_what_fits() -> None:
    """12 mm on clay at 38 mm/h in an hour: the cycles that fit with their soaks, never one that runs off."""
    rate = rates.Rate("st-1", 38.1, 0.7, "audit")
    run = run_time(12, rate, intake.intake_of("clay", 2), window_s=3600)
    assert run.wanted.elapsed_s > 3600 >= run.fitting.elapsed_s and 0 < run.fitting.run_s < run.wanted.run_s
    assert [message.code for message in run.messages] == ["need.runs_off"]
    assert run.messages[0].params["station"] == "st-1"


def test_a_turn_with_more_cycles_than_a_turn_may_have_says_so() -> None:
    run = run_time(200, rates.Rate("st-1", 60, 0.5, "audit"), intake.intake_of("clay", 20))
    assert run.wanted.cycles > 48 == run.fitting.cycles
    assert "need.runs_off" in [message.code for message in run.messages]


def test_standing_water_runs_off_only_beyond_what_the_surface_holds() -> None:
    place = Intake(rate_mm_h=6, storage_mm=2)
    assert intake.ran_off_mm([(0, 360)], 26, place) == pytest.approx(0)
    assert intake.ran_off_mm([(0, 720)], 26, place) == pytest.approx(2)
    assert intake.ran_off_mm([(0, 360), (360 + 1200, 360 + 1560)], 26, place) == pytest.approx(0)
    assert intake.ran_off_mm([(0, 360), (360 + 600, 360 + 960)], 26, place) == pytest.approx(1)


def test_no_soil_means_no_cycles() -> None:
    assert intake.split_run(1800, 40, None) == Cycles(1800, 1, 0)
    assert intake.split_run(0, 40, None) == Cycles(0, 0, 0)


FIFTEEN = [12.0, 14, 15, 16, 17, 18, 18, 19, 20, 20, 21, 22, 23, 24, 26]


@pytest.mark.parametrize(
    ("rule", "low_mean"), [("up", 57 / 4), ("down", 41 / 3), ("exact", (12 + 14 + 15 + 0.75 * 16) / 3.75)]
)
def test_the_lower_quarter_of_fifteen_cans_by_each_rule(rule: str, low_mean: float) -> None:
    """Four, three or 3.75 cans: publications differ, so the rule is said (hand arithmetic)."""
    assert cans.lower_share(FIFTEEN, 4, rule) == pytest.approx(low_mean / (sum(FIFTEEN) / 15))


def test_uniformity_of_a_straight_ramp() -> None:
    """Cans of 1 to 8: mean 4.5, lowest two 1.5, lower half 2.5, mean deviation 2 (hand arithmetic)."""
    ramp = [8.0, 1, 7, 2, 6, 3, 5, 4]
    assert cans.lower_share(ramp, 4) == pytest.approx(1.5 / 4.5)
    assert cans.lower_share(ramp, 2) == pytest.approx(2.5 / 4.5)
    assert cans.christiansen(ramp) == pytest.approx(1 - 2 / 4.5)


def test_christiansen_is_the_lower_half_where_the_middle_is_the_mean() -> None:
    """An identity, which is why published pairs of the two lie close together (von Bernuth & Mecham: 0.805, 0.81)."""
    even = [1 + 0.02 * place for place in range(-50, 50)]
    assert cans.christiansen(even) == pytest.approx(cans.lower_share(even, 2))


def test_an_audit_in_millilitres() -> None:
    """A can with 100 cm² of opening catches 10 ml a millimetre."""
    grid = tuple(Can(place % 5, place // 5, 10 * mm) for place, mm in enumerate(FIFTEEN))
    wetting, messages = audit(Audit("st-1", (*grid, Can(9, 9, None)), ran_s=1200, unit="ml", throat_cm2=100), "up")
    assert wetting is not None
    assert wetting.depths_mm == pytest.approx(FIFTEEN) and wetting.rate_mm_h == pytest.approx(3 * 19)
    assert wetting.uniformity_lq == pytest.approx(57 / 4 / 19) and wetting.lowest[0] == (0, 0)
    assert [message.code for message in messages] == ["audit.few_cans"]


def test_a_bad_audit_says_everything_at_once() -> None:
    grid = (Can(0, 0, 5.0), Can(1, 0, -2.0), Can(2, 0, None))
    wetting, messages = audit(Audit("st-1", grid, ran_s=0, unit="ml"))
    assert wetting is None
    assert [message.code for message in messages] == ["audit.bad_can", "audit.no_time", "audit.no_throat"]
    assert messages[0].params["can"] == 2
    assert [m.code for m in audit(Audit("st-1", (Can(0, 0, 0.0),), 60))[1]] == ["audit.all_dry"]
    assert [m.code for m in audit(Audit("st-1", (), 60))[1]] == ["audit.no_cans"]


def test_a_station_without_area_keeps_its_hand_set_time() -> None:
    rate, messages = rates.station_rate("st-9", 40, None)
    assert rate is None and [(m.code, m.params["station"]) for m in messages] == [("need.no_area", "st-9")]
    rate, messages = rates.station_rate("st-9", 40, 100)
    assert rate is not None and rate.mm_h == 24 and [m.code for m in messages] == ["need.no_audit"]
    rate, messages = rates.station_rate("st-9", 40, None, audited=(18.0, 0.71))
    assert rate is not None and (rate.mm_h, rate.uniformity_lq) == (18.0, 0.71) and messages == ()
    assert [m.code for m in rates.station_rate("st-9", 4000, 100)[1]] == ["need.no_audit", "need.odd_rate"]


def test_unevenness_costs_water() -> None:
    """100 mm on 1000 m² at DU 0.5 in place of 0.75 (hand arithmetic: 1/0.7 - 1/0.85 of 100 000 l)."""
    assert rates.extra_litres(100, 1000, 0.5, 0.75) == pytest.approx(100_000 * (1 / 0.7 - 1 / 0.85))
    assert rates.extra_litres(100, 1000, 0.9, 0.75) == 0
