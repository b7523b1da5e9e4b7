"""Each kind of fault, by the smallest document that has it: the record, the field and the rule it names."""

from __future__ import annotations

from typing import Any

import pytest

from builders import (
    a_closure,
    a_controller,
    a_document_data,
    a_program,
    a_site,
    a_station,
    a_supply,
    a_turn,
    a_window,
    an_apart,
    an_asked,
)
from pengan.engine.document.read import faults_in
from pengan.words import say

NO_PLACE = {"latitude_deg": None, "longitude_deg": None}
TWO = [a_station("s1"), a_station("s2")]

BROKEN: dict[str, tuple[dict[str, Any], list[tuple[str | None, str | None, str | None, str]]]] = {
    "text where a number belongs": (
        {"stations": [a_station(flow_lpm="60")]},
        [("stations", "s1", "flow_lpm", "fault.not_number")],
    ),
    "a run time of 0": (
        {"turns": [a_turn(run_s=0)]},
        [("turns", "p1.s1", "run_s", "fault.outside_s")],
    ),
    "a flow beyond any pipe": (
        {"stations": [a_station(flow_lpm=60_001)]},
        [("stations", "s1", "flow_lpm", "fault.outside_lpm")],
    ),
    "half a cycle": ({"turns": [a_turn(cycles=1.5)]}, [("turns", "p1.s1", "cycles", "fault.not_whole")]),
    "a latitude beyond the pole": (
        {"site": a_site(latitude_deg=91)},
        [("site", "site", "latitude_deg", "fault.outside_bare")],
    ),
    "too long a name": ({"site": a_site(name="a" * 201)}, [("site", "site", "name", "fault.too_long")]),
    "a name of blanks": ({"site": a_site(name="  ")}, [("site", "site", "name", "fault.empty")]),
    "control characters": ({"site": a_site(notes="a\x07")}, [("site", "site", "notes", "fault.control")]),
    "half a surrogate pair": ({"site": a_site(notes="\ud83d")}, [("site", "site", "notes", "fault.control")]),
    "a choice nobody knows": (
        {"supplies": [a_supply(water="sea")]},
        [("supplies", "town", "water", "fault.not_choice")],
    ),
    "an id with blanks": ({"supplies": [a_supply(), a_supply("a b")]}, [("supplies", "#3", "id", "fault.not_id")]),
    "an unknown field": ({"site": a_site(flow=3)}, [("site", "site", "flow", "fault.unknown_field")]),
    "a required field missing": (
        {"stations": [a_station(flow_lpm=None)]},
        [("stations", "s1", "flow_lpm", "fault.missing")],
    ),
    "bad clock texts": (
        {"programs": [a_program(start="25:00", finish_by="sunset-13:00")]},
        [("programs", "p1", "start", "fault.not_clock"), ("programs", "p1", "finish_by", "fault.not_clock")],
    ),
    "a date no calendar has": (
        {"asked": [an_asked("2026-02-29", station="s1")]},
        [("asked", "a1", "night", "fault.not_date")],
    ),
    "a season no year has": (
        {"programs": [a_program(season_from="02-30", season_to="03-01")]},
        [("programs", "p1", "season_from", "fault.not_month_day")],
    ),
    "a moment with an offset": (
        {"closures": [a_closure(starts_on="2026-11-25T21:00+01:00", ends_on="2026-11-26T21:00")]},
        [("closures", "k1", "starts_on", "fault.not_moment")],
    ),
    "the same id twice": (
        {"supplies": [a_supply(), a_supply()]},
        [("supplies", "town", "id", "fault.id_twice")],
    ),
    "references to nowhere": (
        {"stations": [a_station(supply="pond", controller="c9")]},
        [("stations", "s1", "supply", "fault.unknown_ref"), ("stations", "s1", "controller", "fault.unknown_ref")],
    ),
    "a second site": ({"supplies": [a_supply(), a_site("other")]}, [("site", "other", None, "fault.more_sites")]),
    "no clock": ({"site": a_site(zone=None)}, [("site", "site", "zone", "clock.none")]),
    "two clocks": (
        {"site": a_site(zone="UTC", zone_rule="WET0WEST,M3.5.0/1,M10.5.0")},
        [("site", "site", "zone_rule", "clock.several")],
    ),
    "a zone that does not exist": (
        {"site": a_site(zone="Europe/Lisbn")},
        [("site", "site", "zone", "clock.zone_unknown_near")],
    ),
    "an own rule whose two changes fall on one day": (
        {"site": a_site(zone_rule="WET0WEST,M3.5.0/1,M3.5.0/3")},
        [("site", "site", "zone_rule", "clock.changes_one_day")],
    ),
    "half a place": ({"site": a_site(longitude_deg=None)}, [("site", "site", "longitude_deg", "fault.half_place")]),
    "sunset nowhere": (
        {"site": a_site(**NO_PLACE), "programs": [a_program(start="sunset+00:10")]},
        [("programs", "p1", "start", "fault.sun_without_place")],
    ),
    "a loop in the supply tree": (
        {"supplies": [a_supply(), a_supply("a", fed_by="c"), a_supply("b", fed_by="a"), a_supply("c", fed_by="b")]},
        [("supplies", "a", "fed_by", "fault.supply_loop")],
    ),
    "a supply that feeds itself": (
        {"supplies": [a_supply(fed_by="town")]},
        [("supplies", "town", "fed_by", "fault.supply_loop")],
    ),
    "figures of a supply that contradict each other": (
        {"supplies": [a_supply(limit_lpm=50, steady_lpm=60, least_lpm=70)]},
        [("supplies", "town", "steady_lpm", "fault.steady_over_limit"),
         ("supplies", "town", "least_lpm", "fault.least_over_limit")],
    ),
    "a lead time on a main": (
        {"supplies": [a_supply(), a_supply("m", fed_by="town", lead_s=60)]},
        [("supplies", "m", "lead_s", "fault.lead_of_main")],
    ),
    "a current limit over stations without a current": (
        {"controllers": [a_controller(max_current_ma=900)], "stations": [a_station(controller="c1")]},
        [("stations", "s1", "current_ma", "fault.no_current")],
    ),
    "a rest between valves without places": (
        {"controllers": [a_controller(valve_gap_s=5)]},
        [("controllers", "c1", "valve_gap_s", "fault.gap_without_places")],
    ),
    "two stations of one number": (
        {"stations": [a_station("s1", number="12a"), a_station("s2", number=" 12A")]},
        [("stations", "s2", "number", "fault.number_twice")],
    ),
    "day rules without their parts": (
        {"programs": [a_program(days="every_n"), a_program("p2", days="dates"), a_program("p3", days="weekdays")]},
        [("programs", "p1", "every_n_days", "fault.day_rule_needs"),
         ("programs", "p1", "every_from", "fault.day_rule_needs"),
         ("programs", "p2", "dates", "fault.day_rule_needs"),
         ("programs", "p3", "weekdays", "fault.day_rule_needs")],
    ),
    "lists nobody can read": (
        {"programs": [a_program(days="weekdays", weekdays="fry"), a_program("p2", days="dates", dates="2027-02-29")]},
        [("programs", "p1", "weekdays", "fault.not_weekdays"), ("programs", "p2", "dates", "fault.not_dates")],
    ),
    "half a season": (
        {"programs": [a_program(season_from="05-01")]},
        [("programs", "p1", "season_to", "fault.half_season")],
    ),
    "a window on asking": ({"windows": [a_window(days="asked")]}, [("windows", "w1", "days", "fault.asked_span")]),
    "a window without ends": (
        {"windows": [a_window(opens=None, closes=None)]},
        [("windows", "w1", "opens", "fault.window_needs"), ("windows", "w1", "closes", "fault.window_needs")],
    ),
    "a closure without a span": (
        {"closures": [a_closure(starts=None, ends=None)]},
        [("closures", "k1", "starts", "fault.closure_without_span")],
    ),
    "a closure of both kinds": (
        {"closures": [a_closure(starts="21:00", ends_on="2026-11-26T21:00")]},
        [("closures", "k1", None, "fault.closure_two_spans")],
    ),
    "a closure with one end": (
        {"closures": [a_closure(starts="21:00")]},
        [("closures", "k1", "ends", "fault.closure_half_span")],
    ),
    "a closure that ends before it starts": (
        {"closures": [a_closure(starts_on="2026-11-26T21:00", ends_on="2026-11-25T22:00")]},
        [("closures", "k1", "ends_on", "fault.closure_backwards")],
    ),
    "a station apart from itself": (
        {"stations": TWO, "apart": [an_apart("s2", "s2")]},
        [("apart", "s2.s2", "other", "fault.apart_itself")],
    ),
    "nothing asked for": ({"asked": [an_asked("2026-11-25")]}, [("asked", "a1", "program", "fault.asked_nothing")]),
    "both asked for": (
        {"asked": [an_asked("2026-11-25", program="p1", station="s1")]},
        [("asked", "a1", "station", "fault.asked_two")],
    ),
    "a station asked for without a time": (
        {"asked": [an_asked("2026-11-25", station="s1", run_s=None)]},
        [("asked", "a1", "run_s", "fault.asked_no_time")],
    ),
}  # fmt: skip


@pytest.mark.parametrize("what", BROKEN)
def test_a_broken_document_names_record_field_and_rule(what: str) -> None:
    tables, expected = BROKEN[what]
    faults = faults_in(a_document_data(**tables))
    assert [(fault.table, fault.record, fault.field, fault.message.code) for fault in faults] == expected
    assert all(say(fault.message) for fault in faults)


def test_all_faults_come_at_once_in_the_order_of_the_records() -> None:
    data: dict[str, Any] = {"format": 1, "records": []}
    for tables, _ in BROKEN.values():
        data["records"] += a_document_data(**tables)["records"]
    codes = {fault.message.code for fault in faults_in(data)}
    assert {code for _, expected in BROKEN.values() for *_, code in expected} <= codes
    tables = [fault.table for fault in faults_in(a_document_data(turns=[a_turn(run_s=0)], site=a_site(name="")))]
    assert tables == ["site", "turns"]


@pytest.mark.parametrize(
    ("data", "code"),
    [
        ([], "fault.not_object"),
        (None, "fault.not_object"),
        ({"records": []}, "fault.no_format"),
        ({"format": "1", "records": []}, "fault.no_format"),
        ({"format": True, "records": []}, "fault.no_format"),
        ({"format": 2, "records": [{"table": "ponds"}]}, "fault.newer_format"),
        ({"format": 1}, "fault.no_records"),
        ({"format": 1, "records": {}}, "fault.records_not_list"),
        ({"format": 1, "records": [], "crew": []}, "fault.unknown_top"),
        ({"format": 1, "records": [{"table": "ponds", "id": "x"}]}, "fault.unknown_table"),
        ({"format": 1, "records": [{"id": "x"}]}, "fault.unknown_table"),
        ({"format": 1, "records": ["x"]}, "fault.not_object"),
        ({"format": 1, "records": []}, "fault.no_site"),
    ],
)
def test_what_is_no_document_says_so(data: object, code: str) -> None:
    assert code in [fault.message.code for fault in faults_in(data)]


def test_a_newer_format_is_the_only_fault_reported() -> None:
    """Its tables and fields are not ours to judge."""
    assert [fault.message.code for fault in faults_in({"format": 7, "ponds": 1})] == ["fault.newer_format"]


def test_a_limit_is_named_in_the_readers_units() -> None:
    (fault,) = faults_in(a_document_data(stations=[a_station(flow_lpm=60_001)]))
    assert say(fault.message) == "This must be between 0.1 L/min and 60,000 L/min, but it is 60,001 L/min."


@pytest.mark.parametrize(
    "tables",
    [
        {"programs": [a_program()], "turns": []},
        {"stations": [], "turns": []},
        {"supplies": [a_supply(limit_lpm=10)], "stations": [a_station(flow_lpm=60)]},
        {"windows": [a_window(opens="21:00", closes="21:00", days="dates", dates="1999-01-01")]},
        {"turns": [a_turn(soak_s=86_400, cycles=2)]},
        {"turns": [a_turn(id="a"), a_turn(id="b")]},
    ],
    ids=["no turns", "no stations", "too small a supply", "never opens", "a soak of a day", "a station twice"],
)
def test_what_a_night_can_reason_about_is_no_fault(tables: dict[str, Any]) -> None:
    assert faults_in(a_document_data(**tables)) == ()
