"""The planner that phones load, on its trimmed library, gives the same bytes as this Python."""

from __future__ import annotations

import pytest

from golden.built import differing, every_ask, golden_asks, in_node
from golden.library import listed, loaded
from golden.nights import NIGHTS


def test_this_python_answers_the_golden_sheets() -> None:
    """What all others are held to: a document that has gone through a page's JSON gives the same sheet."""
    fresh = [ask for ask in golden_asks() if ask.before is None]
    for night, ask in zip(NIGHTS, fresh, strict=True):
        kind, sheet, clock = ask.expected().split("\n")
        assert (kind, f"{sheet}\n") == ("planned", night.sheet.read_text("utf-8"))
        assert f'"night":"{night.day}"' in clock


@pytest.mark.journey
def test_the_built_planner_gives_the_same_bytes_under_node() -> None:
    asks = every_ask()
    assert differing(in_node(asks), asks) == []


@pytest.mark.journey
def test_the_trimmed_library_is_what_the_engine_loads() -> None:
    """If it is not: .venv/bin/python tests/golden/library.py"""
    assert listed() == loaded()
