"""Lists of ways to write one thing, in every shipped language: what people type is read in any of them."""

from __future__ import annotations

import unicodedata
from functools import cache

from . import languages
from .loading import catalogue


@cache
def wordings(listed: str) -> tuple[str, ...]:
    """Every spelling of a translatable list with commas, English first, in all shipped languages, once each."""
    found = {
        folded(word): word.strip()
        for language in languages.shipped()
        for word in catalogue(language).gettext(listed).split(",")
    }
    return tuple(found.values())


def folded(text: str) -> str:
    """Text as it is compared: no case, no accents, no spaces or dots, ³ as 3."""
    plain = unicodedata.normalize("NFKD", text.casefold())
    return "".join(letter for letter in plain if not unicodedata.combining(letter) and letter not in " .\u00a0\u202f·")
