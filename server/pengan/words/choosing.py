"""Finds out who reads: what somebody asked for, and where they did not, what their environment says."""

from __future__ import annotations

import os
from collections.abc import Mapping
from types import MappingProxyType

from . import languages
from .faults import UNKNOWN_CHOICE, WordsFault
from .reader import HOUR_CYCLES, UNIT_SETS, Reader
from .units import QUANTITIES

LANGUAGE_NAMES = ("PENGAN_LANGUAGE", "LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG")


def reader_for(
    language: str | None = None,
    units: str | None = None,
    hour_cycle: str | None = None,
    environ: Mapping[str, str] = os.environ,
) -> Reader:
    """The reader somebody asked for; where they did not, `PENGAN_LANGUAGE` … `LANG` and the region decide.

    A language that is not shipped falls back to the next wish, at last to English. Raises `WordsFault` for
    an unknown unit set, unit or hour cycle.
    """
    wishes = (language, *(environ.get(name) for name in LANGUAGE_NAMES))
    tag = next((found for wish in wishes if wish and (found := languages.match(wish.split(":")[0]))), languages.SOURCE)
    unit_set, choices = read_units(units or environ.get("PENGAN_UNITS") or units_of(tag), units_of(tag))
    return Reader(tag, unit_set, choices, read_hours(hour_cycle or environ.get("PENGAN_HOURS") or None))


def units_of(tag: str) -> str:
    """The unit set of a language's own region: US customary in the United States, else metric."""
    return "us" if languages.likely_territory(tag) == "US" else "metric"


def read_units(text: str, usual: str = "metric") -> tuple[str, Mapping[str, str]]:
    """A unit set and single units over it out of `us`, `metric,flow=lps` or `flow=m3h`. Raises `WordsFault`."""
    unit_set, choices = usual, {}
    for part in filter(None, (part.strip() for part in text.split(","))):
        quantity, equals, unit = part.partition("=")
        if equals:
            choices[quantity] = _known_unit(quantity, unit, part)
        else:
            unit_set = _one_of(UNIT_SETS, part)
    return unit_set, MappingProxyType(choices)


def read_hours(text: str | None) -> str | None:
    """`12`, `24` or nothing. Raises `WordsFault`."""
    return None if text is None else _one_of(HOUR_CYCLES, text)


def _known_unit(quantity: str, unit: str, part: str) -> str:
    if quantity not in QUANTITIES or unit not in QUANTITIES[quantity].units:
        known = QUANTITIES[quantity].units if quantity in QUANTITIES else QUANTITIES
        raise WordsFault(UNKNOWN_CHOICE(text=part, choices=", ".join(known)))
    return unit


def _one_of(known: tuple[str, ...], text: str) -> str:
    if text not in known:
        raise WordsFault(UNKNOWN_CHOICE(text=text, choices=", ".join(known)))
    return text
