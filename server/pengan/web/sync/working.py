"""A site's records in memory, as the last revision left them: what a set of edits is judged against.

A process keeps the sites it lately worked on, and reads from the database only what has changed since. That is safe
because nobody looks at a working copy but under the lock of the site's counter: `refresh` brings it to exactly the
revision that the lock guards. It is a cache; any process can do without it.
"""

from __future__ import annotations

import json
from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from threading import Lock
from typing import Any

from sqlalchemy import RowMapping, Select, bindparam, select
from sqlalchemy.orm import Session

from pengan.engine.document.draft import Draft
from pengan.engine.document.fault import Fault
from pengan.engine.document.read import read_record
from pengan.engine.document.rules.references import REFS

from ..sites.models import REMOVED, REVISION, ROW_COLUMNS, ROW_ORDER, ROWS, VERSIONS, SiteCopy
from .arriving import written
from .groups import REMOVED_GROUP, Values

Key = tuple[str, str]
"""A record's table and id."""
Read = tuple[Draft, tuple[Fault, ...]]
MOST_SITES = 64
FIRST_VERSION = 1


@dataclass(frozen=True, slots=True)
class Held:
    """One record. `versions` leaves out what is at version 1."""

    values: Values
    versions: Mapping[str, int] = field(default_factory=dict)
    removed: bool = False
    revision: int = 0
    order: int = 0

    def version(self, group: str) -> int:
        """The version of a group."""
        return self.versions.get(group, FIRST_VERSION)

    def raised(self, group: str, **changed: Any) -> Held:
        """The record with another value, and the group's version one higher."""
        return replace(self, versions={**self.versions, group: self.version(group) + 1}, **changed)

    def marked(self, removed: bool) -> Held:
        """The record, removed or restored."""
        return self.raised(REMOVED_GROUP, removed=removed)


class Working:
    """One site's records, and what is looked up among them when a change is checked."""

    def __init__(self, site: str, epoch: str, kept_from: int = 0) -> None:
        self.site = site
        self.epoch = epoch
        self.kept_from = kept_from
        self.counter = -1
        self.records: dict[Key, Held] = {}
        self.referrers: dict[Key, set[Key]] = {}
        self.numbers: dict[str, set[str]] = {}
        self._read: dict[Key, tuple[Values, Read]] = {}
        self._renewal = Lock()

    def fits(self, copy: SiteCopy) -> bool:
        """Whether it can be brought up to date: not after a restore, or when rows were forgotten since."""
        return (self.epoch, self.kept_from) == (copy.epoch, copy.kept_from) and self.counter <= copy.counter

    def refresh(self, session: Session, counter: int) -> None:
        """Read what has changed since; call it under the lock of the site's counter."""
        with self._renewal:
            if counter == self.counter:
                return
            for table in ROWS:
                for row in session.execute(_CHANGED[table], {"site": self.site, "since": self.counter}).mappings():
                    self.put((table, row["id"]), held_of(table, row))
            self.counter = counter

    def absorb(self, changed: Mapping[Key, Held], before: int, counter: int) -> None:
        """Take over what a committed set changed, unless somebody has read it from the database already."""
        with self._renewal:
            if self.counter == before:
                for key, held in changed.items():
                    self.put(key, held)
                self.counter = counter

    def read(self, key: Key, values: Values) -> Read:
        """A record as the engine's rules look at it. What was read before of the same values is not read again."""
        known = self._read.get(key)
        if known is not None and known[0] is values:
            return known[1]
        found = read_record(as_record(key, values))
        if key in self.records:
            self._read[key] = (values, found)
        return found

    def put(self, key: Key, held: Held) -> None:
        """Put a record in the place of what was known of it."""
        former = self.records.get(key)
        if former is not None and not former.removed:
            self._forget(key, former)
        self.records[key] = held
        if not held.removed:
            self._note(key, held)

    def _note(self, key: Key, held: Held) -> None:
        for target in targets(key[0], held.values):
            self.referrers.setdefault(target, set()).add(key)
        if key[0] == "stations":
            self.numbers.setdefault(folded(held.values), set()).add(key[1])

    def _forget(self, key: Key, held: Held) -> None:
        for target in targets(key[0], held.values):
            self.referrers[target].discard(key)
        if key[0] == "stations":
            self.numbers[folded(held.values)].discard(key[1])


def as_record(key: Key, values: Values) -> dict[str, object]:
    """A record as it stands in a document."""
    return {"table": key[0], "id": key[1], **values}


def targets(table: str, values: Mapping[str, object]) -> list[Key]:
    """What a record refers to."""
    found = ((target, values.get(name)) for name, target in REFS[table].items())
    return [(target, id) for target, id in found if isinstance(id, str)]


def folded(values: Mapping[str, object]) -> str:
    """A station's number as it is compared."""
    return str(values.get("number", "")).strip().casefold()


def held_of(table: str, row: RowMapping) -> Held:
    """A row as a record."""
    values = {name: _plain(value) for name in _NAMES[table] if (value := row[name]) is not None}
    return Held(values, json.loads(row[VERSIONS]), row[REMOVED], row[REVISION], row[ROW_ORDER])


def row_of(site: str, key: Key, held: Held) -> dict[str, object]:
    """A record as a row."""
    own = {
        ROW_ORDER: held.order,
        REVISION: held.revision,
        VERSIONS: written(held.versions),
        REMOVED: held.removed,
    }
    return {"site": site, "id": key[1], **own, **{name: held.values.get(name) for name in _NAMES[key[0]]}}


def _plain(value: object) -> object:
    return int(value) if isinstance(value, float) and value.is_integer() else value


_NAMES = {
    name: [column.name for column in table.columns if column.name not in ("site", "id", *ROW_COLUMNS)]
    for name, table in ROWS.items()
}


def _changed(name: str) -> Select[Any]:
    table = ROWS[name]
    return select(table).where(table.c.site == bindparam("site"), table.c[REVISION] > bindparam("since"))


_CHANGED = {name: _changed(name) for name in ROWS}


class Kept:
    """The working copies of one process, the longest unused given up first."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._kept: OrderedDict[tuple[str, str], Working] = OrderedDict()

    def of(self, session: Session, copy: SiteCopy) -> Working:
        """The site's working copy at the revision that the caller has locked."""
        where = (str(session.get_bind().url), copy.site)  # type: ignore[union-attr]
        with self._lock:
            work = self._kept.pop(where, None)
            if work is None or not work.fits(copy):
                work = Working(copy.site, copy.epoch, copy.kept_from)
            self._kept[where] = work
            while len(self._kept) > MOST_SITES:
                self._kept.popitem(last=False)
        work.refresh(session, copy.counter)
        return work


kept = Kept()
