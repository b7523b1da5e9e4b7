"""Pages of a site's records for phones: what has changed since a cursor, or the whole as a fresh copy.

Records go out in the order of their last change. Whatever changes while a phone turns the pages comes again on a later
page, since it has got a newer revision: after the last page the phone has exactly the site of that moment.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from sqlalchemy import Integer, Row, Select, String, and_, bindparam, literal, or_, select, union_all
from sqlalchemy.orm import Session

from pengan.engine.message import saying

from ..people.rights import Actor, Role, scope_at
from ..problems import Problem
from ..sites.models import REVISION, ROWS, SiteCopy
from .answering import names_of
from .groups import REMOVED_GROUP
from .past import Past
from .schemas import LARGEST, PAGE
from .trays import waiting_of
from .working import as_record, held_of

no_such_page = saying("sync.no_such_page", "There is no page {given}. Pull again from the cursor.")
TABLE_PLACES = {name: place for place, name in enumerate(ROWS)}
TABLE_NAMES = tuple(ROWS)
NEVER = -1
BEFORE_ALL = 99
"""No table's place: of the revision that a cursor names, the phone has everything."""


@dataclass(frozen=True, slots=True)
class Position:
    """Where a page starts: after this revision, table and record. `since` is where the first page started, `scope` the
    one the pages are for."""

    scope: str
    since: int
    fresh: bool
    revision: int
    table: int = BEFORE_ALL
    id: str = ""

    def __str__(self) -> str:
        return f"{self.scope}~{self.since}~{int(self.fresh)}~{self.revision}~{self.table}~{self.id}"


def scope_of(session: Session, copy: SiteCopy, actor: Actor | None) -> str:
    """Rises with the person's grants and changes with a restore: a copy made under another one is made anew."""
    return f"{copy.epoch}.{scope_at(session, actor.person, copy.site) if actor else 0}"


def page_of(
    session: Session, copy: SiteCopy, actor: Actor | None, role: Role | None, asked: Mapping[str, Any]
) -> dict[str, object]:
    """One page. Belongs to the caller's transaction, which sees one moment."""
    scope = scope_of(session, copy, actor)
    start = _start(copy, scope, asked)
    limit = asked.get("limit") or PAGE
    rows = session.execute(_CHANGES, _bounds(copy.site, start, limit + 1)).all()
    end = None
    if len(rows) > limit:
        rows = rows[:limit]
        end = replace(start, revision=rows[-1].revision, table=rows[-1].place, id=rows[-1].id)
    records, removals = _records(session, copy.site, start, rows)
    if role is not None:  # strangers may read an open site, but are told nobody's name
        _name_removers(session, copy.site, removals)
    waiting = waiting_of(session, copy.site, start.since, start.fresh, actor, role) if end is None else []
    return {
        "site": copy.site,
        "fresh": start.fresh,
        "first": start.table == BEFORE_ALL,
        "cursor": copy.counter,
        "scope": scope,
        "next": None if end is None else str(end),
        "revision": copy.revision,
        "format": copy.format,
        "records": records,
        "removals": removals,
        "waiting": waiting,
        "people": names_of(session, _spoken_of(removals, waiting)),
    }


def _start(copy: SiteCopy, scope: str, asked: Mapping[str, Any]) -> Position:
    """Where this page starts: pages that can no longer be continued begin anew, with those of a fresh copy."""
    cursor, after = asked.get("cursor"), asked.get("after")
    if after is not None:
        position = _position(after)
        if position.scope == scope and (position.fresh or position.since >= copy.kept_from):
            return position
    elif cursor is not None and asked.get("scope") == scope and copy.kept_from <= cursor <= copy.counter:
        return Position(scope, cursor, False, cursor)
    return Position(scope, copy.counter, True, NEVER)


def _position(text: str) -> Position:
    parts = text.split("~")
    try:
        since, fresh, revision, table = (int(part) for part in parts[1:5])
    except ValueError:
        raise Problem(422, no_such_page(given=text)) from None
    if len(parts) != 6 or max(since, fresh, revision, table) > LARGEST or min(since, revision) < NEVER:
        raise Problem(422, no_such_page(given=text))
    return Position(parts[0], since, bool(fresh), revision, table, parts[5])


def _arm(name: str) -> Select[Any]:
    """One table's changed records after the position, no more than a page of them."""
    table, place = ROWS[name], TABLE_PLACES[name]
    revision = table.c[REVISION]
    later = or_(
        bindparam("table", type_=Integer) < place,
        and_(bindparam("table", type_=Integer) == place, table.c.id > bindparam("id", type_=String)),
    )
    after = or_(revision > bindparam("revision"), and_(revision == bindparam("revision"), later))
    some = (
        select(revision.label("revision"), literal(place).label("place"), table.c.id.label("id"))
        .where(table.c.site == bindparam("site"), revision >= bindparam("revision"), after)
        .order_by(revision, table.c.id)
        .limit(bindparam("limit"))
        .subquery()
    )
    return select(some.c.revision, some.c.place, some.c.id)


_CHANGES = union_all(*(_arm(name) for name in ROWS)).order_by("revision", "place", "id").limit(bindparam("limit"))


def _bounds(site: str, start: Position, limit: int) -> dict[str, object]:
    return {"site": site, "revision": start.revision, "table": start.table, "id": start.id, "limit": limit}


def _records(
    session: Session, site: str, start: Position, rows: Sequence[Row[Any]]
) -> tuple[list[dict[str, object]], list[dict[str, object]]]:
    """The records of these rows as they stand, and which of them are removed."""
    found = {}
    for name, place in TABLE_PLACES.items():
        ids = [row.id for row in rows if row.place == place]
        if ids:
            table = ROWS[name]
            wanted = select(table).where(table.c.site == site, table.c.id.in_(ids))
            found.update({(place, item["id"]): held_of(name, item) for item in session.execute(wanted).mappings()})
    records, removals = [], []
    for row in rows:
        held, key = found[row.place, row.id], (TABLE_NAMES[row.place], row.id)
        if not held.removed:
            versions = {group: version for group, version in held.versions.items() if version > 1}
            records.append({"record": as_record(key, held.values), "versions": versions, "order": held.order})
        elif not start.fresh or held.revision > start.since:
            removals.append({"table": key[0], "id": key[1], "version": held.version(REMOVED_GROUP)})
    return records, removals


def _name_removers(session: Session, site: str, removals: list[dict[str, object]]) -> None:
    past = Past(session, site)
    for removal in removals:
        key = (str(removal["table"]), str(removal["id"]))
        removal["by"], removal["when"] = past.last_change(key, REMOVED_GROUP)


def _spoken_of(removals: list[dict[str, Any]], waiting: list[dict[str, Any]]) -> Iterator[str | None]:
    for removal in removals:
        yield removal.get("by")
    for item in waiting:
        yield from (item["edit"]["person"], item["answer"].get("by"), item["closed_by"])
