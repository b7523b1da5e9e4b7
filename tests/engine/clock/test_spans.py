"""Windows and closures as stretches of real time, an hour short or long where the clock changes."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pengan.engine.clock.nights import night_at, night_on
from pengan.engine.clock.spans import RealSpan, closure_spans, window_spans
from pengan.engine.clock.sun import Place
from pengan.engine.clock.times import moment_on
from pengan.engine.clock.zones import SiteClock, zone_clock
from pengan.engine.document.tables import Closure, Window

LISBON, PLACE = zone_clock("Europe/Lisbon"), Place(38.72, -9.14)
SUMMER, SPRING, AUTUMN = date(2026, 6, 1), date(2026, 3, 28), date(2026, 10, 24)


def read(spans: list[RealSpan], clock: SiteClock = LISBON) -> list[str]:
    """Spans as `day hour:minute+offset – …`, the offset in hours."""
    ends = [f"{clock.wall(at):%d %H:%M}{clock.offset(at) // 3600:+d}" for span in spans for at in span]
    return [f"{first} – {last}" for first, last in zip(ends[::2], ends[1::2], strict=True)]


def window(day: date, clock: SiteClock = LISBON, place: Place | None = PLACE, **fields: Any) -> list[RealSpan]:
    return window_spans(Window(id="w", **fields), night_on(clock, day), clock, place)


def closure(day: date, clock: SiteClock = LISBON, place: Place | None = PLACE, **fields: Any) -> list[RealSpan]:
    return closure_spans(Closure(id="k", name="K", **fields), night_on(clock, day), clock, place)


def test_a_window_over_midnight_lasts_as_long_as_the_night_makes_it() -> None:
    hours = [window(day, opens="22:00", closes="06:00") for day in (SUMMER, SPRING, AUTUMN)]
    assert [(spans[0][1] - spans[0][0]) / 3600 for spans in hours] == [8, 7, 9]
    assert read(hours[1]) == ["28 22:00+0 – 29 06:00+1"]


@pytest.mark.parametrize(
    ("day", "opens", "closes", "spans"),
    [
        (SPRING, "22:00", "01:30", ["28 22:00+0 – 29 02:00+1"]),
        (SPRING, "01:30", "05:00", ["29 02:00+1 – 29 05:00+1"]),
        (SPRING, "01:45", "02:15", ["29 02:00+1 – 29 02:15+1"]),
        (SPRING, "01:15", "01:45", []),
        (AUTUMN, "22:00", "01:30", ["24 22:00+1 – 25 01:30+1", "25 01:00+0 – 25 01:30+0"]),
        (AUTUMN, "01:30", "05:00", ["25 01:30+1 – 25 01:00+0", "25 01:30+0 – 25 05:00+0"]),
        (AUTUMN, "01:15", "01:45", ["25 01:15+1 – 25 01:45+1", "25 01:15+0 – 25 01:45+0"]),
    ],
)
def test_a_window_is_open_exactly_while_the_wall_reads_a_time_in_it(
    day: date, opens: str, closes: str, spans: list[str]
) -> None:
    assert read(window(day, opens=opens, closes=closes)) == spans


@pytest.mark.parametrize(
    ("day", "starts", "ends", "spans"),
    [
        (SPRING, "22:00", "01:30", ["28 22:00+0 – 29 02:00+1"]),
        (SPRING, "01:15", "01:45", []),
        (AUTUMN, "22:00", "01:30", ["24 22:00+1 – 25 01:30+0"]),
        (AUTUMN, "01:30", "05:00", ["25 01:30+1 – 25 05:00+0"]),
        (AUTUMN, "01:15", "01:45", ["25 01:15+1 – 25 01:45+0"]),
    ],
)
def test_a_closure_holds_from_its_first_second_to_its_last(day: date, starts: str, ends: str, spans: list[str]) -> None:
    """Where its end comes twice it stays closed in between: nobody on the lawn is watered by a doubled hour."""
    assert read(closure(day, starts=starts, ends=ends)) == spans


@pytest.mark.parametrize(
    ("fields", "spans"),
    [
        ({"opens": "13:00", "closes": "14:00"}, ["01 13:00+1 – 01 14:00+1"]),
        ({"opens": "11:00", "closes": "13:00"}, ["01 12:00+1 – 01 13:00+1", "02 11:00+1 – 02 12:00+1"]),
        ({"opens": "12:00", "closes": "12:00"}, ["01 12:00+1 – 02 12:00+1"]),
        ({"opens": "20:00", "closes": "24:00"}, ["01 20:00+1 – 02 00:00+1"]),
        ({}, ["01 12:00+1 – 02 12:00+1"]),
        ({"opens": "22:00", "closes": "06:00", "days": "weekdays", "weekdays": "mon"}, ["01 22:00+1 – 02 06:00+1"]),
        ({"opens": "22:00", "closes": "06:00", "days": "weekdays", "weekdays": "tue"}, []),
        ({"opens": "01:00", "closes": "06:00", "days": "weekdays", "weekdays": "tue"}, ["02 01:00+1 – 02 06:00+1"]),
    ],
)
def test_a_window_is_clipped_to_the_night_and_opens_by_the_date_it_opens_on(
    fields: dict[str, str], spans: list[str]
) -> None:
    """2026-06-01 is a Monday."""
    assert read(window(SUMMER, **fields)) == spans


def test_a_window_may_open_and_close_by_the_sun() -> None:
    down, up = (
        moment_on(text, day, LISBON, PLACE) for text, day in (("sunset", SUMMER), ("sunrise", date(2026, 6, 2)))
    )
    assert down is not None and up is not None
    assert window(SUMMER, opens="sunset+01:00", closes="sunrise-00:30") == [(down + 3600, up - 1800)]
    assert read(window(SUMMER, opens="sunset", closes="23:00"))[0].endswith("– 01 23:00+1")


@pytest.mark.parametrize(
    ("fields", "spans"),
    [
        ({"starts_on": "2026-06-01T21:00", "ends_on": "2026-06-02T01:30"}, ["01 21:00+1 – 02 01:30+1"]),
        ({"starts_on": "2026-05-01T21:00", "ends_on": "2026-07-02T01:30"}, ["01 12:00+1 – 02 12:00+1"]),
        ({"starts_on": "2026-06-02T03:00"}, ["02 03:00+1 – 02 12:00+1"]),
        ({"ends_on": "2026-06-01T13:00"}, ["01 12:00+1 – 01 13:00+1"]),
        ({"starts_on": "2026-06-02T12:00", "ends_on": "2026-06-02T13:00"}, []),
        ({"days": "dates", "dates": "2026-06-02"}, ["02 00:00+1 – 02 12:00+1"]),
        ({"starts": "05:00", "ends": "08:00", "days": "even"}, ["02 05:00+1 – 02 08:00+1"]),
        ({"starts": "05:00", "days": "even"}, ["02 05:00+1 – 02 12:00+1"]),
    ],
)
def test_a_closure_is_once_or_by_day_rule(fields: dict[str, str], spans: list[str]) -> None:
    assert read(closure(SUMMER, **fields)) == spans


def test_where_the_sun_does_not_set_a_window_stays_shut_and_a_closure_holds_all_day() -> None:
    oslo, tromso, day = zone_clock("Europe/Oslo"), Place(69.65, 18.96), date(2026, 6, 21)
    assert window(day, oslo, tromso, opens="sunset", closes="06:00") == []
    assert read(closure(day, oslo, tromso, starts="sunset", ends="06:00"), oslo) == ["21 12:00+2 – 22 12:00+2"]


clocks = st.sampled_from(
    [LISBON, zone_clock("Africa/Cairo"), zone_clock("Australia/Lord_Howe"), zone_clock("Asia/Beirut")]
)
times = st.integers(0, 1439).map(lambda minute: f"{minute // 60:02d}:{minute % 60:02d}")


@given(clocks, st.integers(0, 3), st.integers(-1, 1), times, times, st.integers(0, 86_399))
def test_a_second_is_in_a_window_by_what_the_wall_reads(
    clock: SiteClock, number: int, days: int, opens: str, closes: str, second: int
) -> None:
    """In the nights before, of and after each change."""
    change = clock.changes(1_767_225_600, 1_830_297_600)[number]
    night = night_on(clock, night_at(clock, change.at).date + timedelta(days=days))
    instant = min(night.starts + second, night.ends - 1)
    spans = window(night.date, clock, opens=opens, closes=closes)
    reads = f"{clock.wall(instant):%H:%M}"
    inside = opens <= reads < closes if opens < closes else not closes <= reads < opens
    assert any(first <= instant < last for first, last in spans) == inside


@given(clocks, st.dates(date(2026, 1, 1), date(2027, 12, 31)), times, times)
def test_spans_are_sorted_apart_and_within_the_night(clock: SiteClock, day: date, opens: str, closes: str) -> None:
    night = night_on(clock, day)
    for spans in (window(day, clock, opens=opens, closes=closes), closure(day, clock, starts=opens, ends=closes)):
        ends = [at for span in spans for at in span]
        assert ends == sorted(set(ends))
        assert all(night.starts <= at <= night.ends for at in ends)


@given(clocks, st.datetimes(datetime(2026, 1, 1), datetime(2027, 12, 31)), st.integers(1, 90_000))
def test_a_closure_of_one_span_is_whole_over_the_nights_it_touches(
    clock: SiteClock, starts: datetime, minutes: int
) -> None:
    """Night by night its parts meet, with nothing open between its first second and its last."""
    first = starts.replace(second=0, microsecond=0)
    last = first + timedelta(minutes=minutes)
    fields = {"starts_on": f"{first:%Y-%m-%dT%H:%M}", "ends_on": f"{last:%Y-%m-%dT%H:%M}"}
    count = (last.date() - first.date()).days
    parts = [closure(first.date() + timedelta(days=days), clock, **fields) for days in range(-1, count + 1)]
    spans = [span for part in parts for span in part]
    assert all(before[1] == after[0] for before, after in zip(spans, spans[1:], strict=False))
