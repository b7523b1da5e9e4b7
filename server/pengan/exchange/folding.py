"""Brings what people type to one form, so that `Débito`, `debito` and `DÉBITO ` are the same name."""

from __future__ import annotations

import re
import unicodedata

_SPACE = re.compile(r"[\W_]+")


def fold(text: str) -> str:
    """The text without accents, case, punctuation and doubled spaces; letters of every script stay."""
    decomposed = unicodedata.normalize("NFKD", text.casefold())
    bare = "".join(mark for mark in decomposed if not unicodedata.combining(mark))
    return _SPACE.sub(" ", bare).strip()
