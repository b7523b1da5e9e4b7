"""VTIMEZONE: the examples of RFC 5545 section 3.6.5, other libraries reading what we write, and there and back."""

from __future__ import annotations

from calendar import timegm
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from io import StringIO
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from dateutil.tz import tzical
from hypothesis import assume, given
from hypothesis import strategies as st
from icalendar import Calendar, Timezone

from pengan.engine.clock.fault import ClockFault
from pengan.engine.clock.own_rule import own_field_of, posix_of
from pengan.engine.clock.posix import write_posix
from pengan.engine.clock.rules import Rule, Summer, YearDay
from pengan.engine.clock.same_day import rule_same_day_fault
from pengan.engine.clock.vtimezone import read_vtimezone, vtimezone_of
from pengan.engine.clock.zones import SiteClock, rule_clock, zone_clock

FIXTURES = Path(__file__).parents[3] / "fixtures" / "clock"
NEW_YORK = (FIXTURES / "new_york_rfc5545.ics").read_text("utf-8")
FICTITIOUS = (FIXTURES / "fictitious_rfc5545.ics").read_text("utf-8")
NOW = timegm((2026, 11, 25, 12, 0, 0))

RULES = (
    "CET-1CEST,M3.5.0,M10.5.0/3",
    "IST-1GMT0,M10.5.0,M3.5.0/1",
    "<+1030>-10:30<+11>-11,M10.1.0,M4.1.0",
    "<-02>2<-01>,M3.5.0/-1,M10.5.0/0",
    "IST-2IDT,M3.4.4/26,M10.5.0",
    "EET-2EEST,M4.5.5/0,M10.5.4/24",
    "<-04>4<-03>,M9.1.6/24,M4.1.6/24",
    "AAA3BBB,J60,J300/3",
    "AAA3BBB,59,300/3",
    "AAA3BBB,M2.5.0/50,M9.1.3/-40",
)


def utc(year: int, month: int = 1, day: int = 1, hour: int = 0) -> int:
    return timegm((year, month, day, hour, 0, 0))


def in_calendar(text: str) -> str:
    return f"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//pengan//test//EN\r\n{text}END:VCALENDAR\r\n"


def test_new_york_as_rfc_5545_has_it_is_new_york(outside_zone: Callable[[str], ZoneInfo]) -> None:
    """Source: RFC 5545 section 3.6.5, first example, beside zoneinfo from 1967 to 2060."""
    timeline, zone = read_vtimezone(NEW_YORK), outside_zone("America/New_York")
    start, end = utc(1967, 4, 1), utc(2060, 1, 1)
    assert timeline.changes(start, end) == zone_clock("America/New_York").changes(start, end)
    for change in timeline.changes(start, end):
        offset = datetime.fromtimestamp(change.at, UTC).astimezone(zone).utcoffset()
        assert offset is not None and offset.total_seconds() == change.after_s
    assert own_field_of(timeline, NOW) == ("zone_rule", "EST5EDT,M3.2.0,M11.1.0")


def test_a_zone_that_pauses_its_summer_time_does_so() -> None:
    """Source: RFC 5545 section 3.6.5, last example: no summer time in 1998, and again from 1999-04-24 on."""
    timeline = read_vtimezone(FICTITIOUS)
    changes = [change.at for change in timeline.changes(utc(1997, 1, 1), utc(2001, 1, 1))]
    assert changes == [
        utc(1997, 4, 6, 7), utc(1997, 10, 26, 6), utc(1999, 4, 24, 7), utc(1999, 10, 31, 6), utc(2000, 4, 30, 7),
        utc(2000, 10, 29, 6),
    ]  # fmt: skip
    assert posix_of(timeline, utc(2000)) == "EST5EDT,M4.5.0,M10.5.0"
    assert posix_of(timeline, utc(1996)) is None


def test_a_zone_of_which_only_the_past_recurs_becomes_dated_changes_or_one_offset() -> None:
    """Source: RFC 5545 section 3.6.5: the same fictitious zone before its third part was added."""
    parts = FICTITIOUS.split("BEGIN:DAYLIGHT")
    timeline = read_vtimezone("BEGIN:DAYLIGHT".join(parts[:2]) + "END:VTIMEZONE\n")
    assert own_field_of(timeline, NOW) == ("zone_rule", "<-05>5")
    field, text = own_field_of(timeline, utc(1996, 6, 1))
    assert (field, text) == (
        "zone_changes",
        "-04:00, 1996-10-27T06:00Z -05:00, 1997-04-06T07:00Z -04:00, 1997-10-26T06:00Z -05:00",
    )


@pytest.mark.parametrize("rule", RULES)
def test_other_libraries_read_the_same_out_of_what_we_write(rule: str) -> None:
    """Sources: the packages icalendar and python-dateutil, reading the VTIMEZONE of a rule of one's own."""
    clock = rule_clock(rule)
    text = in_calendar(vtimezone_of(clock))
    zone = next(part for part in Calendar.from_ical(text).walk("VTIMEZONE") if isinstance(part, Timezone)).to_tz()
    dateutil = tzical(StringIO(text)).get()
    for change in clock.changes(utc(2024), utc(2038)):
        for instant, offset_s in ((change.at - 1, change.before_s), (change.at, change.after_s)):
            moment = datetime.fromtimestamp(instant, UTC)
            assert moment.astimezone(zone).utcoffset() == timedelta(seconds=offset_s)
            assert moment.astimezone(dateutil).utcoffset() == timedelta(seconds=offset_s)


def test_what_another_library_has_read_and_written_again_is_read_as_the_same_clock() -> None:
    """Source: the package icalendar, which orders, folds and joins lines its own way.

    Its own descriptions of zones (`Timezone.from_tzid`) are not compared: icalendar 7.3 starts a DAYLIGHT part on the
    wall after the change, where RFC 5545 section 3.6.5 asks for the wall before it.
    """
    for name in ("Europe/Lisbon", "Asia/Gaza", "Australia/Adelaide"):
        text = Calendar.from_ical(in_calendar(vtimezone_of(zone_clock(name), NOW))).to_ical().decode()
        assert read_vtimezone(text).changes(NOW, utc(2060)) == zone_clock(name).changes(NOW, utc(2060))


@pytest.mark.parametrize("rule", RULES)
def test_a_rule_survives_being_a_vtimezone(rule: str) -> None:
    text = posix_of(read_vtimezone(vtimezone_of(rule_clock(rule))), NOW)
    assert text is not None
    assert rule_clock(text).changes(NOW, utc(2090)) == rule_clock(rule).changes(NOW, utc(2090))


def test_the_seven_month_days_many_programs_write_are_seen_as_the_weekday_they_mean() -> None:
    text = NEW_YORK.replace("BYMONTH=3;BYDAY=2SU", "BYMONTH=3;BYMONTHDAY=8,9,10,11,12,13,14;BYDAY=SU;WKST=MO")
    assert posix_of(read_vtimezone(text), NOW) == "EST5EDT,M3.2.0,M11.1.0"


day_times = st.integers(-40, 40).map(lambda half_hours: half_hours * 1800)
year_days = st.one_of(
    st.builds(YearDay, st.just("M"), day_times, st.integers(1, 12), st.integers(1, 5), st.integers(0, 6)),
    st.builds(YearDay, st.just("J"), day_times, day=st.integers(1, 365)),
    st.builds(YearDay, st.just("N"), day_times, day=st.integers(0, 365)),
)


@given(st.integers(-24, 24), st.sampled_from([-2, 1, 2, 4]), year_days, year_days)
def test_any_rule_survives_being_a_vtimezone(half_hours: int, step: int, starts: YearDay, ends: YearDay) -> None:
    """Also one that no recurrence can say, and one that changes around the turn of the year."""
    offset_s = half_hours * 1800
    rule = Rule("AAA", offset_s, Summer("BBB", offset_s + step * 1800, starts, ends))
    assume(rule_same_day_fault(rule) is None)
    clock = rule_clock(write_posix(rule))
    read = read_vtimezone(vtimezone_of(clock, utc(2026)))
    assert read.changes(utc(2026) + 1, utc(2050)) == clock.changes(utc(2026) + 1, utc(2050))


def test_lines_end_and_fold_as_rfc_5545_asks() -> None:
    """Source: RFC 5545 section 3.1: CRLF, no line over 75 octets."""
    clock = SiteClock("Somewhere, " * 20, "", zone_clock("Asia/Gaza").timeline)
    text = vtimezone_of(clock, NOW)
    lines = text.split("\r\n")
    assert lines[-1] == "" and "\n" not in text.replace("\r\n", "")
    assert max(len(line.encode()) for line in lines) == 75
    assert read_vtimezone(text).changes(NOW, utc(2040)) == clock.changes(NOW, utc(2040))


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        (NEW_YORK, "", "clock.vtimezone_none"),
        ("VTIMEZONE", "VEVENT", "clock.vtimezone_none"),
        ("DTSTART:20070311T020000\n", "", "clock.vtimezone_lacking"),
        ("TZOFFSETTO:-0400\n", "", "clock.vtimezone_lacking"),
        ("20070311T020000", "20070311T026000", "clock.vtimezone_line"),
        ("20070311T020000", "20070311", "clock.vtimezone_line"),
        ("-0400", "-04", "clock.vtimezone_line"),
        ("TZNAME:EDT", "TZNAME", "clock.vtimezone_line"),
        ("TZNAME:EST", "RRULE:FREQ=YEARLY", "clock.vtimezone_line"),
        ("FREQ=YEARLY;BYMONTH=3", "FREQ=MONTHLY;BYMONTH=3", "clock.recurrence_unreadable"),
        ("BYDAY=2SU", "BYDAY=2SO", "clock.recurrence_unreadable"),
        ("BYMONTH=3;", "BYMONTH=13;", "clock.recurrence_unreadable"),
        ("BYMONTH=3;", "BYMONTH=3;BYSETPOS=1;", "clock.recurrence_unreadable"),
        ("BYMONTH=3;", "BYMONTH=3;COUNT=0;", "clock.recurrence_unreadable"),
        ("UNTIL=20061029T060000Z", "UNTIL=tomorrow", "clock.recurrence_unreadable"),
    ],
)
def test_a_vtimezone_that_cannot_be_read_is_a_coded_fault(old: str, new: str, code: str) -> None:
    assert old in NEW_YORK
    with pytest.raises(ClockFault) as raised:
        read_vtimezone(NEW_YORK.replace(old, new))
    assert raised.value.message.code == code
