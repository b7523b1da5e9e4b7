"""What comes into the journal becomes alarms: once each, whoever watches, and in whatever order it comes."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from sqlalchemy import select

from pengan.engine.journal.entry import Entry, Kind
from pengan.field.troubles import Break, Leak, PowerCut
from pengan.web.alarms import watching
from pengan.web.alarms.models import LearnedFlow, WatchedNight
from pengan.web.alarms.queue import FIRST_PAUSE_S, LEASE_S
from web.alarms.conftest import DOCUMENT, SHEET, Grounds

BEGIN, END = SHEET.runs[0].start, max(run.end for run in SHEET.runs)
BROKEN = BEGIN + 1500
BREAK = Break(supply="north", flow_lpm=30, at=BROKEN, until=BROKEN + 1800)


def test_a_break_is_one_alarm_that_opens_and_ends(grounds: Grounds) -> None:
    grounds.play(BREAK)
    watcher = grounds.watcher()
    grounds.go_on(watcher, BROKEN - 60, every_s=600)
    assert grounds.alarms() == []
    grounds.go_on(watcher, BROKEN + 180)
    (alarm,) = grounds.alarms()
    assert (alarm.kind, alarm.supply, alarm.gravity, alarm.ended_at) == ("too_much", "north", 3, None)
    assert 20 < alarm.size_lpm < 33 and abs(json.loads(alarm.said)["params"]["since_at"] - BROKEN) < 120
    grounds.go_on(watcher, BROKEN + 3000, every_s=300)
    (alarm,) = grounds.alarms()
    assert alarm.ended_at is not None and abs(alarm.ended_at - BROKEN - 1800) < 200
    assert json.loads(alarm.ended_why or "")["code"] == "alarm.right_again"
    grounds.go_on(watcher, END + 600, every_s=600)
    words = grounds.journal(Kind.ALARM_OPENED, Kind.ALARM_ENDED)
    assert [(one.kind, one.alarm, one.by) for one in words] == [
        (Kind.ALARM_OPENED, alarm.id, "server"), (Kind.ALARM_ENDED, alarm.id, "server"),
    ]  # fmt: skip
    assert "gives" in words[0].text and "north" in words[0].text.lower()


def test_a_clean_night_opens_none(grounds: Grounds) -> None:
    grounds.play()
    grounds.go_on(grounds.watcher(), SHEET.ends + 60, every_s=600)
    assert grounds.alarms() == []


def test_two_watchers_side_by_side_give_one_alarm(grounds: Grounds) -> None:
    """Whichever looks: the other finds the site held, or finds what was filed."""
    grounds.play(BREAK)
    one, two = grounds.watcher(), grounds.watcher()
    while grounds.now < BROKEN + 600:
        grounds.tell_until(grounds.now + 300)
        grounds.look(one)
        grounds.look(two)
        grounds.real += LEASE_S  # so that either may have it next
        one, two = two, one
    assert len(grounds.alarms()) == 1
    assert len(grounds.journal(Kind.ALARM_OPENED)) == 1


def test_a_watcher_that_was_killed_is_taken_over(grounds: Grounds) -> None:
    """What it held in memory is gone; the next one reads the night anew, and finds the same."""
    grounds.play(BREAK)
    killed = grounds.watcher()
    grounds.go_on(killed, BROKEN + 180, every_s=300)
    (before,) = grounds.alarms()
    next_one = grounds.watcher()
    grounds.tell_until(BROKEN + 400)
    assert grounds.look(next_one) == []
    grounds.real += LEASE_S
    assert grounds.look(next_one) != []
    grounds.go_on(next_one, BROKEN + 3000, every_s=300)
    (after,) = grounds.alarms()
    assert after.id == before.id and after.ended_at is not None and after.times == 1


def test_late_entries_that_explain_it_end_the_alarm_and_say_so(grounds: Grounds) -> None:
    """A cabinet without a line: its valves were open all the time, and nobody knew."""
    grounds.play()
    by_hand = [
        Entry("opened-by-hand-1", BEGIN - 3600, Kind.OPENED, "person:ana", station="n2"),
        Entry("closed-by-hand-1", BEGIN - 1800, Kind.CLOSED, "person:ana", station="n2"),
    ]
    flows = [
        replace(one, flow_lpm=(one.flow_lpm or 0.0) + 50)
        if one.kind is Kind.FLOW and one.supply in ("north", "well") and BEGIN - 3595 < one.at < BEGIN - 1795
        else one
        for one in grounds.entries
    ]
    grounds.entries = flows
    watcher = grounds.watcher()
    grounds.go_on(watcher, BEGIN - 3000, every_s=300)
    (alarm,) = grounds.alarms()
    assert alarm.kind == "unasked" and alarm.ended_at is None
    grounds.go_on(watcher, BEGIN - 600, every_s=300)
    grounds.tell(by_hand)
    grounds.real += 60
    grounds.look(watcher)
    (after,) = grounds.alarms()
    assert after.id == alarm.id and json.loads(after.ended_why or "")["code"] == "alarm.explained_later"
    assert after.times == 1


def test_a_leak_that_lasts_over_noon_stays_one_alarm(grounds: Grounds) -> None:
    grounds.play(Leak(supply="south", flow_lpm=10, at=END + 3600))
    watcher = grounds.watcher()
    grounds.go_on(watcher, SHEET.ends - 60, every_s=900)
    (alarm,) = grounds.alarms()
    assert alarm.ended_at is None
    quiet = [
        Entry(f"after-noon-{supply}-{at}", at, Kind.FLOW, "reporter:field", supply=supply, flow_lpm=flow)
        for at in range(SHEET.ends + 60, SHEET.ends + 3600, 60)
        for supply, flow in (("well", 10.0), ("south", 10.0), ("north", 0.0))
    ]
    grounds.entries = [*grounds.entries, *quiet]
    grounds.go_on(watcher, SHEET.ends + 3500, every_s=300)
    (after,) = grounds.alarms()
    assert (after.id, after.ended_at, after.times) == (alarm.id, None, 1)
    assert set(json.loads(after.spells)) == {SHEET.night, "2026-07-11"}


def test_no_power_is_one_alarm_and_ends_with_it(grounds: Grounds) -> None:
    grounds.play(PowerCut(controller="cab-n", at=BEGIN + 900, until=BEGIN + 2400))
    watcher = grounds.watcher()
    grounds.go_on(watcher, BEGIN + 600, every_s=600)
    grounds.go_on(watcher, END + 600, every_s=300)
    found = [(one.kind, one.controller, one.ended_at is not None) for one in grounds.alarms()]
    assert found == [("power", "cab-n", True)]


def test_a_night_teaches_flows_and_who_has_a_meter(grounds: Grounds) -> None:
    grounds.play()
    watcher = grounds.watcher()
    grounds.go_on(watcher, SHEET.ends + 120, every_s=900)
    grounds.look(watcher)
    with grounds.server.shared.database.session() as session, session.begin():
        flows = {row.station: row.flow_lpm for row in session.scalars(select(LearnedFlow))}
        nights = {row.night: row for row in session.scalars(select(WatchedNight))}
    assert flows.keys() == DOCUMENT.stations.keys()
    assert all(abs(flow / DOCUMENT.stations[id].flow_lpm - 1) < 0.05 for id, flow in flows.items())
    assert json.loads(nights[SHEET.night].metered) == ["north", "south", "well"]
    assert json.loads(nights[SHEET.night].heard) == ["cab-n", "cab-s"]


def test_a_site_that_cannot_be_watched_waits_and_holds_up_no_other(
    grounds: Grounds, monkeypatch: pytest.MonkeyPatch
) -> None:
    grounds.play(BREAK)
    grounds.tell_until(BROKEN + 900)
    watcher = grounds.watcher()

    def broken(*_given: object) -> None:
        raise ArithmeticError

    with monkeypatch.context() as patch, grounds.server.shared.database.session() as session:
        patch.setattr(watching, "night_at", broken)
        failed = watcher.look_once(session, grounds.now)
        assert failed is not None and failed.fault == "ArithmeticError"
        grounds.real += 10
        assert watcher.look_once(session, grounds.now) is None
    grounds.real += FIRST_PAUSE_S
    grounds.look(watcher)
    assert len(grounds.alarms()) == 1
