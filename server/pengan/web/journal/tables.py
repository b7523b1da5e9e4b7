"""The journal as a table that goes out while it is being read."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from sqlalchemy.orm import Session

from pengan.engine.clock.zones import clock_of
from pengan.words.reader import Reader

from ..people.rights import Actor
from ..sites.operations import document_for
from .finding import Asked, all_of
from .shown import table


def journal_table(session: Session, actor: Actor, site: str, asked: Asked, reader: Reader) -> Iterator[str]:
    """The lines of the table, some at a time. Raises `Problem` before the first, unless the actor works at the site."""
    parts = all_of(session, actor, site, asked)
    first = next(parts)
    document = document_for(session, actor, site).document
    return table(chain([first], parts), document, clock_of(document.site), reader)
