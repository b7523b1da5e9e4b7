"""What happened, read back: in the order of occurrence, however late it came, or in the order of arrival.

Whoever keeps a copy asks for what arrived after the number it knows; people ask by time, kind, place and text.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import ColumnElement, Row, Select, and_, func, or_, select
from sqlalchemy.orm import Session

from pengan.engine.clock.zones import clock_of
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.message import saying
from pengan.words.names import Names, NoNames

from ..database import reading
from ..people.rights import Actor, require
from ..problems import Problem
from ..sites.operations import document_in
from .inserting import ENTRIES
from .names import names_of_tellers
from .storing import entries_in, entry_of, folded, said_with
from .wording import names_around

MOST_ON_A_PAGE = 1000
IN_ONE_GO = 2000
"""Rows of a table that are fetched at a time."""

no_such_page = saying("journal.no_such_page", "{given} is no page. Give back the “next” of the page before.")
_FILTERS = ("station", "supply", "controller", "alarm", "by")


@dataclass(frozen=True, slots=True)
class Asked:
    """Which entries: `starts` and `ends` bound when they happened (instants; `ends` itself is left out).

    `said`: codes of what the server says; such an entry has the text as well, in the words of whoever asks.
    """

    kinds: Collection[str] = ()
    places: Mapping[str, str] = field(default_factory=dict)
    text: str = ""
    starts: int | None = None
    ends: int | None = None
    said: Collection[str] = ()


@dataclass(frozen=True, slots=True)
class Found:
    """One entry with its place in the order of arrival, and when it arrived."""

    number: int
    arrived_at: int
    entry: Entry


@dataclass(frozen=True, slots=True)
class Page:
    """A page of entries, the names of who told them, and what to give for the next page; None: there is none."""

    entries: list[Found]
    names: Mapping[str, str]
    next: str | None
    newest: int
    """The newest number of the site when this was read."""
    spoken: Names
    """What the server's words on this page speak of: records and the site's clock."""


def by_time(
    session: Session, actor: Actor, site: str, asked: Asked, page: str | None, limit: int, oldest_first: bool = False
) -> Page:
    """A page in the order of occurrence. Raises `Problem` unless the actor works at the site."""
    place = None if page is None else _place(page)
    with reading(session):
        require(session, actor, site, "note")
        rows = list(session.execute(_in_time(site, asked, place, oldest_first).limit(limit + 1)))
        last = rows[limit - 1] if len(rows) > limit else None
        return _page(session, site, rows[:limit], None if last is None else f"{last.at}.{last.number}")


def by_arrival(session: Session, actor: Actor, site: str, asked: Asked, since: int, limit: int) -> Page:
    """A page of what arrived after the number `since`, for whoever keeps a copy. `next` is the number to go on from,
    and None once there is no more: then `newest` is."""
    with reading(session):
        require(session, actor, site, "note")
        after = max(since, _first_worth(session, site, asked) - 1) if since == 0 else since
        wanted = _filtered(site, asked).where(ENTRIES.c.number > after).order_by(ENTRIES.c.number)
        rows = list(session.execute(wanted.limit(limit + 1)))
        more = len(rows) > limit
        return _page(session, site, rows[:limit], str(rows[limit - 1].number) if more else None)


def happened(
    session: Session, site: str, starts: int, ends: int, kinds: Collection[Kind] = (), text: str = ""
) -> list[Entry]:
    """What happened within a span, in the order of occurrence, for the server itself. Inside a transaction."""
    asked = Asked([kind.value for kind in kinds], {}, text, starts, ends)
    return entries_in(session.execute(_in_time(site, asked, None, oldest_first=True)))


def all_of(session: Session, actor: Actor, site: str, asked: Asked) -> Iterator[list[Found]]:
    """Everything asked for in the order of occurrence, some at a time, so that memory holds no more than that.

    Each part is a transaction of its own: what comes meanwhile is in it or not. Raises `Problem` at the first.
    """
    place: tuple[int, int] | None = None
    while True:
        with reading(session):
            require(session, actor, site, "note")
            rows = session.execute(_in_time(site, asked, place, oldest_first=True).limit(IN_ONE_GO)).all()
        yield [_found(row) for row in rows]
        if len(rows) < IN_ONE_GO:
            return
        place = (rows[-1].at, rows[-1].number)


def newest_number(session: Session, site: str) -> int:
    """The newest number of a site's entries, 0 before the first. Inside a transaction."""
    return session.scalar(select(func.max(ENTRIES.c.number)).where(ENTRIES.c.site == site)) or 0


def _first_worth(session: Session, site: str, asked: Asked) -> int:
    """The first number that a first copy needs: years of entries are not gone through for the last nights."""
    if asked.starts is None:
        return 0
    late = select(func.min(ENTRIES.c.number)).where(ENTRIES.c.site == site, ENTRIES.c.at >= asked.starts)
    return session.scalar(late) or 0


def _in_time(site: str, asked: Asked, place: tuple[int, int] | None, oldest_first: bool) -> Select[Any]:
    at, number = ENTRIES.c.at, ENTRIES.c.number
    order = (at, number) if oldest_first else (at.desc(), number.desc())
    wanted = _filtered(site, asked).order_by(*order)
    return wanted if place is None else wanted.where(_beyond(place, oldest_first))


def _beyond(place: tuple[int, int], oldest_first: bool) -> ColumnElement[bool]:
    at, number = ENTRIES.c.at, ENTRIES.c.number
    if oldest_first:
        return and_(at >= place[0], or_(at > place[0], number > place[1]))
    return and_(at <= place[0], or_(at < place[0], number < place[1]))


def _filtered(site: str, asked: Asked) -> Select[Any]:
    wanted = select(ENTRIES).where(ENTRIES.c.site == site)
    if asked.kinds:
        wanted = wanted.where(ENTRIES.c.kind.in_(sorted(asked.kinds)))
    for name in _FILTERS:
        if name in asked.places:
            wanted = wanted.where(ENTRIES.c[name] == asked.places[name])
    if asked.text:
        # Said besides, though it follows: so the index of entries with a text is used.
        wanted = wanted.where(ENTRIES.c.folded.is_not(None), _has_text(asked))
    if asked.starts is not None:
        wanted = wanted.where(ENTRIES.c.at >= asked.starts)
    return wanted if asked.ends is None else wanted.where(ENTRIES.c.at < asked.ends)


def _has_text(asked: Asked) -> ColumnElement[bool]:
    written = ENTRIES.c.folded.contains(folded(asked.text), autoescape=True)
    said = (ENTRIES.c.said.startswith(said_with(code), autoescape=True) for code in sorted(asked.said))
    return or_(written, *said)


def _place(page: str) -> tuple[int, int]:
    at, _dot, number = page.partition(".")
    if not (at.isascii() and at.isdigit() and number.isascii() and number.isdigit() and len(page) <= 40):
        raise Problem(422, no_such_page(given=page[:40]))
    return int(at), int(number)


def _page(session: Session, site: str, rows: list[Row[Any]], after: str | None) -> Page:
    found = [_found(row) for row in rows]
    names = names_of_tellers(session, [one.entry.by for one in found])
    return Page(found, names, after, newest_number(session, site), _spoken(session, site, found))


def _spoken(session: Session, site: str, found: Sequence[Found]) -> Names:
    """The document is read only where the server says something."""
    said = [one.entry.at for one in found if one.entry.said is not None]
    if not said:
        return NoNames()
    document = document_in(session, site).document
    return names_around(document, clock_of(document.site), said)


def _found(row: Row[Any]) -> Found:
    return Found(row.number, row.arrived_at, entry_of(row))
