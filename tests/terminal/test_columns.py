"""Columns stay straight whatever the script."""

from __future__ import annotations

from pengan.terminal.columns import in_columns, width


def test_columns_are_as_wide_as_what_stands_in_them() -> None:
    assert in_columns([("a", "12"), ("bcd", "3")], right=frozenset({1})) == ["a    12", "bcd   3"]


def test_marks_take_no_room_and_wide_letters_two() -> None:
    assert [width(text) for text in ("e\u0301", "水", "\u2068a\u2069", "")] == [1, 2, 1, 0]
    assert in_columns([("水", "x"), ("ab", "y"), ("e\u0301", "z")]) == ["水  x", "ab  y", "e\u0301   z"]


def test_rows_may_be_shorter_than_others() -> None:
    assert in_columns([("a",), ("b", "c")]) == ["a", "b  c"]


def test_no_rows_are_no_lines() -> None:
    assert in_columns([]) == []
