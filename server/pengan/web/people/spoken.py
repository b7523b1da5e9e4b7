"""How a person wants to be spoken to: a reader out of what their profile keeps."""

from __future__ import annotations

from pengan.words import WordsFault
from pengan.words.choosing import read_units, units_of
from pengan.words.reader import Reader


def reader_for(language: str, units: str, hour_cycle: str | None) -> Reader:
    """Their reader. A unit of theirs that is no longer known falls back to the usual ones of the language."""
    usual = units_of(language)
    try:
        unit_set, choices = read_units(units, usual)
    except WordsFault:
        unit_set, choices = read_units(usual)
    return Reader(language=language, units=unit_set, choices=choices, hour_cycle=hour_cycle)
