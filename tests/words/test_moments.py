"""Times of day and dates, as languages have them."""

from __future__ import annotations

from datetime import date, time

import pytest

from pengan.words import Reader, WordsFault, write_clock, write_date, write_time
from pengan.words.moments import read_date, write_offset

LATE = time(23, 42)


@pytest.mark.parametrize(
    ("reader", "written"),
    [
        (Reader("en"), "11:42 PM"),
        (Reader("en-GB"), "23:42"),
        (Reader("es"), "23:42"),
        (Reader("en", hour_cycle="24"), "23:42"),
        (Reader("es", hour_cycle="12"), "11:42 p. m."),
    ],
)
def test_a_time_follows_the_language_or_the_readers_choice(reader: Reader, written: str) -> None:
    assert " ".join(write_time(LATE, reader).split()) == written


@pytest.mark.parametrize("reader", [Reader("es"), Reader("en-GB"), Reader("en", hour_cycle="24")])
def test_a_24_hour_clock_has_two_digits(reader: Reader) -> None:
    assert write_time(time(1, 17), reader) == "01:17"


def test_seconds_show_only_where_there_are_some() -> None:
    assert write_time(time(1, 17, 5), Reader("en-GB")) == "01:17:05"
    assert write_time(time(1, 17), Reader("en-GB")) == "01:17"


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("21:30", "21:30"),
        ("24:00", "00:00"),
        ("sunset", "sunset"),
        ("sunset-00:30", "30 min before sunset"),
        ("sunrise+01:15", "1 h 15 min after sunrise"),
    ],
)
def test_a_clock_field_is_written_for_people(text: str, written: str) -> None:
    assert write_clock(text, Reader("en-GB")) == written


def test_dates_are_those_of_the_language() -> None:
    assert write_date("2026-11-25", Reader("es"), "long") == "25 de noviembre de 2026"
    assert write_date(date(2026, 11, 25), Reader("en-GB"), "weekday") == "Wed 25 Nov"
    assert write_date(date(2026, 11, 25), Reader("es"), "month") == "noviembre de 2026"


def test_a_date_that_does_not_exist_is_a_coded_fault() -> None:
    with pytest.raises(WordsFault) as fault:
        read_date("2026-02-30")
    assert fault.value.message.code == "words.not_a_date"


def test_an_offset_is_written_as_rfc_3339_has_it() -> None:
    assert [write_offset(seconds) for seconds in (0, 3600, -12_600, 20_700)] == ["+00:00", "+01:00", "-03:30", "+05:45"]
