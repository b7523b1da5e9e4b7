"""Rows in columns for a terminal, as wide as what stands in them, whatever the script."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence

GAP = "  "


def width(text: str) -> int:
    """How many cells a terminal gives a text: marks and controls none, full-width signs two."""
    return sum(_cells(letter) for letter in text)


def _cells(letter: str) -> int:
    if unicodedata.category(letter) in {"Mn", "Me", "Cf"}:
        return 0
    return 2 if unicodedata.east_asian_width(letter) in {"W", "F"} else 1


def in_columns(rows: Iterable[Sequence[str]], right: frozenset[int] = frozenset()) -> list[str]:
    """One line a row. `right` names the columns, from 0, that stand flush at their end, as figures do."""
    kept = [tuple(row) for row in rows]
    widths = [
        max((width(row[column]) for row in kept if column < len(row)), default=0) for column in range(_most(kept))
    ]
    return [GAP.join(_cell(text, widths[at], at in right) for at, text in enumerate(row)).rstrip() for row in kept]


def _most(rows: Sequence[Sequence[str]]) -> int:
    return max((len(row) for row in rows), default=0)


def _cell(text: str, wide: int, right: bool) -> str:
    blank = " " * (wide - width(text))
    return blank + text if right else text + blank
