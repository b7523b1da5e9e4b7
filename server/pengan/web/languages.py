"""How a request is answered: as `?language=` says, then as the person who is signed in wants it, then the browser.

At last English. A signed-in person's units and clock are their own in whatever language.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import cast

from flask import Request, g

from pengan.words import languages
from pengan.words.choosing import units_of
from pengan.words.reader import Reader


def reader_of(request: Request) -> Reader:
    """The reader behind a request: the person who is signed in, or a stranger with their language's usual units."""
    own = cast("Reader | None", g.get("own_reader"))
    if own is not None:
        asked = languages.match(request.args.get("language", ""))
        return replace(own, language=asked) if asked else own
    found = (tag for wish in _wishes(request) if (tag := languages.match(wish)) is not None)
    language = next(found, languages.SOURCE)
    return Reader(language=language, units=units_of(language))


def _wishes(request: Request) -> Iterator[str]:
    asked = request.args.get("language")
    if asked:
        yield asked
    yield from request.accept_languages.values()
