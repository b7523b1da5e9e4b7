"""What the server itself says in the journal: kept as a message, and put into words for whoever reads.

The text beside it is in the source's language. It is searched, as the sentences are in the searcher's own language; and
it stands where a message was made by another version.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from functools import cache
from string import Formatter

from pengan.engine.clock.zones import SiteClock
from pengan.engine.document.document import Document
from pengan.engine.journal.entry import Entry
from pengan.engine.message import SAYINGS, Message, Saying
from pengan.words import languages
from pengan.words.names import Names, SiteNames
from pengan.words.reader import Reader
from pengan.words.say import UnknownSaying, import_every_saying, say
from pengan.words.wall import SiteWall

from .storing import folded

BEFORE_S, AFTER_S = 8 * 86_400, 86_400
"""What is said speaks of instants so long before and after it was said."""
SPOKEN = ("alarm", "catch_up", "finding", "shutting")
"""How the codes begin of what is said in a journal: few enough to look through in one question to the database."""
_COUNTS = range(101)
"""Numbers that have every plural form (CLDR, "Language Plural Rules")."""


def saying_so(entry: Entry, said: Message, names: Names | None = None) -> Entry:
    """The entry with what the server says in it. Raises `ValueError` for what nobody could search for."""
    if said.code.partition(".")[0] not in SPOKEN:
        raise ValueError(f"{said.code} is not among what is said in a journal; see SPOKEN")
    return replace(entry, said=said, text=say(said, Reader(language=languages.SOURCE), names))


def worded(entry: Entry, reader: Reader, names: Names) -> str:
    """What an entry says: the server's words in the reader's language, units and clock, anybody else's as they are."""
    if entry.said is None:
        return entry.text
    try:
        return say(entry.said, reader, names)
    except UnknownSaying:
        return entry.text


def shown_said(entry: Entry, reader: Reader, names: Names) -> Mapping[str, object]:
    """The server's words as the API answers them; nothing where it says nothing."""
    if entry.said is None:
        return {}
    return {"said": {**entry.said.as_json(), "detail": worded(entry, reader, names)}}


def names_around(document: Document, clock: SiteClock, instants: Iterable[int]) -> SiteNames:
    """The names of records and the site's clock, for what was said at these instants."""
    at = sorted(instants) or [0]
    return SiteNames(document, SiteWall(clock, at[0] - BEFORE_S, at[-1] + AFTER_S))


def codes_with(words: str, reader: Reader) -> frozenset[str]:
    """The codes of what is said in journals with these words, which are folded, in the reader's language.

    What fills a sentence's places is another for each entry, and is not looked at. None in the source's language: the
    text is searched anyway.
    """
    language = languages.catalogue_tag(reader.language) or languages.SOURCE
    if not words or language == languages.SOURCE:
        return frozenset()
    return frozenset(code for code, parts in _spoken_in(language).items() if any(words in part for part in parts))


@cache
def _spoken_in(language: str) -> Mapping[str, frozenset[str]]:
    """By their code, the words of all that is said in journals: what stands between the places of each form, folded."""
    import_every_saying()
    spoken = [one for code, one in SAYINGS.items() if code.partition(".")[0] in SPOKEN]
    return {one.code: frozenset(_words_of(one, Reader(language=language))) for one in spoken}


def _words_of(one: Saying, reader: Reader) -> Iterator[str]:
    forms = {reader.gettext(one.template)}
    if one.many is not None:
        forms = {reader.catalogue.ngettext(one.template, one.many, count) for count in _COUNTS}
    for form in forms:
        yield from (folded(words) for words, _name, _spec, _conversion in Formatter().parse(form) if words)
