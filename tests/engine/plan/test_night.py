"""The night sheet: sound under every limit, its water adding up, and what it tells beside its runs."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from datetime import date, datetime
from string import Formatter
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

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
from pengan.engine.check.stored_sheet import sheet_violations
from pengan.engine.document.read import read_document
from pengan.engine.message import SAYINGS, Message
from pengan.engine.plan.earlier import moved_pct
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.sheet import NightSheet
from pengan.engine.plan.sheet_json import dumps
from valid_documents import DATES, documents

JULY = date(2026, 7, 1)
H = 3600


def sheet_for(day: date = JULY, effort: int = 6, **tables: Any) -> NightSheet:
    return plan_night(a_document(**tables), day, effort=effort)


def millilitres(litres: float) -> int:
    return round(litres * 1000)


def messages(sheet: NightSheet) -> list[Message]:
    found = [*sheet.notices, *(run.why for run in sheet.runs), *(part.why for part in sheet.shortfalls)]
    found += [rung.why for run in sheet.runs for rung in run.ladder]
    if sheet.bound:
        found += [sheet.bound.holder, *([sheet.bound.relief] if sheet.bound.relief else [])]
    return found


def placeholders(template: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(template) if name}


@settings(deadline=None, max_examples=60, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(documents(), DATES, st.integers(1, 8))
def test_any_valid_document_gives_a_sound_sheet_and_all_water_is_answered_for(
    data: dict[str, Any], day: date, effort: int
) -> None:
    document = read_document(data)
    sheet = plan_night(document, day, effort=effort)
    assert sheet_violations(document, sheet) == ()
    short = sum(millilitres(part.volume_l) for part in sheet.shortfalls)
    assert millilitres(sheet.volume_l) + short == millilitres(sheet.volume_due_l)
    assert millilitres(sheet.volume_l) == sum(millilitres(run.volume_l) for run in sheet.runs)
    for message in messages(sheet):
        assert placeholders(SAYINGS[message.code].template) == set(message.params)


@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(documents(), DATES)
def test_the_same_document_gives_the_same_bytes_in_any_order_of_records(data: dict[str, Any], day: date) -> None:
    turned = {**data, "records": data["records"][::-1]}
    one, other = (plan_night(read_document(each), day, effort=3) for each in (data, turned))
    assert dumps(one) == dumps(other)


def test_a_sheet_on_a_night_with_a_change_tells_local_times_with_their_offsets() -> None:
    """Lisbon's clock goes back at 02:00 on 25 October 2026 (tzdata, by way of the standard library's zoneinfo)."""
    stations = [a_station(f"s{n}") for n in range(16)]
    sheet = sheet_for(
        date(2026, 10, 24), supplies=[a_supply(limit_lpm=60)], stations=stations, programs=[a_program(start="00:10")]
    )
    assert sheet.ends - sheet.starts == 25 * H
    zone = ZoneInfo("Europe/Lisbon")
    for run in sheet.runs:
        for instant, local in ((run.start, run.start_local), (run.end, run.end_local)):
            assert local == datetime.fromtimestamp(instant, zone).isoformat()
    assert {run.start_local[-6:] for run in sheet.runs} == {"+01:00", "+00:00"}


def test_draws_are_the_sums_of_the_runs_on_every_node() -> None:
    supplies = [a_supply(limit_lpm=150), a_supply("north", fed_by="town", limit_lpm=100)]
    stations = [a_station(f"s{n}", supply="north" if n % 2 else "town", flow_lpm=40 + n) for n in range(8)]
    sheet = sheet_for(supplies=supplies, stations=stations)
    nodes = {"north": {"north"}, "town": {"town", "north"}}
    for draw in sheet.draws:
        runs = [run for run in sheet.runs if run.supply in nodes[draw.supply]]
        steps = defaultdict[int, int](int)
        for run in runs:
            steps[run.start] += millilitres(run.flow_lpm)
            steps[run.end] -= millilitres(run.flow_lpm)
        level, expected = 0, []
        for at in sorted(steps):
            level += steps[at]
            expected += [(at, level)] if steps[at] else []
        assert [(at, millilitres(flow)) for at, flow in draw.steps] == expected
        assert millilitres(draw.volume_l) == sum(millilitres(run.volume_l) for run in runs)
        assert draw.peak_lpm == max(flow for _, flow in draw.steps)
        assert draw.steps[-1][1] == 0


def test_a_source_with_a_lead_time_is_started_before_the_first_run() -> None:
    sheet = sheet_for(supplies=[a_supply(lead_s=600)], windows=[a_window()])
    (notice,) = sheet.notices
    assert notice.code == "notice.start_source"
    assert notice.params["start_at"] == sheet.runs[0].start - 600 == sheet.starts + 9 * H


def test_a_draw_below_the_least_flow_is_told_with_its_span() -> None:
    sheet = sheet_for(supplies=[a_supply(least_lpm=100)])
    (notice,) = sheet.notices
    assert notice.code == "notice.below_least"
    assert (notice.params["low_at"], notice.params["until_at"], notice.params["low_s"]) == (
        sheet.starts,
        sheet.starts + 600,
        600,
    )


NARROW = [a_window(opens="21:00", closes="21:15")]
TWO = [a_station("s1"), a_station("s2")]
LEFT_OUT: dict[str, dict[str, Any]] = {
    "supply_full": {"supplies": [a_supply(limit_lpm=100)], "stations": TWO},
    "controller_full": {
        "controllers": [a_controller(max_open=1)],
        "stations": [a_station(one, controller="c1") for one in ("s1", "s2")],
    },
    "current_full": {
        "controllers": [a_controller(max_current_ma=500)],
        "stations": [a_station(one, controller="c1", current_ma=300) for one in ("s1", "s2")],
    },
    "program_flow_full": {"programs": [a_program(limit_lpm=100)], "stations": TWO},
    "program_open_full": {"programs": [a_program(max_open=1)], "stations": TWO},
    "apart_full": {"stations": TWO, "apart": [an_apart()]},
    "station_full": {"turns": [a_turn(id="t1"), a_turn(id="t2")]},
}


@pytest.mark.parametrize("code", LEFT_OUT)
def test_what_did_not_fit_names_the_limit_that_left_it_no_room(code: str) -> None:
    sheet = sheet_for(windows=NARROW, **LEFT_OUT[code])
    assert [part.why.code for part in sheet.shortfalls] == [f"short.{code}"]
    assert len(sheet.runs) == 1
    assert sheet.shortfalls[0].why.params["until_at"] == sheet.starts + 9 * H + 900


def test_a_cycle_whose_soak_ends_too_late_says_so() -> None:
    """What was asked for leaves the first cycle no room before 21:07; its soak ends at 21:15:20, past the window."""
    sheet = sheet_for(
        supplies=[a_supply(limit_lpm=100)],
        stations=TWO,
        turns=[a_turn(station="s2", run_s=600, cycles=2, soak_s=200)],
        asked=[an_asked("2026-07-01", station="s1", run_s=420, at="21:00")],
        windows=NARROW,
    )
    assert [part.why.code for part in sheet.shortfalls] == ["short.after_soak"]


def test_limits_that_only_together_leave_no_room_are_told_as_such() -> None:
    """The supply is free early, the controller late: neither stops the third alone."""
    stations = [
        a_station("s1", controller="c1", flow_lpm=10),
        a_station("s2", flow_lpm=90),
        a_station("s3", controller="c1"),
    ]
    sheet = sheet_for(
        supplies=[a_supply(limit_lpm=100)],
        controllers=[a_controller(max_open=1)],
        stations=stations,
        programs=[a_program("p1", rank=1), a_program("p2", rank=9)],
        turns=[a_turn("p1", "s1", run_s=600), a_turn("p1", "s2", run_s=600), a_turn("p2", "s3", run_s=600)],
        windows=[a_window(opens="21:00", closes="21:20"), a_window("wa", station="s1", opens="21:00", closes="21:10"),
                 a_window("wb", station="s2", opens="21:10", closes="21:20")],
    )  # fmt: skip
    assert [part.why.code for part in sheet.shortfalls] == ["short.together"]


def test_asked_for_runs_go_ahead_of_all_and_start_when_chosen() -> None:
    stations = [a_station(f"s{n}", flow_lpm=100) for n in range(5)]
    asked = [
        an_asked("2026-07-01", station="s0", at="22:05"),
        an_asked("2026-07-01", "a2", station="s1", run_s=60),
    ]
    sheet = sheet_for(supplies=[a_supply(limit_lpm=100)], stations=stations, windows=[a_window()], asked=asked)
    runs = {run.turn: run for run in sheet.runs}
    assert runs["a1"].start == sheet.starts + 10 * H + 300
    assert runs["a1"].why.code == "why.asked_time"
    assert runs["a2"].start == sheet.starts + 9 * H
    assert runs["a1"].program is None


def test_a_relief_tells_what_a_little_more_of_the_deciding_limit_brings() -> None:
    """Three of 40 L/min need 120; the limit of 115 lets two run at once, and a twentieth more all three."""
    stations = [a_station(f"s{n}", flow_lpm=40) for n in range(3)]
    sheet = sheet_for(supplies=[a_supply(limit_lpm=115)], stations=stations)
    assert sheet.bound is not None and sheet.bound.relief is not None
    assert sheet.bound.holder.code == "holds.flow"
    assert sheet.bound.relief.code == "relief.flow"
    assert sheet.bound.relief.params == {"supply": "town", "more_lpm": 6.0, "sooner_s": 600}


def test_there_is_no_relief_where_more_brings_nothing() -> None:
    stations = [a_station(f"s{n}", flow_lpm=60) for n in range(3)]
    sheet = sheet_for(supplies=[a_supply(limit_lpm=100)], stations=stations)
    assert sheet.bound is not None and sheet.bound.relief is None


def test_on_an_overfull_night_the_relief_is_water() -> None:
    stations = [a_station(f"s{n}", flow_lpm=40) for n in range(3)]
    sheet = sheet_for(
        supplies=[a_supply(limit_lpm=115)], stations=stations, windows=[a_window(opens="21:00", closes="21:15")]
    )
    assert sheet.bound is not None and sheet.bound.relief is not None
    assert sheet.bound.relief.params == {"supply": "town", "more_lpm": 6.0, "more_l": 400.0}


def test_the_night_never_ends_before_its_bound() -> None:
    stations = [a_station(f"s{n}", flow_lpm=30 + n) for n in range(12)]
    sheet = sheet_for(supplies=[a_supply(limit_lpm=100)], stations=stations, windows=[a_window()])
    assert sheet.shortfalls == () and sheet.bound is not None and sheet.finish is not None
    assert sheet.bound.at <= sheet.finish


def test_a_night_without_anything_due_is_an_empty_sheet() -> None:
    sheet = sheet_for(turns=[], programs=[])
    assert (sheet.runs, sheet.shortfalls, sheet.finish, sheet.bound) == ((), (), None, None)
    assert sheet.volume_due_l == 0


def test_a_day_that_the_clock_leaves_out_is_a_night_of_no_length() -> None:
    """Samoa went from 29 to 31 December 2011 (tzdata): noon of the 30th is never, all due falls short."""
    site = a_site(zone="Pacific/Apia")
    sheet = sheet_for(date(2011, 12, 30), site=site, windows=[a_window()])
    assert sheet.starts == sheet.ends and sheet.runs == ()
    assert sum(part.volume_l for part in sheet.shortfalls) == sheet.volume_due_l > 0


def test_a_sheet_planned_from_itself_does_not_move() -> None:
    data = a_document_data(
        supplies=[a_supply(limit_lpm=200)],
        stations=[a_station(f"s{n}", flow_lpm=30 + 7 * n) for n in range(12)],
        windows=[a_window()],
    )
    first = plan_night(read_document(data), JULY, effort=20)
    again = plan_night(read_document(data), JULY, effort=1, before=first)
    assert first.moved_pct is None
    assert again.moved_pct == 0
    assert [(run.turn, run.start) for run in again.runs] == [(run.turn, run.start) for run in first.runs]


def test_the_share_of_moved_runs_counts_runs_in_both_sheets() -> None:
    """Of three runs in both, one moved by more than ten minutes; one more is in the earlier sheet only."""
    sheet = sheet_for(stations=[a_station(f"s{n}") for n in range(4)])
    shifts = (0, 600, 601)
    earlier = [replace(run, start=run.start - shift) for run, shift in zip(sheet.runs, shifts, strict=False)]
    before = replace(sheet, runs=(*earlier, replace(sheet.runs[0], turn="gone")))
    assert moved_pct(before, sheet.starts, sheet.runs) == 33.3


def test_progress_is_told_by_construction() -> None:
    told: list[int] = []
    plan_night(
        a_document(supplies=[a_supply(limit_lpm=100)], stations=[a_station(f"s{n}", flow_lpm=55) for n in range(5)]),
        JULY,
        effort=4,
        on_construction=told.append,
    )
    assert told and told == sorted(told)


def test_closures_are_spans_of_the_sheet() -> None:
    sheet = sheet_for(closures=[a_closure()])
    assert [(span.closure, span.start - sheet.starts, span.end - sheet.starts) for span in sheet.closed] == [
        ("k1", 10 * H, 11 * H)
    ]
