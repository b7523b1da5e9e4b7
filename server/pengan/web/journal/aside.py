"""What came and is no entry: kept with its reasons, shown, and never mixed in with what happened.

The same again, from the same teller and for the same reason, is one row that counts. The oldest rows make room when a
site has too many, so that something broken can send for ever.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from sqlalchemy import delete, select
from sqlalchemy.orm import Session

from pengan.engine.document.fault import Fault
from pengan.engine.message import Message

from ..database import reading
from ..people.rights import Actor, require
from .inserting import insert_into
from .models import JournalAside
from .names import names_of_tellers
from .storing import numbers

MOST_ROWS = 10_000
"""At a site."""
_TOKEN = re.compile(r'("token"\s*:\s*")[^"]*|[\w-]+\.[\w-]+\.[A-Za-z0-9_-]{40,}')
"""As it stands in messages, and what a token looks like wherever it stands."""


@dataclass(frozen=True, slots=True)
class Aside:
    """Something to be kept aside: who sent it, what it was, what is wrong with it. What has the same `key` is the
    same."""

    by: str
    given: str
    faults: tuple[Fault, ...]
    key: str

    @property
    def code(self) -> str:
        """The first reason."""
        return self.faults[0].message.code

    @property
    def sum(self) -> bytes:
        """By what the same is known again."""
        text = "\n".join((self.by, self.code, self.key))
        return hashlib.blake2b(text.encode("utf-8", "replace"), digest_size=16).digest()


@dataclass(frozen=True, slots=True)
class AsideLine:
    """Something that was kept aside, as people see it."""

    number: int
    by: str
    faults: tuple[Fault, ...]
    given: str
    times: int
    first_at: int
    last_at: int


def keep_aside(session: Session, site: str, items: Sequence[Aside], now: int) -> None:
    """Keep them. Belongs to the caller's transaction."""
    if not items:
        return
    times: dict[bytes, int] = {}
    first: dict[bytes, Aside] = {}
    for item in items:
        told = item.sum
        times[told] = times.get(told, 0) + 1
        first.setdefault(told, item)
    last = numbers(session, site, aside=len(first))
    rows = [
        {"site": site, "number": last - place, "by": item.by, "code": item.code, "faults": _written(item.faults),
         "given": without_tokens(item.given), "sum": told, "times": times[told], "first_at": now, "last_at": now}
        for place, (told, item) in enumerate(reversed(first.items()))
    ]  # fmt: skip
    new = insert_into(session)(JournalAside.__table__)
    again = {"times": JournalAside.times + new.excluded.times, "last_at": new.excluded.last_at}
    session.connection().execute(new.on_conflict_do_update(index_elements=["site", "sum"], set_=again), rows)
    old = delete(JournalAside).where(JournalAside.site == site, JournalAside.number <= last - MOST_ROWS)
    session.execute(old, execution_options={"synchronize_session": False})


def without_tokens(text: str) -> str:
    """What came, without any token in it: more people read what was kept aside than may know one."""
    return _TOKEN.sub(lambda found: (found[1] or "") + "…", text)


def _written(faults: Sequence[Fault]) -> str:
    return json.dumps([{"field": fault.field, **fault.message.as_json()} for fault in faults])


def aside_at(
    session: Session, actor: Actor, site: str, before: int | None, limit: int
) -> tuple[list[AsideLine], Mapping[str, str]]:
    """What was kept aside, the newest first, and the names of who sent it. Raises `Problem` unless the actor works
    there."""
    wanted = select(JournalAside).where(JournalAside.site == site).order_by(JournalAside.number.desc()).limit(limit)
    if before is not None:
        wanted = wanted.where(JournalAside.number < before)
    with reading(session):
        require(session, actor, site, "note")
        lines = [_line(row) for row in session.scalars(wanted)]
        return lines, names_of_tellers(session, [line.by for line in lines])


def _line(row: JournalAside) -> AsideLine:
    faults = tuple(_fault(one) for one in json.loads(row.faults))
    return AsideLine(row.number, row.by, faults, row.given, row.times, row.first_at, row.last_at)


def _fault(one: Mapping[str, Any]) -> Fault:
    return Fault(None, None, one["field"], Message(one["code"], MappingProxyType(one["params"])))
