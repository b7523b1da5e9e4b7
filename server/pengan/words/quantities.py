"""Amounts as people write and read them: base units on one side, the reader's units on the other."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

from .faults import UNKNOWN_UNIT, WordsFault
from .figures import read_figure, write_figure
from .reader import Reader
from .units import QUANTITIES, Quantity, Unit, preferred_unit, unit_for
from .wordings import folded, wordings

_FIGURE_THEN_UNIT = re.compile(r"([+\-−–\d.,٫٬'’\s\u00a0\u2009\u202f]*)(.*)", re.DOTALL)
_GALLONS = frozenset({"gpm", "gal"})


def write(quantity: str, base: float, reader: Reader, *, unit: str | None = None) -> str:
    """An amount in base units, as this reader reads it: `write("flow", 240, reader)` → `240 L/min`."""
    measured = QUANTITIES[quantity]
    chosen = measured.units[unit] if unit else unit_for(measured, base, reader)
    return reader.gettext(chosen.written, figure=write_figure(figure_in(chosen, base), chosen.places, reader))


def figure_in(unit: Unit, base: float) -> Fraction:
    """An amount in base units as a figure in this unit, exactly."""
    return (Fraction(str(base)) - unit.offset) / unit.factor


def symbol(unit: Unit, reader: Reader) -> str:
    """The unit alone, for a column's head: `L/min`."""
    return reader.gettext(unit.written, figure="").strip()


def read(text: str, quantity: str, reader: Reader, *, unit: str | None = None) -> float:
    """What somebody typed, in base units. A bare figure is in `unit`, or in the reader's own.

    Raises `WordsFault` naming what cannot be read.
    """
    measured = QUANTITIES[quantity]
    match = _FIGURE_THEN_UNIT.fullmatch(text.strip())
    figure, named = match.groups() if match else (text, "")
    bare = measured.units[unit] if unit else preferred_unit(measured, reader)
    chosen = _named(measured, named, reader, text) if named.strip() else bare
    return float(read_figure(figure, reader) * chosen.factor + chosen.offset)


def _named(quantity: Quantity, named: str, reader: Reader, text: str) -> Unit:
    found = unit_named(quantity, named, reader)
    if found is None:
        known = ", ".join(symbol(unit, reader) for unit in quantity.units.values())
        raise WordsFault(UNKNOWN_UNIT(text=text.strip(), units=known))
    return found


def unit_named(quantity: Quantity, named: str, reader: Reader) -> Unit | None:
    """The unit a word means, in any shipped language. Plain gallons are imperial to an imperial reader."""
    key = spelled_units(quantity.key).get(folded(named))
    if key in _GALLONS and reader.units == "imperial" and "us" not in folded(named):
        key = f"i{key}"
    return quantity.units[key] if key else None


@cache
def spelled_units(quantity: str) -> dict[str, str]:
    """The keys of a quantity's units by how people write them, folded."""
    spelled: dict[str, str] = {}
    for unit in QUANTITIES[quantity].units.values():
        for spelling in (*wordings(unit.written), *wordings(unit.spellings)):
            spelled.setdefault(folded(spelling.replace("{figure}", "")), unit.key)
    return spelled
