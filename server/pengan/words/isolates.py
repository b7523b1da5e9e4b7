"""Keeps typed names and figures whole in sentences that run the other way (Unicode UAX #9, isolates)."""

from __future__ import annotations

import unicodedata

from .reader import Reader

FIRST_STRONG, POP = "\u2068", "\u2069"


def isolate(text: str, reader: Reader) -> str:
    """The text between FSI and PDI where a direction could clash; as it is where all runs left to right.

    Terminals and spreadsheets show stray isolates as boxes, so they are only put where they do something.
    """
    if reader.direction == "ltr" and not runs_right_to_left(text):
        return text
    return f"{FIRST_STRONG}{text}{POP}"


def runs_right_to_left(text: str) -> bool:
    """Whether any letter of the text is of a right-to-left script."""
    return any(unicodedata.bidirectional(letter) in {"R", "AL", "AN"} for letter in text)
