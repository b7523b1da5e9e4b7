"""Allowances and estimates beside ordinances' own examples."""

from __future__ import annotations

import pytest

from engine.need.need_cases import cases, holds
from pengan.engine.need import allowance, plants
from pengan.engine.need.allowance import Ordinance, Planted
from pengan.engine.need.coefficients import landscape_coefficient

CASES = cases("landscape")


@pytest.mark.parametrize(
    ("case_id", "rules", "key"),
    [
        ("mwelo2009-mawa-no-sla", allowance.MWELO_2009, "MAWA_gal_yr"),
        ("mwelo2009-mawa-sla", allowance.MWELO_2009, "MAWA_gal_yr"),
        ("mwelo2015-mawa-residential", allowance.MWELO_HOMES, "MAWA_gal_yr"),
        ("mwelo2015-mawa-nonresidential", allowance.MWELO_OTHERS, "MAWA_gal_yr"),
        ("mwelo-existing-landscape", allowance.MWELO_EXISTING, "MAWA_gal_yr"),
    ],
)
def test_the_most_allowed(case_id: str, rules: Ordinance, key: str) -> None:
    case = CASES[case_id]
    reference, area = case["inputs"]["ETo_in_yr"], case["inputs"]["LA_ft2"]
    holds(case, **{key: allowance.most_allowed(rules, reference, area, case["inputs"].get("SLA_ft2", 0))})


def test_an_allowance_in_hundred_cubic_feet() -> None:
    case = CASES["mwelo2009-mawa-no-sla"]
    gallons = allowance.most_allowed(allowance.MWELO_2009, 51.1, 50000)
    holds(case, MAWA_hcf_yr=gallons / CASES["mwelo-constants"]["expected"]["gal_per_hcf"])


def test_an_allowance_less_effective_rain() -> None:
    """The municipal form: (ETo - Eppt) 0.62 [0.55 LA + 0.45 SLA]."""
    case = CASES["mwelo-effective-precip"]
    rules = Ordinance("own", 0.55, factor=0.62, rain_share=case["inputs"]["Eppt_fraction"])
    holds(case, MAWA_gal_yr=allowance.most_allowed(rules, 51.1, 50000, 2000, rain=case["inputs"]["annual_precip_in"]))


def test_the_estimate_of_2009() -> None:
    case = CASES["mwelo2009-etwu"]
    planted = [Planted(str(n), zone["PF"], case["inputs"]["IE"], zone["HA_ft2"])
               for n, zone in enumerate(case["inputs"]["hydrozones"])]  # fmt: skip
    use = allowance.estimated(allowance.MWELO_2009, 51.1, planted, case["inputs"]["SLA_ft2"])
    parts = [one.plant_factor * one.area for one in planted]
    holds(case, ETWU_gal_yr=use, PFxHA=parts, sum_PFxHA=sum(parts))
    assert (use <= allowance.most_allowed(allowance.MWELO_2009, 51.1, 50000, 2000)) == case["expected"]["complies"]


def test_the_worksheet_of_2015() -> None:
    case = CASES["mwelo2015-worksheet"]
    reference, special = case["inputs"]["ETo_in_yr"], case["inputs"]["SLA_ft2"]
    planted = [Planted(zone["name"], zone["PF"], zone["IE"], zone["area_ft2"]) for zone in case["inputs"]["zones"]]
    rules = allowance.MWELO_HOMES
    shares = sum(one.share * one.area for one in planted)
    area = sum(one.area for one in planted)
    holds(
        case,
        ETAF=[one.share for one in planted],
        ETAF_x_area=[one.share * one.area for one in planted],
        ETWU_gal_yr=[allowance.estimated(rules, reference, [one]) for one in planted],
        SLA_ETWU_gal_yr=allowance.estimated(rules, reference, [], special),
        sum_ETAF_x_area=shares, total_area_ft2=area, average_ETAF=shares / area,
        sitewide_ETAF=(shares + special) / (area + special),
        ETWU_total_gal_yr=allowance.estimated(rules, reference, planted, special),
    )  # fmt: skip


def test_the_constants_are_the_ordinances() -> None:
    expected = CASES["mwelo-constants"]["expected"]
    assert expected["conv_gal_per_ft2_in"] == allowance.GALLONS_MWELO == allowance.MWELO_HOMES.factor
    assert expected["ETAF_residential"] == allowance.MWELO_HOMES.share
    assert expected["ETAF_nonresidential"] == allowance.MWELO_OTHERS.share
    assert expected["ETAF_2009"] == allowance.MWELO_2009.share
    assert expected["ETAF_special_landscape_area_max"] == allowance.MWELO_HOMES.special_share
    holds(CASES["gal-per-ft2-inch-exact"], gal_per_ft2_inch=allowance.GALLONS_EXACT)


def test_the_allowance_in_litres_is_the_ordinances_own() -> None:
    """51.1 in on 50000 ft² told in mm, m² and litres: the same water."""
    rules = Ordinance("mwelo_2015_residential", 0.55, factor=allowance.litres_factor())
    litres = allowance.most_allowed(rules, 51.1 * 25.4, 50000 * 0.09290304, 2000 * 0.09290304)
    assert litres / 3.785411784 == pytest.approx(899768.8, rel=1e-9)


def test_the_landscape_coefficient() -> None:
    case = CASES["wucols-kl-new-planting"]
    holds(case, KL=landscape_coefficient(**_factors(case["inputs"])).value)
    extremes = CASES["wucols-kl-extremes"]
    high, low = (landscape_coefficient(**_factors(extremes["inputs"][end])).value for end in ("high", "low"))
    holds(extremes, KL_high=high, KL_low=low)


def _factors(given_: dict[str, float]) -> dict[str, float]:
    return {"species": given_["ks"], "density": given_["kd"], "microclimate": given_["kmc"]}


def test_the_ranges_and_factors_are_those_of_the_guide() -> None:
    ranges = CASES["wucols-factor-ranges"]["expected"]
    assert {name: list(ends) for name, ends in plants.SPECIES_RANGES.items()} == ranges["ks"]
    for ours, theirs in ((plants.DENSITY_RANGES, ranges["kd"]), (plants.MICROCLIMATE_RANGES, ranges["kmc"])):
        assert {name: list(ends) for name, ends in ours.items() if name != "average"} == {
            name: ends for name, ends in theirs.items() if name != "average"
        }
        assert ours["average"] == (theirs["average"], theirs["average"])
    assert dict(plants.PLANT_FACTORS) == CASES["plant-factors-s623"]["expected"]


def test_water_applied_is_use_over_efficiency() -> None:
    case = CASES["wucols-twa"]
    depths = [Planted("x", case["inputs"]["ETL_in"], efficiency, 1).share for efficiency in case["inputs"]["IE"]]
    holds(case, TWA_in=depths)
    one = CASES["wucols-twa-case1"]
    holds(one, TWA_in=Planted("x", one["inputs"]["ETL_in"], one["inputs"]["IE"], 1).share)


def test_watersense() -> None:
    case = CASES["watersense-baseline-allowance"]
    given_ = case["inputs"]
    whole = Ordinance("baseline", 1.0, factor=given_["Cu"])
    reference, area = given_["ETo_peak_month_in"], given_["area_ft2"]
    holds(
        case,
        baseline_gal_month=allowance.most_allowed(whole, reference, area),
        LWA_gal_month=allowance.most_allowed(allowance.WATERSENSE, reference, area),
    )
    case = CASES["watersense-requirement"]
    given_ = case["inputs"]
    need = allowance.required(
        given_["ETo_peak_month_in"], given_["KL"], given_["allowable_rain_in"], given_["DU_lq"], given_["area_ft2"],
        given_["Cu"],
    )  # fmt: skip
    holds(case, LWR_gal_month=need)


def test_months_add_up_to_the_year() -> None:
    months = allowance.by_month(1200.0, [1, 2, 3, 4, 5, 6, 6, 5, 4, 3, 2, 1])
    assert sum(months) == pytest.approx(1200) and months[5] == pytest.approx(6 * months[0])
    assert allowance.by_month(1200.0, [0.0] * 12) == (100.0,) * 12


def test_a_budget_shows_every_month_that_any_side_knows() -> None:
    found = allowance.lines({("2026-05", "hz"): 100.0}, {("2026-05", "hz"): 80.0}, {("2026-06", "hz"): 30.0})
    assert [(line.month, line.allowed_l, line.planned_l, line.used_l, line.left_l) for line in found] == [
        ("2026-05", 100.0, 80.0, 0.0, 100.0),
        ("2026-06", 0.0, 0.0, 30.0, -30.0),
    ]
