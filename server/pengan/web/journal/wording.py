"""What the server itself says in the journal: kept as a message, and put into words for whoever reads.

The text beside it is in the source's language. It is what is searched, and what stands where a message was made by
another version.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from pengan.engine.clock.zones import SiteClock
from pengan.engine.document.document import Document
from pengan.engine.journal.entry import Entry
from pengan.engine.message import Message
from pengan.words import languages
from pengan.words.names import Names, SiteNames
from pengan.words.reader import Reader
from pengan.words.say import UnknownSaying, say
from pengan.words.wall import SiteWall

BEFORE_S, AFTER_S = 8 * 86_400, 86_400
"""What is said speaks of instants so long before and after it was said."""


def saying_so(entry: Entry, said: Message, names: Names | None = None) -> Entry:
    """The entry with what the server says in it."""
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
