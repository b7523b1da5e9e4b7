"""Single nights that go wrong, and what becomes of their rest."""

from __future__ import annotations

from datetime import date, datetime
from string import Formatter
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from builders import (
    a_closure,
    a_controller,
    a_document,
    a_hydrozone,
    a_program,
    a_station,
    a_supply,
    a_turn,
    a_window,
    an_asked,
)
from nights.happening import power_cut, stopped, supply_shut
from pengan.engine.catch_up.happened import NO_OUTAGES, as_told, from_journal
from pengan.engine.catch_up.rest import Rest, Way, rest_of_night
from pengan.engine.catch_up.under_way import edited_night, is_under_way
from pengan.engine.check.rest_of_sheet import rest_violations
from pengan.engine.document.document import Document
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.journal.openings import Opening
from pengan.engine.journal.outages import FOREVER, Outages
from pengan.engine.message import SAYINGS, Message
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.sheet import NightSheet, Run

JULY = date(2026, 7, 1)


def at(clock: str, day: int = 1) -> int:
    """A clock time of the night in Lisbon as an instant."""
    hour, minute = map(int, clock.split(":"))
    return int(datetime(2026, 7, day, hour, minute, tzinfo=ZoneInfo("Europe/Lisbon")).timestamp())


def planned(**tables: Any) -> tuple[Document, NightSheet]:
    document = a_document(windows=[a_window()], **tables)
    return document, plan_night(document, JULY, effort=6)


def ran(sheet: NightSheet, until: int, now: int) -> list[Opening]:
    """Valves as planned until some instant, then nothing: a run that was open then closed."""
    found = [Opening(run.station, run.start, min(run.end, until)) for run in sheet.runs if run.start < until]
    return [
        one if until < now else Opening(one.station, one.start, one.end if one.end < now else None) for one in found
    ]


def caught_up(
    document: Document, sheet: NightSheet, now: int, outages: Outages, opened: list[Opening], way: Way = Way.RECOVER
) -> Rest:
    rest = rest_of_night(document, sheet, now, as_told(document, sheet, opened, outages, now), way=way, effort=12)
    assert rest_violations(document, rest.sheet, now, outages) == ()
    return rest


def spans(sheet: NightSheet, station: str = "s1") -> list[tuple[int, int]]:
    return [(run.start, run.end) for run in sheet.runs if run.station == station]


def of(sheet: NightSheet, station: str) -> Run:
    return next(run for run in sheet.runs if run.station == station)


def messages(sheet: NightSheet) -> list[Message]:
    found = [*sheet.notices, *(run.why for run in sheet.runs), *(part.why for part in sheet.shortfalls)]
    return found + [rung.why for run in sheet.runs for rung in run.ladder]


def codes(sheet: NightSheet) -> set[str]:
    return {message.code for message in messages(sheet)}


def test_of_a_half_run_cycle_what_is_left_is_a_shorter_cycle() -> None:
    """Twenty minutes from 21:00; no power from 21:05 to 21:15. Then fifteen minutes are left."""
    document, sheet = planned(turns=[a_turn(run_s=1200)])
    outages = power_cut(document, at("21:05"), at("21:15"))
    opened = [Opening("s1", at("21:00"), at("21:05"))]
    recovered = caught_up(document, sheet, at("21:15"), outages, opened)
    assert spans(recovered.sheet) == [(at("21:00"), at("21:05")), (at("21:15"), at("21:30"))]
    assert [(run.cycle, run.cycles) for run in recovered.sheet.runs] == [(1, 2), (2, 2)]
    assert (recovered.effect.missed_l, recovered.effect.recovered_l, recovered.effect.lost_l) == (600.0, 600.0, 0.0)
    assert (recovered.effect.delivered_l, recovered.effect.finish_after) == (300.0, at("21:30"))
    kept = caught_up(document, sheet, at("21:15"), outages, opened, Way.KEEP)
    assert spans(kept.sheet) == [(at("21:00"), at("21:05")), (at("21:15"), at("21:20"))]
    assert (kept.effect.missed_l, kept.effect.recovered_l, kept.effect.lost_l) == (600.0, 0.0, 600.0)
    assert [(short.run_s, short.why.code) for short in kept.sheet.shortfalls] == [(600, "short.no_site_power")]


def test_the_soak_counts_from_what_was_delivered() -> None:
    document, sheet = planned(turns=[a_turn(run_s=1200, cycles=2, soak_s=1800)])
    outages = power_cut(document, at("21:05"), at("21:15"))
    rest = caught_up(document, sheet, at("21:15"), outages, [Opening("s1", at("21:00"), at("21:05"))])
    assert spans(rest.sheet) == [(at("21:00"), at("21:05")), (at("21:40"), at("21:50")), (at("22:20"), at("22:25"))]
    kept = caught_up(document, sheet, at("21:15"), outages, [Opening("s1", at("21:00"), at("21:05"))], Way.KEEP)
    assert spans(kept.sheet) == [(at("21:00"), at("21:05")), (at("21:40"), at("21:50"))]


def test_an_open_run_goes_on_and_is_one_run() -> None:
    document, sheet = planned(turns=[a_turn(run_s=1200)])
    late = [Opening("s1", at("21:05"), None)]
    rest = caught_up(document, sheet, at("21:10"), NO_OUTAGES, late)
    assert spans(rest.sheet) == [(at("21:05"), at("21:25"))], "whole, though it began late"
    kept = caught_up(document, sheet, at("21:10"), NO_OUTAGES, late, Way.KEEP)
    assert spans(kept.sheet) == [(at("21:05"), at("21:20"))], "the clock ends it"


def test_a_valve_that_is_some_seconds_late_changes_nothing() -> None:
    document, sheet = planned(stations=[a_station("s1"), a_station("s2")], supplies=[a_supply(limit_lpm=100)])
    first, second = sheet.runs
    late = [Opening(first.station, first.start + 3, first.end + 3)]
    rest = caught_up(
        document, sheet, second.start + 5, NO_OUTAGES, [*late, Opening(second.station, second.start + 4, None)]
    )
    assert [(run.start, run.end) for run in rest.sheet.runs] == [
        (first.start + 3, first.end + 3), (second.start + 4, second.end),
    ]  # fmt: skip
    assert not codes(rest.sheet) & {"notice.worked_out", "why.made_up"}


def test_a_valve_that_should_have_opened_some_seconds_ago_still_does() -> None:
    """The controller is heard, and has opened nothing yet: the run stays where it is, its first seconds apart."""
    document, sheet = planned(turns=[a_turn(run_s=1200)])
    now = at("21:00") + 10
    rest = caught_up(document, sheet, now, NO_OUTAGES, [])
    assert spans(rest.sheet) == [(now, at("21:20"))]


def test_what_was_missed_goes_where_there_is_room_and_the_rest_stays() -> None:
    """Three stations one after the other; the first is missed, and comes after the two that stay."""
    stations = [a_station(f"s{n}", controller=f"c{n}") for n in (1, 2, 3)]
    turns = [a_turn("p1", f"s{n}", run_s=1200, rank=n) for n in (1, 2, 3)]
    controllers = [a_controller(f"c{n}") for n in (1, 2, 3)]
    document, sheet = planned(
        stations=stations, turns=turns, controllers=controllers, supplies=[a_supply(limit_lpm=100)]
    )
    first = sheet.runs[0]
    outages = power_cut(document, at("20:30"), first.end - 60, first.controller)
    rest = caught_up(document, sheet, first.end - 60, outages, [])
    stay = [run for run in sheet.runs if run.station != first.station]
    assert [run for run in rest.sheet.runs if run.station != first.station] == stay, "reasons and all"
    assert spans(rest.sheet, first.station) == [(stay[-1].end, stay[-1].end + 1200)]
    made_up = of(rest.sheet, first.station)
    assert made_up.why.code == "why.supply_flow"
    assert "why.made_up" in [rung.why.code for rung in made_up.ladder]
    assert (rest.effect.moved_count, rest.effect.later_count) == (0, 2)


def test_what_cannot_be_recovered_is_told_and_carried_to_its_hydrozone() -> None:
    document, sheet = planned(
        hydrozones=[a_hydrozone()],
        stations=[a_station("s1", hydrozone="h1", area_m2=100), a_station("s2")],
        supplies=[a_supply(limit_lpm=200)],
    )
    shut = supply_shut(document, "town", at("20:00"))
    rest = caught_up(document, sheet, at("22:00"), shut, [])
    assert rest.sheet.runs == ()
    assert {short.why.code for short in rest.sheet.shortfalls} == {"short.no_time_left"}
    assert rest.effect.lost_l == sheet.volume_l == 1200.0
    carried = rest.effect.carried
    assert [(one.hydrozone, one.volume_l, one.depth_mm) for one in carried] == [("h1", 600.0, 6.0)]


def test_an_outage_that_is_announced_is_kept_clear() -> None:
    document, sheet = planned(turns=[a_turn(run_s=3600)])
    works = supply_shut(document, "town", at("22:30"), at("23:30"))
    rest = caught_up(document, sheet, at("22:00"), works, [])
    assert spans(rest.sheet) == [(at("23:30"), at("00:30", 2))]
    assert of(rest.sheet, "s1").why.code == "why.supply_freed"


def test_an_open_run_ends_when_an_announced_outage_begins_and_goes_on_after_it() -> None:
    document, sheet = planned(turns=[a_turn(run_s=3600)])
    rest = caught_up(
        document, sheet, at("21:10"), stopped(at("21:30"), at("22:30")), [Opening("s1", at("21:00"), None)]
    )
    assert spans(rest.sheet) == [(at("21:00"), at("21:30")), (at("22:30"), at("23:00"))]


def test_a_source_fills_its_pipes_again_after_it_was_shut() -> None:
    document, sheet = planned(supplies=[a_supply(lead_s=600)])
    rest = caught_up(document, sheet, at("22:00"), supply_shut(document, "town", at("20:00"), at("22:00")), [])
    assert spans(rest.sheet) == [(at("22:10"), at("22:20"))]
    assert of(rest.sheet, "s1").why.code == "why.supply_fills"


def test_never_is_more_missed_than_by_keeping_to_the_clock_whatever_the_rank() -> None:
    """An hour is left. The missed run of rank 1 brings less than the one of rank 5 that is planned for that hour."""
    document, sheet = planned(
        supplies=[a_supply(limit_lpm=100)],
        stations=[a_station("s1", flow_lpm=60), a_station("s2", flow_lpm=100)],
        programs=[a_program("p1", rank=1), a_program("p2", rank=5, start="05:00")],
        turns=[a_turn("p1", "s1", run_s=3600), a_turn("p2", "s2", run_s=3600)],
    )
    assert spans(sheet, "s2") == [(at("05:00", 2), at("06:00", 2))]
    rest = caught_up(document, sheet, at("05:00", 2), stopped(at("20:00"), at("05:00", 2)), [])
    assert (spans(rest.sheet, "s1"), spans(rest.sheet, "s2")) == ([], spans(sheet, "s2"))


def test_a_place_at_the_controller_rests_after_a_valve_that_closed_just_now() -> None:
    document, sheet = planned(
        controllers=[a_controller(max_open=1, valve_gap_s=60)],
        stations=[a_station("s1", controller="c1"), a_station("s2", controller="c1")],
    )
    first, second = sheet.runs
    closed = [Opening(first.station, first.start, first.end + 50)]
    for way in Way:
        rest = caught_up(document, sheet, second.start - 5, NO_OUTAGES, closed, way)
        assert spans(rest.sheet, second.station)[0][0] == first.end + 110


def test_two_valves_that_are_too_much_together_do_not_both_stay_open() -> None:
    document, sheet = planned(
        supplies=[a_supply(limit_lpm=100)],
        stations=[a_station("s1"), a_station("s2")],
        turns=[a_turn("p1", "s1", run_s=1200, rank=5), a_turn("p1", "s2", run_s=1200, rank=1)],
    )
    both = [Opening("s1", at("21:10"), None), Opening("s2", at("21:10"), None)]
    rest = caught_up(document, sheet, at("21:15"), NO_OUTAGES, both)
    assert spans(rest.sheet, "s1")[0] == (at("21:10"), at("21:15"))
    assert spans(rest.sheet, "s2") == [(at("21:10"), at("21:30"))]
    assert sum(end - start for start, end in spans(rest.sheet, "s1")) == 1200


def test_an_asked_for_time_that_was_missed_is_made_up_and_one_to_come_is_kept() -> None:
    asked = [an_asked("2026-07-01", station="s1", at="22:00"), an_asked("2026-07-01", "a2", station="s2", at="23:00")]
    document, sheet = planned(stations=[a_station("s1"), a_station("s2")], turns=[], asked=asked)
    rest = caught_up(document, sheet, at("22:30"), power_cut(document, at("21:30"), at("22:30")), [])
    assert spans(rest.sheet, "s1") == [(at("22:30"), at("22:40"))]
    assert spans(rest.sheet, "s2") == [(at("23:00"), at("23:10"))]


def test_a_turn_missed_on_a_dark_cabinet_does_not_hold_up_those_listed_below_that_have_begun() -> None:
    document, sheet = planned(
        supplies=[a_supply(limit_lpm=100)],
        controllers=[a_controller("c1"), a_controller("c2")],
        stations=[a_station("s1", controller="c1"), *(a_station(f"s{n}", controller="c2") for n in (2, 3))],
        programs=[a_program(order="listed")],
        turns=[a_turn("p1", f"s{n}", position=n, run_s=1200) for n in (1, 2, 3)],
    )
    one, two, three = (of(sheet, f"s{n}") for n in (1, 2, 3))
    now = two.start + 300
    outages = power_cut(document, one.start, now, "c1")
    rest = caught_up(document, sheet, now, outages, [Opening("s2", two.start, None)])
    assert spans(rest.sheet, "s2") == [(two.start, two.end)]
    assert spans(rest.sheet, "s1")[0][0] <= spans(rest.sheet, "s3")[0][0], "the order still binds these two"
    assert rest.effect.lost_l == 0
    assert three.start > now


def test_the_journal_is_read_and_those_who_never_tell_count_as_planned() -> None:
    """The cabinet of s1 tells of its valves, s2 has none that could."""
    document, sheet = planned(
        controllers=[a_controller()], stations=[a_station("s1", controller="c1"), a_station("s2")]
    )
    entries = [
        Entry("entry-01", at("21:02"), Kind.ALIVE, "reporter:c1", controller="c1"),
        Entry("entry-02", at("21:05"), Kind.POWER_LOST, "reporter:c1", controller="c1"),
        Entry("entry-03", at("21:30"), Kind.POWER_BACK, "reporter:c1", controller="c1"),
    ]
    happened = from_journal(document, sheet, entries, at("21:30"))
    assert [(one.turn, one.start, one.end) for one in happened.ran] == [("p1.s2", at("21:00"), at("21:10"))]
    rest = rest_of_night(document, sheet, at("21:30"), happened, effort=4)
    assert spans(rest.sheet, "s1") == [(at("21:30"), at("21:40"))]


def test_power_promised_for_later_is_an_entry_of_later() -> None:
    document, sheet = planned()
    entries = [
        Entry("entry-01", at("20:30"), Kind.POWER_LOST, "person:a"),
        Entry("entry-02", at("23:00"), Kind.POWER_BACK, "person:a"),
    ]
    rest = rest_of_night(document, sheet, at("21:30"), from_journal(document, sheet, entries, at("21:30")), effort=4)
    assert spans(rest.sheet) == [(at("23:00"), at("23:10"))]


def test_an_opening_of_nobody_is_told() -> None:
    document, sheet = planned(stations=[a_station("s1"), a_station("s9")], turns=[a_turn("p1", "s1")])
    opened = [Opening("s9", at("20:00"), at("20:10"))]
    rest = caught_up(document, sheet, at("21:30"), stopped(at("20:30"), at("21:30")), opened)
    assert [note.params["station"] for note in rest.sheet.notices if note.code == "notice.stranger"] == ["s9"]


def test_the_sheet_says_that_it_was_worked_out_anew_and_warns_before_water_runs() -> None:
    document, sheet = planned()
    for way, said in ((Way.RECOVER, "notice.worked_out"), (Way.KEEP, "notice.keeps_to_clock")):
        rest = caught_up(document, sheet, at("21:30"), stopped(at("20:30"), at("21:30")), [], way)
        assert [note.code for note in rest.sheet.notices][:2] == ["notice.before_water_runs", said]


def test_every_sentence_has_what_it_names() -> None:
    document, sheet = planned(
        controllers=[a_controller()],
        stations=[a_station("s1", controller="c1"), a_station("s2")],
        turns=[a_turn("p1", "s1", run_s=1200), a_turn("p1", "s2", run_s=1200)],
    )
    cuts = (power_cut(document, at("20:00"), at("21:10")), supply_shut(document, "town", at("20:00"), at("21:10")))
    for outages in (*cuts, stopped(at("20:00"), at("21:10")), stopped(at("20:00"), FOREVER)):
        for way in Way:
            for message in messages(caught_up(document, sheet, at("21:10"), outages, [], way).sheet):
                names = {name for _, name, _, _ in Formatter().parse(SAYINGS[message.code].template) if name}
                assert names == set(message.params), message.code


def test_an_edit_at_night_leaves_what_ran_and_plans_the_rest() -> None:
    document, sheet = planned(turns=[a_turn(run_s=1200)])
    edited = a_document(windows=[a_window()], turns=[a_turn(run_s=3600)])
    rest = rest_of_night(edited, sheet, at("21:10"), effort=4)
    assert spans(rest.sheet) == [(at("21:00"), at("22:00"))]
    shorter = a_document(windows=[a_window()], turns=[a_turn(run_s=300)])
    assert spans(rest_of_night(shorter, sheet, at("21:10"), effort=4).sheet) == [(at("21:00"), at("21:10"))]


def test_a_turn_that_is_over_is_over_however_much_longer_an_edit_makes_it() -> None:
    _, sheet = planned(turns=[a_turn(run_s=1200)])
    edited = a_document(windows=[a_window()], turns=[a_turn(run_s=3600)])
    rest = rest_of_night(edited, sheet, at("21:30"), effort=4).sheet
    assert (spans(rest), rest.shortfalls) == ([(at("21:00"), at("21:20"))], ())


def test_a_cycle_that_ran_has_run_and_those_open_or_to_come_take_their_new_length() -> None:
    cycles = {"cycles": 3, "soak_s": 600}
    _, sheet = planned(turns=[a_turn(run_s=1800, **cycles)])
    edited = a_document(windows=[a_window()], turns=[a_turn(run_s=2160, **cycles)])
    in_the_second = rest_of_night(edited, sheet, at("21:25"), effort=4).sheet
    assert [run.end - run.start for run in in_the_second.runs] == [600, 720, 720]
    in_the_soak = rest_of_night(edited, sheet, at("21:15"), effort=4).sheet
    assert [run.end - run.start for run in in_the_soak.runs] == [600, 720, 720]
    assert in_the_second.shortfalls == in_the_soak.shortfalls == ()


def test_an_edit_takes_up_what_fell_short_before() -> None:
    _, sheet = planned(turns=[a_turn(run_s=1800)], closures=[a_closure(starts="21:00", ends="06:00")])
    assert (sheet.runs, len(sheet.shortfalls)) == ((), 1)
    edited = a_document(windows=[a_window()], turns=[a_turn(run_s=1800)])
    rest = rest_of_night(edited, sheet, at("21:30"), effort=4).sheet
    assert (spans(rest), rest.shortfalls) == ([(at("21:30"), at("22:00"))], ())


def test_a_night_is_under_way_from_its_first_water_to_its_end() -> None:
    document, sheet = planned(turns=[a_turn(run_s=1200)])
    clocks = [at("20:59"), at("21:00"), at("21:01"), at("03:00", 2), sheet.ends]
    assert [is_under_way(sheet, now) for now in clocks] == [False, False, True, True, False]
    longer = a_document(windows=[a_window()], turns=[a_turn(run_s=3600)])
    night = date.fromisoformat(sheet.night)
    assert spans(edited_night(longer, night, sheet, at("20:00"), 4)) == [(at("21:00"), at("22:00"))]
    assert spans(edited_night(longer, night, sheet, at("03:00", 2), 4)) == [(at("21:00"), at("21:20"))]
    assert spans(edited_night(longer, night, None, at("03:00", 2), 4)) == [(at("21:00"), at("22:00"))]


def test_an_edit_that_closes_the_site_now_closes_what_is_open() -> None:
    document, sheet = planned(turns=[a_turn(run_s=1200)])
    closure = a_closure(starts_on="2026-07-01T21:10", ends_on="2026-07-01T22:00")
    edited = a_document(windows=[a_window()], turns=[a_turn(run_s=1200)], closures=[closure])
    rest = rest_of_night(edited, sheet, at("21:10"), effort=4)
    assert spans(rest.sheet) == [(at("21:00"), at("21:10")), (at("22:00"), at("22:10"))]


@pytest.mark.parametrize("now", [at("10:00"), at("12:30"), at("11:00", 2), at("14:00", 2)])
def test_before_the_first_run_and_after_the_last_there_is_nothing_to_do(now: int) -> None:
    document, sheet = planned()
    opened = [Opening(run.station, run.start, run.end) for run in sheet.runs if run.start < now]
    assert caught_up(document, sheet, now, NO_OUTAGES, opened).sheet == sheet
