"""Clocks of a site's own beside the IANA zones they imitate. Source: the package tzdata, read by `zoneinfo`."""

from __future__ import annotations

from calendar import timegm
from collections.abc import Callable
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pengan.engine.clock.dated import dated_faults, read_dated, write_dated
from pengan.engine.clock.fault import ClockFault
from pengan.engine.clock.instants import Timeline
from pengan.engine.clock.nights import night_on
from pengan.engine.clock.own_rule import MOST_TEXT, own_field_of, posix_of
from pengan.engine.clock.rules import Change
from pengan.engine.clock.vtimezone import read_vtimezone, vtimezone_of
from pengan.engine.clock.zones import SiteClock, clock_of, dated_clock, rule_clock, zone_clock, zone_names
from pengan.engine.document.tables import Site

Outside = Callable[[str], ZoneInfo]
FROM, UNTIL = timegm((2026, 1, 1, 0, 0, 0)), timegm((2046, 1, 1, 0, 0, 0))
RAMADAN_FROM, RAMADAN_UNTIL = timegm((2024, 1, 1, 0, 0, 0)), timegm((2026, 7, 1, 0, 0, 0))


def same_offsets(clock: SiteClock, zone: ZoneInfo, start: int, end: int) -> bool:
    """At every hour a change could fall on, and on both sides of every change the clock has."""
    looked_at = list(range(start, end, 7 * 86_400))
    for change in clock.changes(start, end):
        looked_at += [change.at - 1, change.at]
    return all(_offset(zone, instant) == clock.offset(instant) for instant in looked_at)


def _offset(zone: ZoneInfo, instant: int) -> float:
    offset = datetime.fromtimestamp(instant, UTC).astimezone(zone).utcoffset()
    assert offset is not None
    return offset.total_seconds()


@pytest.mark.parametrize(
    ("zone", "rule"),
    [
        pytest.param("Australia/Lord_Howe", "<+1030>-10:30<+11>-11,M10.1.0,M4.1.0", id="half an hour"),
        pytest.param("Europe/Dublin", "IST-1GMT0,M10.5.0,M3.5.0/1", id="negative daylight saving"),
        pytest.param("Africa/Cairo", "EET-2EEST,M4.5.5/0,M10.5.4/24", id="midnight, a Friday and a Thursday's end"),
        pytest.param("Asia/Beirut", "EET-2EEST,M3.5.0/0,M10.5.0/0", id="midnight, back into the day before"),
        pytest.param("Pacific/Auckland", "NZST-12NZDT,M9.5.0,M4.1.0/3", id="southern hemisphere"),
        pytest.param("America/Santiago", "<-04>4<-03>,M9.1.6/24,M4.1.6/24", id="southern, at the end of a day"),
        pytest.param("Asia/Jerusalem", "IST-2IDT,M3.4.4/26,M10.5.0", id="the day after a Thursday"),
        pytest.param("America/Nuuk", "<-02>2<-01>,M3.5.0/-1,M10.5.0/0", id="the evening before a Sunday"),
        pytest.param("Antarctica/Troll", "<+00>0<+02>-2,M3.5.0/1,M10.5.0/3", id="two hours"),
        pytest.param("Pacific/Chatham", "<+1245>-12:45<+1345>,M9.5.0/2:45,M4.1.0/3:45", id="quarter hours"),
    ],
)
def test_a_yearly_rule_of_ones_own_is_the_zone_it_imitates(zone: str, rule: str, outside_zone: Outside) -> None:
    clock = clock_of(Site(id="s", name="S", zone_rule=rule))
    assert len(clock.changes(FROM, UNTIL)) == 40
    assert clock.changes(FROM, UNTIL) == zone_clock(zone).changes(FROM, UNTIL)
    assert same_offsets(clock, outside_zone(zone), FROM, UNTIL)
    assert posix_of(zone_clock(zone).timeline, FROM) == rule


def test_a_change_cancelled_for_ramadan_is_written_as_dated_changes(outside_zone: Outside) -> None:
    """Morocco went back to UTC+0 for Ramadan of 2024, 2025 and 2026: three pairs of changes on no yearly date."""
    zone = zone_clock("Africa/Casablanca").timeline
    changes = zone.changes(RAMADAN_FROM, RAMADAN_UNTIL)
    assert len(changes) == 6
    text = write_dated(Timeline(3600, changes))
    assert text.startswith("+01:00, 2024-03-10T02:00Z +00:00, 2024-04-14T02:00Z +01:00, 2025-02-23T02:00Z +00:00")
    clock = clock_of(Site(id="s", name="S", zone_changes=text))
    assert same_offsets(clock, outside_zone("Africa/Casablanca"), RAMADAN_FROM, RAMADAN_UNTIL)
    nights = [night_on(clock, date.fromisoformat(day)).length_s // 3600 for day in ("2024-03-09", "2024-04-13")]
    assert nights == [25, 23]


def test_every_zone_can_be_made_a_clock_of_ones_own() -> None:
    """As a POSIX rule or dated changes, whichever says it: the same changes for fifteen years."""
    until = FROM + 15 * 365 * 86_400
    fields = set()
    for name in sorted(zone_names()):
        timeline = zone_clock(name).timeline
        field, text = own_field_of(timeline, FROM)
        fields.add(field)
        clock = rule_clock(text) if field == "zone_rule" else dated_clock(text)
        assert len(text) <= MOST_TEXT
        assert clock.changes(FROM, until) == timeline.changes(FROM, until), name
        assert clock.offset(FROM) == timeline.offset(FROM), name
    assert fields == {"zone_rule", "zone_changes"}


def test_every_zone_survives_being_a_vtimezone() -> None:
    until = FROM + 15 * 365 * 86_400
    for name in sorted(zone_names()):
        timeline = zone_clock(name).timeline
        read = read_vtimezone(vtimezone_of(zone_clock(name), FROM))
        assert read.changes(FROM, until) == timeline.changes(FROM, until), name
        assert read.offset(FROM) == timeline.offset(FROM), name


@given(st.lists(st.tuples(st.integers(2, 400), st.integers(-18 * 60, 18 * 60)), max_size=40), st.integers(-720, 840))
def test_dated_changes_read_back_as_they_were_written(steps: list[tuple[int, int]], first: int) -> None:
    changes, at, now = [], FROM, first * 60
    for days, minutes in steps:
        at += days * 86_400 + abs(minutes)
        if minutes * 60 != now:
            changes.append(Change(at, now, minutes * 60))
        now = minutes * 60
    timeline = Timeline(first * 60, tuple(changes))
    assert read_dated(write_dated(timeline)) == timeline


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("", ["clock.change_unreadable"]),
        ("+01:00, 2026-10-25T01:00 +00:00", ["clock.change_unreadable"]),
        ("+01:00, 2026-02-30T01:00Z +00:00", ["clock.change_unreadable"]),
        ("+24:00, 2026-10-25 +00:00", ["clock.change_unreadable"] * 2),
        ("+01:00, 2026-10-25T01:00Z +01:00", ["clock.change_idle"]),
        ("+01:00, 2026-10-25T01:00Z +00:00, 2026-03-01T01:00Z +01:00", ["clock.change_out_of_order"]),
        ("+01:00, 2026-10-25T01:00Z +00:00, 2026-10-25T09:00Z +01:00", ["clock.changes_one_day"]),
    ],
)
def test_dated_changes_with_faults_are_refused_with_all_of_them(text: str, codes: list[str]) -> None:
    assert [fault.message.code for fault in dated_faults(text)] == codes
    with pytest.raises(ClockFault):
        dated_clock(text)


@pytest.mark.parametrize(
    ("rule", "day"),
    [
        ("CET-1CEST,M3.5.0,M3.5.0/3", "2000-03-26"),
        ("CET-1CEST,M3.5.0/1,M3.5.0/23", "2000-03-26"),
        ("CET-1CEST,J90,M3.5.0/10", "2002-03-31"),
        ("CET-1CEST,J60/0,59/20", "2001-03-01"),
    ],
)
def test_two_changes_on_one_day_of_any_year_are_a_fault(rule: str, day: str) -> None:
    with pytest.raises(ClockFault) as raised:
        rule_clock(rule)
    message = raised.value.message
    assert (message.code, message.params["change_date"]) == ("clock.changes_one_day", day)
