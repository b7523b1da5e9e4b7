"""Entries written down, once each. Belongs to the caller's transaction, as short a one as can be.

Whoever writes a site's entries holds its row in `journal_heads` until the end of the transaction, so that numbers
become visible in their order. Nobody else ever asks for that row.
"""

from __future__ import annotations

import hashlib
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Literal, cast

from sqlalchemy import Row, Table, select
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Session

from pengan.engine.journal.entry import Entry, Found, Kind
from pengan.engine.message import Message, saying

from .models import JournalEntry, JournalHead

Outcome = Literal["taken", "known"] | Message
"""What became of an entry; a message says why it was kept aside."""

id_taken = saying("journal.id_taken", "Another entry has this id already. An id is used once.")
told_before = saying("journal.told_before", "The very same was told before, under the id {given}.")

ENTRIES = cast(Table, JournalEntry.__table__)
_AS_TOLD = ("id", "at", "kind", "by", "station", "supply", "controller", "flow_lpm", "count_l", "alarm", "finding",
            "count", "text")  # fmt: skip


def store(session: Session, site: str, entries: Sequence[Entry], now: int) -> list[Outcome]:
    """Write the entries that are new; what became of each, in the order given."""
    if not entries:
        return []
    last = numbers(session, site, entries=len(entries))
    sums = [sum_of(entry) for entry in entries]
    seen = _Seen(session, site, entries, sums)
    outcomes = [seen.outcome(entry, told) for entry, told in zip(entries, sums, strict=True)]
    first = last - len(entries) + 1
    rows = [
        _row(site, first + place, entry, sums[place], now)
        for place, entry in enumerate(entries)
        if outcomes[place] == "taken"
    ]
    if rows:
        session.connection().execute(insert_into(session)(ENTRIES).on_conflict_do_nothing(), rows)
    return outcomes


def numbers(session: Session, site: str, *, entries: int = 0, aside: int = 0) -> int:
    """Give so many numbers out, and hold the site's head; the last of those asked for."""
    new = insert_into(session)(JournalHead).values(site=site, newest=entries, newest_aside=aside)
    more = {"newest": JournalHead.newest + entries, "newest_aside": JournalHead.newest_aside + aside}
    given = new.on_conflict_do_update(index_elements=["site"], set_=more)
    row = session.execute(given.returning(JournalHead.newest, JournalHead.newest_aside)).one()
    return int(row.newest if entries else row.newest_aside)


def insert_into(session: Session) -> Any:
    """The kind of insert that may meet a row which is there already."""
    return {"sqlite": sqlite.insert, "postgresql": postgresql.insert}[session.get_bind().dialect.name]


class _Seen:
    """What is in the journal already of what came, and what came before in the same batch."""

    def __init__(self, session: Session, site: str, entries: Sequence[Entry], sums: Sequence[bytes]) -> None:
        ids = select(ENTRIES).where(ENTRIES.c.site == site, ENTRIES.c.id.in_({entry.id for entry in entries}))
        self.by_id = {row.id: entry_of(row) for row in session.execute(ids)}
        same = select(ENTRIES.c.sum, ENTRIES.c.id).where(ENTRIES.c.site == site, ENTRIES.c.sum.in_(set(sums)))
        self.by_sum: dict[bytes, str] = {row.sum: row.id for row in session.execute(same)}

    def outcome(self, entry: Entry, told: bytes) -> Outcome:
        """Whether it is new. By its id it is known from whomever it comes: a gateway may have got another token."""
        before = self.by_id.get(entry.id)
        if before is not None:
            return "known" if _content(before)[1:] == _content(entry)[1:] else id_taken()
        if told in self.by_sum:
            return told_before(given=self.by_sum[told])
        self.by_id[entry.id], self.by_sum[told] = entry, entry.id
        return "taken"


def sum_of(entry: Entry) -> bytes:
    """A digest of everything but the id."""
    return hashlib.blake2b(repr(_content(entry)).encode("utf-8", "replace"), digest_size=16).digest()


def _content(entry: Entry) -> tuple[object, ...]:
    """Everything but the id, who told it first."""
    return (
        entry.by, entry.at, entry.kind.value, entry.station, entry.supply, entry.controller, entry.flow_lpm,
        entry.count_l, entry.alarm, entry.finding and entry.finding.value, entry.count, entry.text,
    )  # fmt: skip


def _row(site: str, number: int, entry: Entry, told: bytes, now: int) -> dict[str, object]:
    row: dict[str, object] = {name: getattr(entry, name) for name in _AS_TOLD}
    text = entry.text or None
    row |= {"kind": entry.kind.value, "finding": entry.finding and entry.finding.value}
    row |= {"site": site, "number": number, "text": text, "folded": text and folded(text)}
    return row | {"sum": told, "arrived_at": now}


def folded(text: str) -> str:
    """A text as it is searched: without regard to case, nor to how accents were typed."""
    return unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", text).casefold())


def entry_of(row: Row[Any] | Mapping[str, Any]) -> Entry:
    """The entry that a row holds."""
    values = row if isinstance(row, Mapping) else row._mapping
    given = {name: values[name] for name in _AS_TOLD}
    finding = given["finding"]
    given |= {"kind": Kind(given["kind"]), "finding": Found(finding) if finding else None}
    return Entry(**given | {"text": given["text"] or ""})


def entries_in(rows: Iterable[Row[Any]]) -> list[Entry]:
    """The entries that rows hold."""
    return [entry_of(row) for row in rows]
