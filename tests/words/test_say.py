"""What the engine says, in a reader's words."""

from __future__ import annotations

from datetime import datetime

import pytest

from pengan.engine.message import Message, saying, saying_plural
from pengan.words import Reader, say
from pengan.words.names import NoNames
from pengan.words.say import UnknownSaying

ALL = saying(
    "test.all", "{station}: {limit_lpm}, {volume_l}, {run_s}, {start_at}, {opens_clock}, {night_date}, {share_pct}"
)
COUNTED = saying_plural(
    "test.counted", "{run_count} run at {supply}", "{run_count} runs at {supply}", count="run_count"
)
BARE = saying("test.bare", "{text} {figure} {nothing}")


class _Names(NoNames):
    def name(self, kind: str, record: str) -> str:
        return {"station": "N14 Palm walk", "supply": "مصدر"}.get(kind, record)

    def local(self, instant: int) -> tuple[datetime, str]:
        return datetime(2026, 10, 25, 1, 17), "²"


def test_each_parameter_is_read_by_the_end_of_its_name() -> None:
    message = ALL(
        station="n14", limit_lpm=240, volume_l=4500, run_s=4800, start_at=0, opens_clock="21:30",
        night_date="2026-11-25", share_pct=12.5,
    )  # fmt: skip
    assert say(message, Reader("en-GB"), _Names()) == (
        "N14 Palm walk: 240 L/min, 4.5 m³, 1 h 20 min, 01:17², 21:30, 25 Nov 2026, 12.5 %"
    )


def test_a_count_chooses_the_plural_form() -> None:
    assert say(COUNTED(run_count=1, supply="w"), Reader(), NoNames()) == "1 run at w"
    assert say(COUNTED(run_count=1200, supply="w"), Reader(), NoNames()) == "1,200 runs at w"


def test_a_name_that_runs_the_other_way_is_isolated() -> None:
    assert say(COUNTED(run_count=1, supply="w"), Reader(), _Names()) == "1 run at \u2068مصدر\u2069"


def test_other_parameters_stand_as_they_are() -> None:
    assert say(BARE(text="x_l", figure=1.5, nothing=None), Reader()) == "x_l 1.5 —"


def test_a_message_of_another_version_is_told_apart() -> None:
    with pytest.raises(UnknownSaying):
        say(Message("test.never_declared", {}), Reader())
