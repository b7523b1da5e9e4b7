"""Which units a column's figures can be in: the units layer's, and spans of time, shares and angles besides."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from pengan.engine.document.fields import Kind
from pengan.words.quantities import symbol, unit_named
from pengan.words.reader import N_, Reader
from pengan.words.units import BASE_SUFFIXES, QUANTITIES, Unit, preferred_unit
from pengan.words.wordings import folded, wordings

SECONDS = Unit("s", N_("{figure} s"), Fraction(1), 0, N_("s, sec, secs, second, seconds"))
MINUTES = Unit("min", N_("{figure} min"), Fraction(60), 2, N_("min, m, mins, minute, minutes"))
HOURS = Unit("h", N_("{figure} h"), Fraction(3600), 3, N_("h, hr, hrs, hour, hours"))
HOURS_MINUTES = Unit("h:mm", "{figure}", Fraction(3600), 0, N_("h:mm, hh:mm, h:min, hours:minutes"))
MINUTES_SECONDS = Unit("mm:ss", "{figure}", Fraction(60), 0, N_("mm:ss, m:ss, min:s, min:sec, minutes:seconds"))
HOURS_MINUTES_SECONDS = Unit("h:mm:ss", "{figure}", Fraction(3600), 0, N_("h:mm:ss, hh:mm:ss, hours:minutes:seconds"))
PERCENT = Unit("pct", N_("{figure} %"), Fraction(1), 1, N_("%, pct, percent, per cent"))
DEGREES = Unit("deg", N_("{figure}°"), Fraction(1), 6, N_("°, deg, degrees, decimal degrees"))

SPANS = (SECONDS, MINUTES, HOURS, HOURS_MINUTES, MINUTES_SECONDS, HOURS_MINUTES_SECONDS)
_OWN = {"s": SPANS, "pct": (PERCENT,), "deg": (DEGREES,)}
_PREFERRED = {"s": MINUTES, "pct": PERCENT, "deg": DEGREES}
_SHORT_SPANS = ("lead_s", "valve_gap_s")


def named_unit(kind: Kind, text: str, reader: Reader) -> Unit | None:
    """The unit that a word means for a column of this kind; None if it means none."""
    if kind.unit in _OWN:
        return _own_units(kind.unit).get(folded(text))
    quantity = BASE_SUFFIXES.get(kind.unit or "")
    return unit_named(QUANTITIES[quantity], text, reader) if quantity else None


@cache
def _own_units(base: str) -> dict[str, Unit]:
    found: dict[str, Unit] = {}
    for unit in _OWN[base]:
        for spelling in (unit.key, *wordings(unit.spellings)):
            found.setdefault(folded(spelling), unit)
    return found


def base_unit(kind: Kind) -> Unit | None:
    """The unit that the document stores this kind in."""
    if kind.unit in _OWN:
        return _own_units(kind.unit)[kind.unit]
    quantity = BASE_SUFFIXES.get(kind.unit or "")
    return QUANTITIES[quantity].base if quantity else None


def must_be_named(kind: Kind) -> bool:
    """Whether a bare figure could be in several units. A share or an angle is always in one."""
    return base_unit(kind) is not None and kind.unit not in ("pct", "deg")


def column_unit(kind: Kind, field: str, reader: Reader) -> Unit | None:
    """The unit this reader's columns of a field are written in."""
    if field in _SHORT_SPANS:
        return SECONDS if field == "valve_gap_s" else MINUTES
    if kind.unit in _OWN:
        return _PREFERRED[kind.unit]
    quantity = BASE_SUFFIXES.get(kind.unit or "")
    return preferred_unit(QUANTITIES[quantity], reader) if quantity else None


def heading(title: str, unit: Unit | None, reader: Reader) -> str:
    """A column's heading with its unit: `Flow (L/min)`."""
    if unit is None:
        return title
    shown = unit.key if unit.written == "{figure}" else symbol(unit, reader)
    return f"{title} ({shown})"
