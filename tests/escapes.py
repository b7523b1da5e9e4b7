"""Finds text that escaped translation, in output made in the made-up language `en-XA`.

There every translated letter carries an accent, so a plain Latin word that nobody typed was never translated.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from babel import Locale

PLAIN_WORD = re.compile(r"(?<![\w-])[A-Za-z]{3,}(?![\w-])")


def words_of(text: str) -> list[str]:
    """The Latin words in a text."""
    return re.findall(r"[A-Za-z]+", text)


def escaped(output: str, known: Iterable[str]) -> Iterator[str]:
    """The plain words nobody typed: none of `known` texts, nor of CLDR's calendar."""
    allowed = {word for text in known for word in words_of(text)} | _cldr_words()
    return (word for word in PLAIN_WORD.findall(output) if word not in allowed)


def _cldr_words() -> set[str]:
    """Made-up languages borrow CLDR's months, days, halves of the day and the word that ends a list."""
    locale = Locale("en")
    names = [locale.months, locale.days]
    found = {name for table in names for width in table["format"].values() for name in width.values()}
    return {word for name in found for word in words_of(name)} | {"AM", "PM", "and"}
