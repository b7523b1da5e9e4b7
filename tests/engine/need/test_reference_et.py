"""Reference evapotranspiration beside the worked examples of FAO-56 and published runs of the ASCE-EWRI equation."""

from __future__ import annotations

from datetime import date
from math import pi, radians

import pytest

from engine.need.need_cases import Case, cases, holds
from pengan.engine.need import air, radiation
from pengan.engine.need.filling import Filling
from pengan.engine.need.hargreaves import hargreaves_mm
from pengan.engine.need.ladder import Station, reference_on
from pengan.engine.need.penman import ASCE_SHORT, ASCE_TALL, FAO56, Field, Form, Worked, reference_day, reference_hour
from pengan.engine.need.weather import DayWeather

CASES = cases("reference_et")


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) * 5 / 9


def test_pressure_and_psychrometric_constant_follow_altitude() -> None:
    case = CASES["fao56-ex02-pressure"]
    pressure = air.pressure_kpa(case["inputs"]["elevation_m"])
    holds(case, P_kPa=pressure, gamma_kPa_per_C=air.psychrometric(pressure))


def test_pressure_agrees_with_the_asce_table() -> None:
    case = CASES["asce-table-c2-pressure"]
    pressure = air.pressure_kpa(case["inputs"]["elevation_m"])
    holds(case, P_kPa=pressure, gamma_kPa_C=air.psychrometric(pressure))


def test_slope_agrees_with_the_asce_table() -> None:
    case = CASES["asce-table-c3-slope"]
    holds(case, slope_kPa_C=[air.slope_kpa(mean, 2503) for mean in case["inputs"]["Tmean_C"]])


def test_vapour_pressure_from_two_bulbs() -> None:
    case = CASES["fao56-ex04-ea-psychrometer"]
    given = case["inputs"]
    pressure = air.pressure_kpa(given["elevation_m"])
    vapour = air.vapour_from_bulbs_kpa(given["Tdry_C"], given["Twet_C"], pressure, given["a_psy_per_C"])
    holds(case, P_kPa=pressure, e0_Twet_kPa=air.saturation_kpa(given["Twet_C"]), ea_kPa=vapour)


def test_longwave_radiation_step_by_step() -> None:
    case = CASES["fao56-ex11-Rnl"]
    given = case["inputs"]
    high, low, vapour = given["Tmax_C"], given["Tmin_C"], given["ea_kPa"]
    ratio = radiation.cloud_ratio(given["Rs_MJ_m2_d"], given["Rso_MJ_m2_d"])
    away = radiation.net_long_day(high, low, vapour, ratio)
    holds(
        case,
        sigma_TmaxK4=radiation.STEFAN_DAY * (high + radiation.KELVIN) ** 4,
        sigma_TminK4=radiation.STEFAN_DAY * (low + radiation.KELVIN) ** 4,
        cloud_term=1.35 * ratio - 0.35,
        Rnl_MJ_m2_d=away,
        Rnl_mm_d=radiation.MM_PER_MJ * away,
    )


def test_net_radiation() -> None:
    case = CASES["fao56-ex12-Rn"]
    short = radiation.net_short(case["inputs"]["Rs_MJ_m2_d"])
    net = short - case["inputs"]["Rnl_MJ_m2_d"]
    holds(case, Rns_MJ_m2_d=short, Rn_MJ_m2_d=net, Rn_mm_d=radiation.MM_PER_MJ * net)


def test_heat_into_the_ground_over_a_month() -> None:
    case = CASES["fao56-ex13-G-month"]
    heat = radiation.soil_heat_month(case["inputs"]["T_prev_month_C"], case["inputs"]["T_next_month_C"])
    holds(case, G_MJ_m2_d=heat, G_mm_d=radiation.MM_PER_MJ * heat)


def test_wind_is_brought_to_two_metres() -> None:
    case = CASES["fao56-ex14-wind"]
    height = case["inputs"]["z_m"]
    holds(
        case,
        factor=air.wind_at_two_metres(1.0, height),
        u2_m_s=air.wind_at_two_metres(case["inputs"]["uz_m_s"], height),
    )


def test_radiation_from_temperatures() -> None:
    case = CASES["fao56-ex15-Rs-temperature"]
    given = case["inputs"]
    above = radiation.above_air_day(radians(given["lat_deg"]), given["J"])
    solar = radiation.from_temperatures(above, given["Tmax_C"], given["Tmin_C"], given["kRs"])
    holds(case, Ra_MJ_m2_d=above, Rs_MJ_m2_d=solar, Rs_mm_d=radiation.MM_PER_MJ * solar)


def test_the_constants_are_the_published_ones() -> None:
    expected = CASES["fao56-eq6-constants"]["expected"]
    assert expected["Gsc_MJ_m2_min"] == radiation.SOLAR_MIN
    assert expected["sigma_MJ_K4_m2_d"] == radiation.STEFAN_DAY
    assert expected["albedo_grass"] == radiation.ALBEDO
    assert expected["mm_per_MJ_m2"] == radiation.MM_PER_MJ
    assert expected["kelvin_offset"] == radiation.KELVIN
    assert Filling().least_wind_mps == expected["u2_floor_recommended_m_s"]
    assert Filling().wind_mps == expected["u2_default_when_missing_m_s"]


def test_a_day_at_uccle_step_by_step() -> None:
    """FAO-56 example 18, from sunshine and both humidities, through the ladder as a site would."""
    case = CASES["fao56-ex18-daily-ETo"]
    given = case["inputs"]
    seen = DayWeather(
        day=date(2001, 7, 6), high_c=given["Tmax_C"], low_c=given["Tmin_C"], dampest_pct=given["RHmax_pct"],
        driest_pct=given["RHmin_pct"], wind_mps=given["wind_km_h_at_10m"] / 3.6, wind_height_m=10,
        sunshine_h=given["n_hours"],
    )  # fmt: skip
    reference = reference_on(Station(Field(given["lat_deg"], given["elevation_m"])), seen.day, seen)
    worked = reference.worked
    assert worked is not None and reference.rung == "full" and reference.et_mm == worked.et_mm
    holds(
        case,
        u2_m_s=worked.wind_mps, P_kPa=worked.pressure_kpa, delta_kPa_per_C=worked.slope_kpa,
        gamma_kPa_per_C=worked.gamma_kpa, es_kPa=worked.saturation_kpa, ea_kPa=worked.vapour_kpa,
        vpd_kPa=worked.saturation_kpa - worked.vapour_kpa, Ra_MJ_m2_d=worked.above_mj,
        N_hours=radiation.daylight_h(radians(given["lat_deg"]), given["J"]), Rs_MJ_m2_d=worked.solar_mj,
        Rso_MJ_m2_d=worked.clear_mj, Rns_MJ_m2_d=worked.net_short_mj, Rnl_MJ_m2_d=worked.net_long_mj,
        Rn_MJ_m2_d=worked.net_mj, ETo_mm_d=worked.et_mm,
    )  # fmt: skip


def senegal(form: Form) -> Worked:
    given = CASES["fao56-ex19-hourly-day"]["inputs"]
    field = Field(16 + 13 / 60, given["elevation_m"], -given["lon_deg_west"])
    return reference_hour(
        form, field, given["J"],
        utc_middle_h=given["t_mid_hour"] + given["Lz_deg_west"] / 15, mean_c=given["T_C"],
        vapour_kpa=air.saturation_kpa(given["T_C"]) * given["RH_pct"] / 100, wind_mps=given["u2_m_s"],
        solar_mj=given["Rs_MJ_m2_h"],
    )  # fmt: skip


def test_an_afternoon_hour_in_senegal_step_by_step() -> None:
    case = CASES["fao56-ex19-hourly-day"]
    given, worked = case["inputs"], senegal(FAO56)
    utc = given["t_mid_hour"] + given["Lz_deg_west"] / 15
    angles = radiation.hour_angles(radians(16 + 13 / 60), -given["lon_deg_west"], given["J"], utc)
    holds(
        case,
        delta_kPa_per_C=worked.slope_kpa, gamma_kPa_per_C=worked.gamma_kpa, e0_kPa=worked.saturation_kpa,
        ea_kPa=worked.vapour_kpa, vpd_kPa=worked.saturation_kpa - worked.vapour_kpa, omega_rad=angles.middle,
        omega1_rad=angles.first, omega2_rad=angles.last, Ra_MJ_m2_h=worked.above_mj, Rso_MJ_m2_h=worked.clear_mj,
        Rns_MJ_m2_h=worked.net_short_mj, Rnl_MJ_m2_h=worked.net_long_mj, Rn_MJ_m2_h=worked.net_mj,
        G_MJ_m2_h=worked.ground_mj, ETo_mm_h=worked.et_mm,
    )  # fmt: skip


def test_the_asce_hour_takes_less_resistance_by_day() -> None:
    """0.656 mm for the hour of FAO-56 example 19 is in the notes of that case (ASCE-EWRI's Cd of 0.24)."""
    assert senegal(ASCE_SHORT).et_mm == pytest.approx(0.656, abs=0.001)


def lyon() -> DayWeather:
    given = CASES["fao56-ex20-missing-data"]["inputs"]
    return DayWeather(day=date(2001, 7, 15), high_c=given["Tmax_C"], low_c=given["Tmin_C"])


def test_only_temperatures_with_everything_else_filled() -> None:
    case = CASES["fao56-ex20-missing-data"]
    field = Field(case["inputs"]["lat_deg"], case["inputs"]["elevation_m"])
    by_wind = {}
    for wind in (1.0, 2.0, 3.0):
        station = Station(field, filling=Filling(wind_mps=wind, alone="penman"))
        by_wind[wind] = reference_on(station, lyon().day, lyon())
    worked = by_wind[2.0].worked
    assert worked is not None and by_wind[2.0].rung == "filled"
    assert by_wind[2.0].hows == ("vapour_low", "solar_temperatures", "wind_assumed")
    holds(
        case,
        delta_kPa_per_C=worked.slope_kpa, gamma_kPa_per_C=worked.gamma_kpa, ea_kPa=worked.vapour_kpa,
        es_kPa=worked.saturation_kpa, vpd_kPa=worked.saturation_kpa - worked.vapour_kpa,
        RHmin_pct=100 * worked.vapour_kpa / air.saturation_kpa(case["inputs"]["Tmax_C"]),
        Ra_MJ_m2_d=worked.above_mj, Rs_MJ_m2_d=worked.solar_mj, Rso_MJ_m2_d=worked.clear_mj,
        Rns_MJ_m2_d=worked.net_short_mj, Rnl_MJ_m2_d=worked.net_long_mj, Rn_MJ_m2_d=worked.net_mj,
        ETo_mm_d=worked.et_mm, ETo_if_u2_1_mm_d=by_wind[1.0].et_mm, ETo_if_u2_3_mm_d=by_wind[3.0].et_mm,
    )  # fmt: skip


def test_only_temperatures_by_hargreaves() -> None:
    case = CASES["fao56-ex20-missing-data"]
    station = Station(Field(case["inputs"]["lat_deg"], case["inputs"]["elevation_m"]))
    reference = reference_on(station, lyon().day, lyon())
    assert reference.rung == "temperature"
    holds(case, ETo_Hargreaves_eq52_mm_d=reference.et_mm)


def test_libraries_runs_on_the_same_example() -> None:
    case = CASES["libs-on-fao-ex20"]
    field = Field(45.72, 200)
    day = {"high_c": 26.6, "low_c": 14.8, "vapour_kpa": air.saturation_kpa(14.8), "wind_mps": 2.0, "solar_mj": 22.29}
    holds(
        case,
        pyet_pm_fao56_mm_d=reference_day(FAO56, field, 196, **day).et_mm,
        refet_asce_short_mm_d=reference_day(ASCE_SHORT, field, 196, **day).et_mm,
        pyet_hargreaves_mm_d=hargreaves_mm(field, 196, 26.6, 14.8),
        FAO_printed_mm_d=reference_day(FAO56, field, 196, **day).et_mm,
    )


def test_april_in_bangkok_by_the_month() -> None:
    """FAO-56 example 17: the inputs are from memory, the results stand in the case (13°44' N, 2 m, day 105)."""
    case = CASES["libs-on-fao-ex17"]
    field = Field(13 + 44 / 60, 2)
    day = {"high_c": 34.8, "low_c": 25.6, "vapour_kpa": 2.85, "wind_mps": 2.0}
    given = case["inputs"]["Rs_MJ_m2_d"]
    longest = radiation.daylight_h(radians(field.latitude_deg), 105)
    above = radiation.above_air_day(radians(field.latitude_deg), 105)
    assert radiation.from_sunshine(above, 8.5, longest) == pytest.approx(given, abs=0.01)
    holds(
        case,
        pyet_pm_fao56_with_G_0_14_mm_d=reference_day(FAO56, field, 105, solar_mj=given, ground_mj=0.14, **day).et_mm,
        pyet_pm_fao56_with_G_0_mm_d=reference_day(FAO56, field, 105, solar_mj=given, **day).et_mm,
        refet_asce_short_G_0_mm_d=reference_day(ASCE_SHORT, field, 105, solar_mj=given, **day).et_mm,
        refet_asce_tall_G_0_mm_d=reference_day(ASCE_TALL, field, 105, solar_mj=given, **day).et_mm,
        pyet_Ra_MJ_m2_d=above, pyet_N_hours=longest,
    )  # fmt: skip


def fallon(form: Form, case: Case, **given: float) -> float:
    field = Field(case["inputs"]["lat_deg"], case["inputs"]["elevation_m"], full_sky=bool(given.pop("full", 0)))
    wind = air.wind_at_two_metres(given.pop("wind_mps"), case["inputs"]["zw_m"])
    return reference_day(form, field, case["inputs"]["doy"], wind_mps=wind, **given).et_mm


@pytest.mark.parametrize(("case_id", "full"), [("refet-daily-asce", 0), ("refet-daily-refet", 1)])
def test_a_day_at_fallon_by_either_clear_sky(case_id: str, full: int) -> None:
    case = CASES[case_id]
    given = case["inputs"]
    day = {
        "high_c": celsius(given["Tmax_F"]), "low_c": celsius(given["Tmin_F"]), "vapour_kpa": given["ea_kPa"],
        "wind_mps": given["wind_mph"] * 0.44704, "solar_mj": given["Rs_langley"] * given["langley_to_MJ_m2"],
    }  # fmt: skip
    holds(
        case,
        ETos_mm_d=fallon(ASCE_SHORT, case, full=full, **day),
        ETrs_mm_d=fallon(ASCE_TALL, case, full=full, **day),
    )


@pytest.mark.parametrize("day", ["01", "03", "15", "31"])
def test_days_at_fallon_as_another_program_printed_them(day: str) -> None:
    case = CASES[f"faln-refet-out-2015-07-{day}"]
    given = case["inputs"]
    weather = {
        "high_c": given["Tmax_C"], "low_c": given["Tmin_C"], "vapour_kpa": air.saturation_kpa(given["Tdew_C"]),
        "wind_mps": given["wind_m_s"], "solar_mj": given["Rs_MJ_m2_d"],
    }  # fmt: skip
    holds(
        case,
        ETos_mm_d=fallon(ASCE_SHORT, case, full=1, **weather),
        ETrs_mm_d=fallon(ASCE_TALL, case, full=1, **weather),
    )


@pytest.mark.parametrize("case_id", ["refet-readme-hourly", "refet-test-hourly"])
def test_an_hour_at_fallon(case_id: str) -> None:
    case = CASES[case_id]
    given = case["inputs"]
    field = Field(given["lat_deg"], given["elevation_m"], given["lon_deg"])
    wind = air.wind_at_two_metres(given["wind_mph"] * 0.44704, given["zw_m"])
    worked = {
        form.name: reference_hour(
            form, field, 182, utc_middle_h=given["utc_hour_start"] + 0.5, mean_c=celsius(given["Tmean_F"]),
            vapour_kpa=given["ea_kPa"], wind_mps=wind, solar_mj=given["Rs_langley"] * 0.041868,
        )
        for form in (ASCE_SHORT, ASCE_TALL)
    }  # fmt: skip
    short = worked["asce_short"]
    holds(case, ETos_mm_h=short.et_mm, ETrs_mm_h=worked["asce_tall"].et_mm)
    if case_id == "refet-test-hourly":
        holds(case, u2_m_s=short.wind_mps, es_kPa=short.saturation_kpa, Ra_MJ_m2_h=short.above_mj)


def test_the_asce_coefficients_are_those_of_table_1() -> None:
    expected = CASES["asce-coefficients"]["expected"]
    for form, name in ((ASCE_SHORT, "short"), (ASCE_TALL, "tall")):
        day, night = expected[f"hourly_{name}_day"], expected[f"hourly_{name}_night"]
        assert expected[f"daily_{name}"] == {"Cn": form.cn_day, "Cd": form.cd_day}
        assert day == {"Cn": form.cn_hour, "Cd": form.cd_hour, "G_over_Rn": form.ground}
        assert night == {"Cn": form.cn_hour, "Cd": form.cd_night, "G_over_Rn": form.ground_night}


def test_ten_days_in_the_south() -> None:
    case = CASES["ten-day-series"]
    given = case["inputs"]
    field = Field(given["lat_rad"] * 180 / pi, given["elevation_m"])
    found = []
    for place in range(10):
        seen = DayWeather(
            day=date(2001, 3, 1 + place), high_c=given["Tmax_C"][place], low_c=given["Tmin_C"][place],
            dampest_pct=given["RHmax_pct"][place], driest_pct=given["RHmin_pct"][place],
            wind_mps=given["wind_10m_m_s"][place], wind_height_m=10, solar_mj=given["Rs_MJ_m2_d"][place],
        )  # fmt: skip
        found.append(reference_on(Station(field, ASCE_SHORT), seen.day, seen).et_mm)
    holds(case, ETo_mm_d=found)
