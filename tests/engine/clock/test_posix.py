"""POSIX TZ strings: RFC 9636 section 3.3.1, the examples of POSIX.1-2024, faults, and there and back again."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from io import BytesIO
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pengan.engine.clock.fault import ClockFault
from pengan.engine.clock.posix import read_posix, write_posix
from pengan.engine.clock.rules import Rule, Summer, YearDay
from pengan.engine.clock.tzif import read_tzif
from pengan.engine.clock.zones import rule_clock, zone_clock, zone_names

names = st.from_regex(r"[A-Za-z]{3,6}|[+-][0-9]{2}|[+-][0-9]{4}", fullmatch=True)
offsets = st.integers(-24 * 3600, 24 * 3600)
times = st.integers(-167 * 3600, 167 * 3600)
year_days = st.one_of(
    st.builds(YearDay, st.just("M"), times, st.integers(1, 12), st.integers(1, 5), st.integers(0, 6)),
    st.builds(YearDay, st.just("J"), times, day=st.integers(1, 365)),
    st.builds(YearDay, st.just("N"), times, day=st.integers(0, 365)),
)
rules = st.builds(Rule, names, offsets, st.none() | st.builds(Summer, names, offsets, year_days, year_days))


def at(text: str) -> int:
    return int(datetime.fromisoformat(text).timestamp())


@given(rules)
def test_a_rule_reads_back_as_it_was_written(rule: Rule) -> None:
    assert read_posix(write_posix(rule)) == rule


def test_the_footer_of_every_zone_is_written_as_it_stands_there() -> None:
    """Source: the package tzdata, whose files end with the rule as zic wrote it."""
    footers = {write_posix(rule) for name in zone_names() if (rule := zone_clock(name).timeline.rule) is not None}
    assert {
        "IST-1GMT0,M10.5.0,M3.5.0/1",
        "<+1030>-10:30<+11>-11,M10.1.0,M4.1.0",
        "<-02>2<-01>,M3.5.0/-1,M10.5.0/0",
    } <= footers
    assert all(write_posix(read_posix(text)) == text for text in footers)


@pytest.mark.parametrize(
    ("rule", "changes"),
    [
        # Three hours behind UTC; changes at 22:00 and 23:00 on the eve of a last Sunday.
        ("<-03>3<-02>,M3.5.0/-2,M10.5.0/-1", ["2024-03-30T22:00-03:00", "2024-10-26T23:00-02:00"]),
        # 02:00 on the Friday after the fourth Thursday of March.
        ("IST-2IDT,M3.4.4/26,M10.5.0", ["2024-03-29T02:00+02:00", "2024-10-27T02:00+03:00"]),
        # Summer time all year.
        ("EST5EDT,0/0,J365/25", []),
    ],
)
def test_the_examples_of_rfc_9636_change_when_it_says(rule: str, changes: list[str]) -> None:
    """Source: RFC 9636 section 3.3.1 and appendix B as public code and POSIX.1-2024 quote them."""
    clock = rule_clock(rule)
    found = clock.changes(at("2024-01-01T00:00+00:00"), at("2025-01-01T00:00+00:00"))
    assert [change.at for change in found] == [at(text) for text in changes]


def test_summer_time_all_year_is_one_offset_even_at_the_turn_of_the_year() -> None:
    """Source: POSIX.1-2024, chapter 8.3: `EST5EDT,0/0,J365/25` is 4 hours west of UTC all year."""
    clock = rule_clock("EST5EDT,0/0,J365/25")
    turn = at("2025-01-01T00:00-05:00")
    assert {clock.offset(turn + seconds) for seconds in range(-7200, 7201, 1800)} == {-4 * 3600}


@pytest.mark.parametrize(("time", "wall"), [("47:30", "2024-05-02T23:30"), ("-3:30", "2024-04-30T20:30")])
def test_a_time_may_run_over_the_days_before_and_after(time: str, wall: str) -> None:
    """Source: POSIX.1-2024, chapter 8.3: 47:30 is 23:30 the next day, -3:30 is 20:30 the day before."""
    clock = rule_clock(f"AAA0BBB,J121/{time},J200")
    assert clock.changes(at("2024-01-01T00:00+00:00"), at("2024-06-01T00:00+00:00"))[0].at == at(f"{wall}+00:00")


def test_j_days_never_count_february_29_and_n_days_do() -> None:
    """Source: POSIX.1-2024, chapter 8.3: J60 is always March 1; day 59 counted from 0 is February 29 in a leap year."""
    j_day, n_day = YearDay("J", 0, day=60), YearDay("N", 0, day=59)
    found = [
        datetime.fromordinal(day.ordinal(year)).strftime("%m-%d") for day in (j_day, n_day) for year in (2024, 2025)
    ]
    assert found == ["03-01", "03-01", "02-29", "03-01"]


def test_the_third_example_file_of_rfc_9636_is_read() -> None:
    """Source: RFC 9636 appendix B.3: Asia/Jerusalem cut off before 2038, with an IST of +2 and the rule behind it."""
    header = b"TZif3" + bytes(15)
    first = header + bytes.fromhex("00000000 00000000 00000000 00000000 00000001 00000004") + b"\0\0\x1c\x20\0\0IST\0"
    counts = bytes.fromhex("00000001 00000001 00000000 00000001 00000001 00000004")
    data = bytes.fromhex("000000007fe81780 00 00001c200000") + b"IST\0\1\1"
    file = first + header + counts + data + b"\nIST-2IDT,M3.4.4/26,M10.5.0\n"
    timeline, outside = read_tzif(file), ZoneInfo.from_file(BytesIO(file))
    assert timeline.changes(at("2038-01-01T00:00+00:00"), at("2039-01-01T00:00+00:00")) == (
        (at("2038-03-26T02:00+02:00"), 7200, 10800),
        (at("2038-10-31T02:00+03:00"), 10800, 7200),
    )
    for change in timeline.changes(at("2038-01-01T00:00+00:00"), at("2060-01-01T00:00+00:00")):
        offset = datetime.fromtimestamp(change.at, UTC).astimezone(outside).utcoffset()
        assert offset is not None and offset.total_seconds() == change.after_s


@pytest.mark.parametrize("file", [b"TZif" + bytes(40), b"GIF89a2" + bytes(40)])
def test_a_file_that_is_no_tzif_of_version_2_is_refused(file: bytes) -> None:
    with pytest.raises(ValueError, match="version 2"):
        read_tzif(file)


@pytest.mark.parametrize(
    ("text", "rest"),
    [
        ("", None),
        ("CET", None),
        ("CET-1CEST", None),
        ("CET-1CEST,M3.5.0", None),
        ("CET-1CEST,M3.5.0,M10.5.0/", None),
        ("C-1", "C-1"),
        ("CET-25", "-25"),
        ("CET-1:60", ":60"),
        ("CET-1CEST,M13.5.0,M10.5.0", "M13.5.0,M10.5.0"),
        ("CET-1CEST,M3.6.0,M10.5.0", "M3.6.0,M10.5.0"),
        ("CET-1CEST,M3.5.7,M10.5.0", "M3.5.7,M10.5.0"),
        ("CET-1CEST,J0,J10", "J0,J10"),
        ("CET-1CEST,J366,J10", "J366,J10"),
        ("CET-1CEST,366,10", "366,10"),
        ("CET-1CEST,M3.5.0/168,M10.5.0", "168,M10.5.0"),
        ("CET-1CEST,M3.5.0,M10.5.0 ", " "),
        ("Europe/Lisbon", "/Lisbon"),
        ("CET-１CEST,M3.5.0,M10.5.0", "-１CEST,M3.5.0,M10.5.0"),
    ],
)
def test_a_rule_that_cannot_be_read_says_from_where_on(text: str, rest: str | None) -> None:
    with pytest.raises(ClockFault) as raised:
        read_posix(text)
    message = raised.value.message
    assert message.code == ("clock.rule_ends_early" if rest is None else "clock.rule_unreadable")
    assert (message.params.get("rest"), message.params["rule"], raised.value.field) == (rest, text, "zone_rule")


@given(st.text(max_size=40))
def test_any_text_is_read_or_is_a_fault(text: str) -> None:
    try:
        rule = read_posix(text)
    except ClockFault:
        return
    assert read_posix(write_posix(rule)) == rule


def test_rules_are_followed_as_zoneinfo_follows_them(outside_zone: Callable[[str], ZoneInfo]) -> None:
    """A rule that is an IANA zone's footer, read as a rule of one's own, is that zone from 2037 on to 2100."""
    for name in ("Europe/Dublin", "Australia/Lord_Howe", "Asia/Gaza", "Antarctica/Troll", "America/Santiago"):
        rule = zone_clock(name).timeline.rule
        assert rule is not None
        clock = rule_clock(write_posix(rule))
        start = max(at("2038-01-01T00:00+00:00"), zone_clock(name).timeline.rule_at)
        for change in clock.changes(start, at("2100-01-01T00:00+00:00")):
            for instant, offset_s in ((change.at - 1, change.before_s), (change.at, change.after_s)):
                offset = datetime.fromtimestamp(instant, UTC).astimezone(outside_zone(name)).utcoffset()
                assert offset is not None and offset.total_seconds() == offset_s
