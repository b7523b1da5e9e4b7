"""Reads figures with their units into base units."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from pengan.engine.message import Message
from pengan.words.faults import WordsFault
from pengan.words.figures import read_figure
from pengan.words.reader import Reader
from pengan.words.units import Unit

from .. import sayings
from ..grid import Cell
from ..headings import Column, example_of
from ..measures import base_unit, must_be_named, named_unit
from ..report import CellFault
from .plain import shown

_FIGURE_THEN_UNIT = re.compile(r"([+\-−–]?[\d.,٫٬'’\s\u00a0\u2009\u202f]*)(.*)", re.DOTALL)
_LONE_GROUP = re.compile(r"\d{1,3}[.,]\d{3}")
_ROUNDED_UNITS = ("s", "ma")
_DIGITS = 9


@dataclass(frozen=True, slots=True)
class Desk:
    """What reading a cell needs besides the cell: its column, its table, the book's reader, where notices go."""

    table: str
    column: Column
    reader: Reader
    note: Callable[[Message], None]


def read_amount(cell: Cell, desk: Desk) -> int | float:
    """The amount in the field's base unit: a whole number where the field wants one. Raises `CellFault`."""
    figure, unit = _figure_and_unit(cell, desk)
    if unit is None and must_be_named(desk.column.kind):
        raise CellFault(sayings.NO_UNIT(example=example_of(desk.table, desk.column.field, desk.reader)["example"]))
    unit = unit or base_unit(desk.column.kind)
    if unit is None or unit is base_unit(desk.column.kind):
        return _as_kind(figure, cell, desk)
    return _as_kind(figure * unit.factor + unit.offset, cell, desk, converted=True)


def _as_kind(base: Fraction, cell: Cell, desk: Desk, *, converted: bool = False) -> int | float:
    if desk.column.kind.name == "whole":
        if desk.column.kind.unit in _ROUNDED_UNITS:
            return round(base)
        if base.denominator != 1:
            raise CellFault(sayings.NOT_WHOLE(typed=shown(cell)))
        return int(base)
    return rounded(base) if converted else float(base)


def rounded(base: Fraction) -> float:
    """The amount to nine digits: finer than any meter, and what a conversion there and back leaves alone."""
    return float(f"{float(base):.{_DIGITS}g}")


def _figure_and_unit(cell: Cell, desk: Desk) -> tuple[Fraction, Unit | None]:
    value = cell.value
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise CellFault(sayings.NOT_A_NUMBER(typed=shown(cell)))
    if isinstance(value, str):
        return _typed(value, desk)
    if not math.isfinite(value) or abs(value) > 1e15:
        raise CellFault(sayings.NOT_A_NUMBER(typed=shown(cell)))
    if cell.percent:
        if desk.column.kind.unit != "pct":
            raise CellFault(sayings.NOT_A_NUMBER(typed=f"{value * 100:g} %"))
        return Fraction(str(value)) * 100, None
    return Fraction(str(value)), desk.column.unit


def _typed(text: str, desk: Desk) -> tuple[Fraction, Unit | None]:
    """A figure as text, with or without a unit of its own, which goes before the heading's."""
    match = _FIGURE_THEN_UNIT.fullmatch(text.strip())
    figure, named = match.groups() if match else (text, "")
    unit = desk.column.unit
    if named.strip() and figure.strip():
        unit = named_unit(desk.column.kind, named, desk.reader)
        if unit is None:
            field = example_of(desk.table, desk.column.field, desk.reader)["field"]
            raise CellFault(sayings.UNKNOWN_UNIT(unit=named.strip()[:30], typed=text.strip()[:60], field=field))
    return _figure(figure if figure.strip() else text, desk), unit


def _figure(text: str, desk: Desk) -> Fraction:
    try:
        figure = read_figure(text[:40], desk.reader)
    except WordsFault:
        raise CellFault(sayings.NOT_A_NUMBER(typed=text.strip()[:60])) from None
    if _LONE_GROUP.fullmatch(text.strip()) and figure >= 1000:
        desk.note(sayings.THOUSANDS(typed=text.strip(), number=str(int(figure))))
    return figure
