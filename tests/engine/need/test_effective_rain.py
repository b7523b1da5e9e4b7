"""Effective rain beside published rules. Several tables are from memory; their cases say so."""

from __future__ import annotations

import pytest

from engine.need.need_cases import cases, holds
from pengan.engine.need import rain, rain_month

CASES = cases("effective_rain")
INCH = 25.4


def test_the_linear_rule_by_the_month() -> None:
    case = CASES["fao-manual3-table6"]
    holds(case, effective_rain_mm=[rain_month.fao_linear(mm) for mm in case["inputs"]["rain_mm_month"]])


def test_the_form_without_use() -> None:
    case = CASES["scs-no-et-form"]
    holds(case, effective_rain_mm=[rain_month.scs_rain_only(mm) for mm in case["inputs"]["rain_mm_month"]])


@pytest.mark.parametrize("case_id", sorted(case for case in CASES if case.startswith("neh623")))
def test_the_handbooks_equation(case_id: str) -> None:
    case = CASES[case_id]
    storage = case["inputs"]["D_in"] * INCH
    effective = rain_month.scs_with_use(case["inputs"]["P_in"] * INCH, case["inputs"]["ETc_in"] * INCH, storage)
    holds(case, SF=rain_month.scs_storage_factor(storage), Pe_in=effective / INCH)


@pytest.mark.parametrize("case_id", [*sorted(case for case in CASES if case.startswith("scs-table")), "fao24-example"])
def test_the_metric_table(case_id: str) -> None:
    case = CASES[case_id]
    given = case["inputs"]
    worked = rain_month.scs_with_use(given["rain_mm_month"], given["ETcrop_mm_month"], given["storage_mm"])
    if case_id == "fao24-example":
        assert worked == pytest.approx(case["expected"]["effective_rain_mm"], abs=2.0)
    else:
        holds(case, effective_rain_mm=worked)


def test_the_rule_by_events() -> None:
    case = CASES["texas-event-rule"]
    holds(
        case, effective_in=[rain.by_events(inches * INCH).effective_mm / INCH for inches in case["inputs"]["rain_in"]]
    )


def test_the_quarter_of_a_year() -> None:
    case = CASES["mwelo-annual-25pct"]
    holds(case, Eppt_in=rain_month.share_of_year(case["inputs"]["annual_precip_in"]))
