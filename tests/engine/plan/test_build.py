"""From a document to tonight's problem: what is due, when it may run, and what is known to be impossible."""

from __future__ import annotations

import random
from datetime import date
from typing import Any

import pytest

from builders import (
    a_closure,
    a_controller,
    a_document,
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
from pengan.engine.clock.nights import night_on
from pengan.engine.clock.zones import clock_of
from pengan.engine.document.document import Document
from pengan.engine.document.read import read_document
from pengan.engine.plan.build import Built, build
from pengan.engine.plan.dues import split

JULY = date(2026, 7, 1)
H = 3600


def built(day: date = JULY, **tables: Any) -> Built:
    return build_of(a_document(**tables), day)


def build_of(document: Document, day: date = JULY) -> Built:
    clock = clock_of(document.site)
    return build(document, night_on(clock, day), clock)


def shorts(found: Built) -> list[str]:
    return [part.why.code.removeprefix("short.") for part in found.shortfalls]


def notices(found: Built) -> list[str]:
    return [notice.code.removeprefix("notice.") for notice in found.notices]


@pytest.mark.parametrize(
    ("seconds", "cycles", "parts"),
    [(600, 3, (200, 200, 200)), (602, 3, (201, 201, 200)), (2, 5, (1, 1)), (0, 3, ()), (7, 1, (7,))],
)
def test_a_run_is_split_as_equally_as_whole_seconds_permit(seconds: int, cycles: int, parts: tuple[int, ...]) -> None:
    assert split(seconds, cycles) == parts


def test_both_seasonal_percentages_count_and_round_to_the_nearest_second() -> None:
    found = built(
        site=a_site(seasonal_pct=75), programs=[a_program(seasonal_pct=90)], turns=[a_turn(run_s=601, cycles=2)]
    )
    assert found.problem.chains[0].cycles == (203, 203)  # 601 s of which 67.5 % are 405.675 s


def test_a_run_that_percentages_reduce_to_nothing_is_dropped_and_told() -> None:
    found = built(programs=[a_program(seasonal_pct=1)], turns=[a_turn(run_s=49)])
    assert found.problem.chains == () and found.shortfalls == () and found.due_ml == 0
    assert "nothing_left" in notices(found)


def test_a_program_at_nothing_is_told_once() -> None:
    found = built(programs=[a_program(seasonal_pct=0)], stations=[a_station("s1"), a_station("s2")])
    assert notices(found) == ["program_off"]


def test_a_start_is_a_release_on_the_date_on_which_it_falls() -> None:
    """02:00 on a Thursday belongs to the night that begins on Wednesday."""
    assert JULY.strftime("%a") == "Wed"
    program = a_program(start="02:00", days="weekdays", weekdays="thu")
    assert built(programs=[program]).problem.chains[0].release == 14 * H
    assert built(date(2026, 7, 2), programs=[program]).problem.chains == ()


def test_a_finish_time_of_the_program_takes_the_place_of_the_sites() -> None:
    site = a_site(finish_by="06:00")
    assert built(site=site).problem.chains[0].deadline == 18 * H
    assert built(site=site, programs=[a_program(finish_by="04:30")]).problem.chains[0].deadline == 16 * H + H // 2


def test_an_aim_is_the_programs_or_else_the_sites() -> None:
    site = a_site(aim="latest")
    assert built(site=site).problem.chains[0].late
    assert not built(site=site, programs=[a_program(aim="earliest")]).problem.chains[0].late


def spans(found: Built) -> tuple[tuple[int, int], ...]:
    return found.problem.calendars[found.problem.chains[0].calendar]


def test_without_windows_the_whole_night_is_open() -> None:
    assert spans(built()) == ((0, 24 * H),)


def test_windows_of_one_scope_add_up_and_of_several_must_all_be_open() -> None:
    site = [a_window(opens="20:00", closes="22:00"), a_window("w2", opens="21:00", closes="01:00")]
    assert spans(built(windows=site)) == ((8 * H, 13 * H),)
    town = a_window("w3", supply="town", opens="23:00", closes="05:00")
    assert spans(built(windows=[*site, town])) == ((11 * H, 13 * H),)


def test_a_closure_cuts_the_stations_that_it_speaks_of() -> None:
    stations = [a_station("s1", supply="deep"), a_station("s2")]
    supplies = [a_supply(), a_supply("north", fed_by="town"), a_supply("deep", fed_by="north")]
    found = built(supplies=supplies, stations=stations, windows=[a_window()], closures=[a_closure(supply="north")])
    one, other = (found.problem.calendars[chain.calendar] for chain in found.problem.chains)
    assert one == ((9 * H, 10 * H), (11 * H, 18 * H))
    assert other == ((9 * H, 18 * H),)


def test_a_lead_time_shortens_what_the_source_leaves_open_and_nothing_else() -> None:
    """The site's closure stops the source, so it fills anew; that of a single station does not."""
    tables: dict[str, Any] = {"supplies": [a_supply(lead_s=600)], "windows": [a_window()]}
    assert spans(built(**tables, closures=[a_closure()])) == ((9 * H + 600, 10 * H), (11 * H + 600, 18 * H))
    assert spans(built(**tables, closures=[a_closure(station="s1")])) == ((9 * H + 600, 10 * H), (11 * H, 18 * H))


def test_equal_calendars_are_kept_once() -> None:
    found = built(stations=[a_station(f"s{n}") for n in range(9)], windows=[a_window()])
    assert len(found.problem.calendars) == 1


def test_an_asked_for_station_has_its_time_and_goes_ahead() -> None:
    asked = an_asked("2026-07-01", station="s1", run_s=90, at="23:00")
    first = built(asked=[asked]).problem.chains[0]
    assert (first.key, first.fixed, first.cycles) == ("a1", 11 * H, (90,))
    assert first.rank < 1


def test_an_asked_for_program_runs_whole_from_its_time() -> None:
    programs = [a_program(days="asked")]
    asked = an_asked("2026-07-01", program="p1", at="23:00")
    stations = [a_station("s1"), a_station("s2")]
    found = built(programs=programs, stations=stations, asked=[asked])
    assert [(chain.key, chain.release, chain.fixed) for chain in found.problem.chains] == [
        ("a1/p1.s1", 11 * H, None),
        ("a1/p1.s2", 11 * H, None),
    ]
    assert built(programs=programs, stations=stations).problem.chains == ()


def test_what_is_asked_for_another_night_is_not_due() -> None:
    assert built(asked=[an_asked("2026-07-02", station="s1")], turns=[]).problem.chains == ()


def test_listed_turns_stand_by_position() -> None:
    turns = [a_turn(station="s1", position=2), a_turn(station="s2", position=1)]
    found = built(stations=[a_station("s1"), a_station("s2")], turns=turns, programs=[a_program(order="listed")])
    assert [chain.key for chain in found.problem.chains] == ["p1.s2", "p1.s1"]


def test_apart_counts_both_ways() -> None:
    found = built(stations=[a_station("s1"), a_station("s2")], apart=[an_apart("s2", "s1")])
    assert found.problem.apart == (frozenset({1}), frozenset({0}))


IMPOSSIBLE: dict[str, dict[str, Any]] = {
    "over_supply": {"supplies": [a_supply(limit_lpm=59)]},
    "over_program": {"programs": [a_program(limit_lpm=59)]},
    "over_current": {
        "controllers": [a_controller(max_current_ma=200)],
        "stations": [a_station(controller="c1", current_ma=201)],
    },
    "no_window": {"windows": [a_window(days="dates", dates="2026-08-01")]},
    "no_windows_together": {"windows": [a_window(), a_window("w2", station="s1", opens="12:00", closes="13:00")]},
    "closed_all_night": {"closures": [a_closure(starts="00:00", ends="24:00")]},
    "closed_by_several": {
        "windows": [a_window()],
        "closures": [a_closure(starts="20:00", ends="24:00"), a_closure("k2", starts="00:00", ends="07:00")],
    },
    "still_filling": {"supplies": [a_supply(lead_s=H)], "windows": [a_window(opens="21:00", closes="22:00")]},
    "starts_too_late": {"site": a_site(finish_by="20:00"), "programs": [a_program(start="22:00")]},
    "closed_for_it": {"programs": [a_program(finish_by="20:00")], "windows": [a_window()]},
    "closed_when_asked": {
        "windows": [a_window()],
        "turns": [],
        "asked": [an_asked("2026-07-01", station="s1", at="20:00")],
    },
    "cycle_too_long": {"windows": [a_window(opens="21:00", closes="21:09")]},
    "soak_too_long": {"turns": [a_turn(cycles=2, soak_s=24 * H)]},
}


@pytest.mark.parametrize("code", IMPOSSIBLE)
def test_what_cannot_run_even_alone_is_a_shortfall_with_its_reason(code: str) -> None:
    found = built(**IMPOSSIBLE[code])
    assert shorts(found) == [code]
    missing = sum(round(part.volume_l * 1000) for part in found.shortfalls)
    kept = sum(chain.flow * sum(chain.cycles) // 60 for chain in found.problem.chains)
    assert missing + kept == found.due_ml > 0


def test_of_a_turn_whose_soaks_outlast_the_night_the_cycles_that_fit_are_planned() -> None:
    found = built(turns=[a_turn(run_s=400, cycles=4, soak_s=9 * H)])
    assert [chain.cycles for chain in found.problem.chains] == [(100, 100, 100)]
    assert [(part.cycles, part.run_s) for part in found.shortfalls] == [(1, 100)]
    assert "soaks_too_long" in notices(found)


def test_the_supply_named_is_the_one_that_gives_less() -> None:
    supplies = [a_supply(limit_lpm=500), a_supply("north", fed_by="town", limit_lpm=40)]
    found = built(supplies=supplies, stations=[a_station(supply="north")])
    assert found.shortfalls[0].why.params == {"supply": "north", "flow_lpm": 60, "limit_lpm": 40}


NOTICED: dict[str, dict[str, Any]] = {
    "idle_station": {"turns": []},
    "idle_stations": {"turns": [], "stations": [a_station(f"s{n}") for n in range(6)]},
    "empty_program": {"programs": [a_program(), a_program("p2")]},
    "site_off": {"site": a_site(seasonal_pct=0)},
    "start_outside": {"programs": [a_program(start="20:00")], "windows": [a_window()]},
    "asked_empty": {
        "programs": [a_program(days="asked")],
        "turns": [],
        "asked": [an_asked("2026-07-01", program="p1")],
    },
    "reclaimed": {"supplies": [a_supply(water="reclaimed")]},
}


@pytest.mark.parametrize("code", NOTICED)
def test_what_a_person_should_know_is_a_notice(code: str) -> None:
    assert code in notices(built(**NOTICED[code]))


def test_a_quiet_night_has_nothing_to_tell() -> None:
    assert built(windows=[a_window()], programs=[a_program(start="22:00")]).notices == ()


def test_a_start_by_a_sun_that_does_not_set_is_told() -> None:
    """North of the polar circle in midsummer."""
    site = a_site(zone="Europe/Oslo", latitude_deg=70.0, longitude_deg=25.0)
    found = built(site=site, programs=[a_program(start="sunset")])
    assert found.problem.chains == () and notices(found) == ["no_sun_start"]


FORWARD, BACK = date(2026, 3, 28), date(2026, 10, 24)
"""Lisbon's clock goes from 01:00 to 02:00 on 29 March 2026 and from 02:00 to 01:00 on 25 October 2026 (tzdata)."""


def test_a_start_in_the_hour_that_does_not_come_is_moved_and_told() -> None:
    found = built(FORWARD, programs=[a_program(start="01:30"), a_program("p2", start="02:30")])
    assert notices(found)[:2] == ["clock_forward", "start_missing"]
    assert found.problem.length == 23 * H
    assert found.problem.chains[0].release == 13 * H + H // 2


def test_a_start_in_the_hour_that_comes_twice_is_the_first_and_told() -> None:
    found = built(BACK, programs=[a_program(start="01:30"), a_program("p2", start="02:30")])
    assert notices(found)[:2] == ["clock_back", "start_twice"]
    assert [notice.params.get("program") for notice in found.notices][:2] == [None, "p1"]
    assert found.problem.chains[0].release == 13 * H + H // 2


def test_the_picture_has_closed_spans_of_the_site_of_supplies_and_of_some_stations() -> None:
    found = built(
        supplies=[a_supply(), a_supply("north", fed_by="town")],
        stations=[a_station("s1"), a_station("s2"), a_station("s3", supply="north")],
        windows=[a_window()],
        closures=[a_closure(), a_closure("k2", supply="north"), a_closure("k3", station="s1")],
    )
    kinds = {(span.closure, span.supply, span.whole) for span in found.closed}
    assert kinds == {(None, None, True), ("k1", None, True), ("k2", "north", True), ("k3", "town", False)}
    assert [span.end - span.start for span in found.closed if span.closure is None] == [9 * H, 6 * H]


def test_the_order_of_records_does_not_matter() -> None:
    data = a_document_data(
        supplies=[a_supply("town"), a_supply("b", fed_by="town")],
        stations=[a_station("s1"), a_station("s2", supply="b"), a_station("s3")],
        windows=[a_window(), a_window("w0", supply="b")],
        closures=[a_closure()],
    )
    plain = build_of(read_document(data))
    for seed in range(5):
        random.Random(seed).shuffle(data["records"])
        again = build_of(read_document(data))
        assert again.problem == plain.problem
        assert (again.notices, again.shortfalls, again.closed) == (plain.notices, plain.shortfalls, plain.closed)
