"""Entries written down, once each. Belongs to the caller's transaction, as short a one as can be.

Whoever writes a site's entries holds its row in `journal_heads` until the end of the transaction, so that numbers
become visible in their order. Nobody else ever asks for that row.
"""

from __future__ import annotations

import hashlib
import json
import unicodedata
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any, Literal

from sqlalchemy import Row
from sqlalchemy.orm import Session

from pengan.engine.journal.entry import Entry, Explained, Found, Kind
from pengan.engine.message import Message, saying

from .inserting import ENTRIES, insert_into, insert_new, rows_with
from .models import JournalHead

Outcome = Literal["taken", "known"] | Message
"""What became of an entry; a message says why it was kept aside."""

id_taken = saying("journal.id_taken", "Another entry has this id already. An id is used once.")
told_before = saying("journal.told_before", "The very same was told before, under the id {given}.")

_AS_TOLD = ("id", "at", "kind", "by", "station", "supply", "controller", "flow_lpm", "count_l", "alarm", "finding",
            "count", "explained", "text")  # fmt: skip


def store(session: Session, site: str, entries: Sequence[Entry], now: int) -> list[Outcome]:
    """Write the entries that are new; what became of each, in the order given."""
    if not entries:
        return []
    first = numbers(session, site, entries=len(entries)) - len(entries) + 1
    sums = [sum_of(entry) for entry in entries]
    rows = [_row(site, first + place, entry, sums[place], now) for place, entry in enumerate(entries)]
    new = insert_new(session, rows)
    left = [place for place in range(len(entries)) if first + place not in new]
    outcomes: list[Outcome] = ["taken"] * len(entries)
    for place, outcome in zip(left, _outcomes(session, site, [(entries[p], sums[p]) for p in left]), strict=True):
        outcomes[place] = outcome
    return outcomes


def _outcomes(session: Session, site: str, left: Sequence[tuple[Entry, bytes]]) -> Iterator[Outcome]:
    """Why these were not written. By its id an entry is known from whomever it comes: a gateway may have got another
    token."""
    ids, sums = {entry.id for entry, _sum in left}, {told for _entry, told in left}
    by_id = {row.id: entry_of(row) for row in rows_with(session, site, ENTRIES.c.id, ids)} if left else {}
    by_sum = {row.sum: row.id for row in rows_with(session, site, ENTRIES.c.sum, sums)} if left else {}
    for entry, told in left:
        before = by_id.get(entry.id)
        if before is None:
            yield told_before(given=by_sum[told])
        else:
            yield "known" if _is_same(before, entry) else id_taken()


def _is_same(before: Entry, entry: Entry) -> bool:
    """Whether an entry of the same id says the same. What the server says was given out in its readers' languages."""
    if before.said is not None:
        before, entry = replace(before, text=""), replace(entry, text="")
    return _content(before)[1:] == _content(entry)[1:]


def numbers(session: Session, site: str, *, entries: int = 0, aside: int = 0) -> int:
    """Give so many numbers out, and hold the site's head; the last of those asked for."""
    new = insert_into(session)(JournalHead).values(site=site, newest=entries, newest_aside=aside)
    more = {"newest": JournalHead.newest + entries, "newest_aside": JournalHead.newest_aside + aside}
    given = new.on_conflict_do_update(index_elements=["site"], set_=more)
    row = session.execute(given.returning(JournalHead.newest, JournalHead.newest_aside)).one()
    return int(row.newest if entries else row.newest_aside)


def sum_of(entry: Entry) -> bytes:
    """A digest of everything but the id."""
    return hashlib.blake2b(repr(_content(entry)).encode("utf-8", "replace"), digest_size=16).digest()


def _content(entry: Entry) -> tuple[object, ...]:
    """Everything but the id, who told it first. What came later to entries stands at the end and only where it is set:
    so the digest of all others is what it was."""
    later = () if entry.explained is None else (entry.explained.value,)
    return (
        entry.by, entry.at, entry.kind.value, entry.station, entry.supply, entry.controller, entry.flow_lpm,
        entry.count_l, entry.alarm, entry.finding and entry.finding.value, entry.count, entry.text,
        *later,
    )  # fmt: skip


def _row(site: str, number: int, entry: Entry, told: bytes, now: int) -> dict[str, object]:
    row: dict[str, object] = {name: getattr(entry, name) for name in _AS_TOLD}
    written = entry.text or None
    row |= {"kind": entry.kind.value, "finding": entry.finding and entry.finding.value}
    row |= {"explained": entry.explained and entry.explained.value, "said": _said(entry.said)}
    row |= {"site": site, "number": number, "text": written, "folded": written and folded(written)}
    return row | {"sum": told, "arrived_at": now}


def _said(message: Message | None) -> str | None:
    return None if message is None else json.dumps(message.as_json(), separators=(",", ":"), sort_keys=True)


def said_with(code: str) -> str:
    """How the column `said` begins where it holds a message of this code: keys are written in their order."""
    return f'{{"code":{json.dumps(code)},'


def _message(text: str | None) -> Message | None:
    kept = None if text is None else json.loads(text)
    return None if kept is None else Message(kept["code"], kept["params"])


def folded(written: str) -> str:
    """A text as it is searched: without regard to case, nor to how accents were typed."""
    return unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", written).casefold())


def entry_of(row: Row[Any] | Mapping[str, Any]) -> Entry:
    """The entry that a row holds."""
    values = row if isinstance(row, Mapping) else row._mapping
    given = {name: values[name] for name in _AS_TOLD}
    finding, explained = given["finding"], given["explained"]
    given |= {"kind": Kind(given["kind"]), "finding": Found(finding) if finding else None}
    given |= {"explained": Explained(explained) if explained else None, "said": _message(values["said"])}
    return Entry(**given | {"text": given["text"] or ""})


def entries_in(rows: Iterable[Row[Any]]) -> list[Entry]:
    """The entries that rows hold."""
    return [entry_of(row) for row in rows]
