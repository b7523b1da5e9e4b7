"""Times as people write them, the instant they mean, and starts that happen once."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pengan.engine.clock.fault import ClockFault
from pengan.engine.clock.nights import night_on
from pengan.engine.clock.sun import Place
from pengan.engine.clock.times import moment_on, read_time, starts_in
from pengan.engine.clock.zones import SiteClock, dated_clock, rule_clock, zone_clock
from pengan.engine.document.tables import Program

LISBON, PLACE = zone_clock("Europe/Lisbon"), Place(38.72, -9.14)
EVERY_DAY = Program(id="p", name="P")
SPRING, AUTUMN = date(2026, 3, 28), date(2026, 10, 24)


def start_in(text: str, day: date, clock: SiteClock = LISBON, rule: Program = EVERY_DAY) -> str | None:
    start = starts_in(text, rule, night_on(clock, day), clock, PLACE)
    return None if start is None else clock.iso(start)


@pytest.mark.parametrize(
    ("text", "iso"),
    [
        ("21:30", "2026-06-01T21:30:00+01:00"),
        ("05:07:09", "2026-06-01T05:07:09+01:00"),
        ("00:00", "2026-06-01T00:00:00+01:00"),
        ("24:00", "2026-06-02T00:00:00+01:00"),
    ],
)
def test_a_time_on_a_date_is_an_instant(text: str, iso: str) -> None:
    moment = moment_on(text, date(2026, 6, 1), LISBON, PLACE)
    assert moment is not None and LISBON.iso(moment) == iso


@pytest.mark.parametrize(
    ("text", "event", "offset_s"),
    [("sunset-00:30", "sunset", -1800), ("sunset+04:00", "sunset", 14_400), ("sunrise+01:15", "sunrise", 4500)],
)
def test_an_offset_is_real_time_from_sunrise_or_sunset(text: str, event: str, offset_s: int) -> None:
    for day in (date(2026, 6, 1), SPRING, AUTUMN):
        moment, sun = (moment_on(time, day, LISBON, PLACE) for time in (text, event))
        assert moment is not None and sun is not None and moment - sun == offset_s


@pytest.mark.parametrize(
    "text",
    [
        "",
        "24:01",
        "25:00",
        "7:30",
        "12:60",
        "12:00:60",
        "noon",
        "sunset +00:30",
        "sunset-1:00",
        "sunset-13:00",
        "２1:30",
    ],
)
def test_what_is_no_time_is_a_fault_that_repeats_it(text: str) -> None:
    with pytest.raises(ClockFault) as raised:
        read_time(text)
    assert (raised.value.message.code, raised.value.message.params["text"]) == ("clock.time_unreadable", text)


def test_the_sun_needs_a_place() -> None:
    with pytest.raises(ClockFault) as raised:
        moment_on("sunset", SPRING, LISBON, None)
    assert raised.value.message.code == "clock.place_missing"


@pytest.mark.parametrize(
    ("text", "day", "iso"),
    [
        ("01:30", SPRING, "2026-03-29T02:30:00+01:00"),
        ("01:30", AUTUMN, "2026-10-25T01:30:00+01:00"),
        ("02:00", SPRING, "2026-03-29T02:00:00+01:00"),
        ("02:00", AUTUMN, "2026-10-25T02:00:00+00:00"),
        ("12:00", SPRING, "2026-03-28T12:00:00+00:00"),
        ("11:59", SPRING, "2026-03-29T11:59:00+01:00"),
    ],
)
def test_a_start_happens_once_in_the_night_of_a_change(text: str, day: date, iso: str) -> None:
    assert start_in(text, day) == iso


def test_a_day_rule_speaks_of_the_date_on_which_the_start_falls() -> None:
    monday = Program(id="p", name="P", days="weekdays", weekdays="mon")
    sunday_night, monday_night = date(2026, 6, 7), date(2026, 6, 8)
    assert start_in("02:00", sunday_night, rule=monday) == "2026-06-08T02:00:00+01:00"
    assert start_in("02:00", monday_night, rule=monday) is None
    assert start_in("22:00", sunday_night, rule=monday) is None
    assert start_in("22:00", monday_night, rule=monday) == "2026-06-08T22:00:00+01:00"
    assert start_in("24:00", sunday_night, rule=monday) == "2026-06-08T00:00:00+01:00"
    assert (start_in("sunset+05:00", sunday_night, rule=monday) or "").startswith("2026-06-08T01:")
    assert start_in("sunset+05:00", monday_night, rule=monday) is None


def test_a_start_that_a_gap_moves_past_midnight_still_belongs_to_its_date() -> None:
    clock = rule_clock("AAA0BBB,M3.5.0/23:30,M10.5.0/1")
    sunday = Program(id="p", name="P", days="weekdays", weekdays="sun")
    assert start_in("23:45", date(2026, 3, 29), clock, sunday) == "2026-03-30T00:45:00+01:00"


def test_a_start_on_a_date_that_was_skipped_joins_the_next() -> None:
    """Pacific/Apia had no 2011-12-30: its start moves by the whole day, onto that of the 31st."""
    apia = zone_clock("Pacific/Apia")
    assert start_in("21:30", date(2011, 12, 30), apia) is None
    assert start_in("21:30", date(2011, 12, 31), apia) == "2011-12-31T21:30:00+14:00"


def test_without_a_sunset_there_is_no_start() -> None:
    oslo, tromso = zone_clock("Europe/Oslo"), Place(69.65, 18.96)
    assert starts_in("sunset", EVERY_DAY, night_on(oslo, date(2026, 6, 21)), oslo, tromso) is None


clock_times = st.tuples(st.integers(0, 23), st.integers(0, 59)).map(lambda time: f"{time[0]:02d}:{time[1]:02d}")
clocks = st.sampled_from(
    [
        LISBON,
        zone_clock("Africa/Cairo"),
        zone_clock("Australia/Lord_Howe"),
        zone_clock("America/Havana"),
        dated_clock("+00:00, 2026-05-10T11:30Z +01:00, 2026-09-10T11:30Z +00:00"),
    ]
)


@given(clocks, clock_times, st.dates(date(2026, 1, 1), date(2027, 12, 31)))
def test_every_date_has_its_start_in_exactly_one_night(clock: SiteClock, text: str, day: date) -> None:
    rule = Program(id="p", name="P", days="dates", dates=day.isoformat())
    nights = [night_on(clock, day + timedelta(days=days)) for days in range(-3, 4)]
    found = [start for night in nights if (start := starts_in(text, rule, night, clock, PLACE)) is not None]
    assert found == [moment_on(text, day, clock, PLACE)]
