"""Which language a request is answered in: `?language=` first, then what the browser asks for, at last English."""

from __future__ import annotations

from collections.abc import Iterator

from flask import Request

from pengan.words import languages
from pengan.words.choosing import units_of
from pengan.words.reader import Reader


def reader_of(request: Request) -> Reader:
    """The reader behind a request, with their language's usual units."""
    found = (tag for wish in _wishes(request) if (tag := languages.match(wish)) is not None)
    language = next(found, languages.SOURCE)
    return Reader(language=language, units=units_of(language))


def _wishes(request: Request) -> Iterator[str]:
    asked = request.args.get("language")
    if asked:
        yield asked
    yield from request.accept_languages.values()
