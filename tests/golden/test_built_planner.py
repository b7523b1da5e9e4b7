"""The planner that phones load, on its trimmed library, gives the same bytes as this Python."""

from __future__ import annotations

import json
from math import isclose
from typing import Any

import pytest

from golden.built import differing, every_ask, golden_asks, in_node, questions
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
def test_the_built_planner_knows_what_this_python_knows_under_node() -> None:
    """Figures that go through another C library's exp and pow may differ in their last digit."""
    asked = questions()
    for question, told in zip(asked, in_node(asked), strict=True):
        (kind, found), (wanted_kind, wanted) = (text.split("\n") for text in (told, question.expected()))
        assert kind == wanted_kind
        assert near(json.loads(found), json.loads(wanted)), (question.about, question.given)


def near(one: Any, other: Any) -> bool:
    """The same, floats to nine digits."""
    if isinstance(one, dict):
        return isinstance(other, dict) and one.keys() == other.keys() and all(near(one[key], other[key]) for key in one)
    if isinstance(one, list):
        return isinstance(other, list) and len(one) == len(other) and all(map(near, one, other))
    if isinstance(one, float) or isinstance(other, float):
        return isinstance(one, float | int) and isinstance(other, float | int) and isclose(one, other, rel_tol=1e-9)
    return bool(one == other)


@pytest.mark.journey
def test_the_trimmed_library_is_what_the_engine_loads() -> None:
    """If it is not: .venv/bin/python tests/golden/library.py"""
    assert listed() == loaded()
