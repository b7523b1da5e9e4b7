"""Lengths of time, written and read."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pengan.words import Reader, WordsFault, read_duration, write_duration


@pytest.mark.parametrize(
    ("typed", "seconds"),
    [
        ("1 h 20", 4800),
        ("1h20m", 4800),
        ("1 h 20 min", 4800),
        ("0:48", 2880),
        ("1:20:30", 4830),
        ("48", 2880),
        ("48 min", 2880),
        ("1.5 h", 5400),
        ("1,5 h", 5400),
        ("90 s", 90),
        ("20 min 30", 1230),
        ("2 hours", 7200),
        ("0.5", 30),
    ],
)
def test_people_can_write_a_run_time_their_own_way(typed: str, seconds: int) -> None:
    assert read_duration(typed, Reader()) == seconds


@pytest.mark.parametrize(
    "typed", ["", "h", "1:75", "20 min 1 h", "1 h 20 fortnights", "-5", "0.001 s", "1 s 5", "9999999 h"]
)
def test_what_is_no_length_of_time_is_a_coded_fault(typed: str) -> None:
    with pytest.raises(WordsFault) as fault:
        read_duration(typed, Reader())
    assert fault.value.message.code == "words.not_a_duration"


@pytest.mark.parametrize("tag", ["en", "es", "ar-EG", "de"])
@given(st.integers(min_value=0, max_value=48 * 3600))
def test_a_duration_is_read_back_to_the_second(tag: str, seconds: int) -> None:
    reader = Reader(tag)
    assert read_duration(write_duration(seconds, reader), reader) == seconds
