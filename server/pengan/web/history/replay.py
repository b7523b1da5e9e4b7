"""The document out of its history: the edits that were taken, applied one after the other, beginning with nothing."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from sqlalchemy import Row, select
from sqlalchemy.orm import Session

from pengan.engine.document.tables import FORMAT

from ..sites.models import ROWS
from ..sync.arriving import read
from ..sync.groups import REMOVED_GROUP, parts, record_values, with_parts
from ..sync.models import Edit
from ..sync.working import Held, Key, as_record

BATCH = 2000


class Gap(Exception):
    """The history does not fit together: an edit wrote a version other than the next."""


def replayed(session: Session, site: str, up_to: int | None = None) -> dict[Key, Held]:
    """Every record there ever was, as it stood at a revision (None: today), removed ones marked. Raises `Gap`."""
    records: dict[Key, Held] = {}
    for edit in _taken(session, site, up_to):
        key = (edit.record_table, edit.record)
        records[key] = _applied(records.get(key), key, edit, len(records))
    return records


def document_of_records(records: dict[Key, Held]) -> dict[str, object]:
    """The document that these records make, removed ones left out."""
    places = {name: place for place, name in enumerate(ROWS)}
    live = [(key, held) for key, held in records.items() if not held.removed]
    live.sort(key=lambda item: (places[item[0][0]], item[1].order))
    return {"format": FORMAT, "records": [as_record(key, held.values) for key, held in live]}


def _taken(session: Session, site: str, up_to: int | None) -> Iterable[Row[Any]]:
    columns = (Edit.id, Edit.kind, Edit.record_table, Edit.record, Edit.field, Edit.now, Edit.version, Edit.revision)
    found = select(*columns).where(Edit.site == site, Edit.outcome == "taken")
    if up_to is not None:
        found = found.where(Edit.revision <= up_to)
    return session.execute(found.order_by(Edit.revision, Edit.place), execution_options={"yield_per": BATCH})


def _applied(held: Held | None, key: Key, edit: Row[Any], order: int) -> Held:
    if held is None:
        if edit.kind != "add":
            raise Gap(edit.id)
        return Held(record_values(key[0], read(edit.now)), revision=edit.revision, order=order)
    changed = _changed(held, key, edit)
    if edit.version != changed.version(edit.field):
        raise Gap(edit.id)
    return replace(changed, revision=edit.revision)


def _changed(held: Held, key: Key, edit: Row[Any]) -> Held:
    if edit.field == REMOVED_GROUP:
        return held.marked(edit.kind == "remove" or (edit.kind == "settle" and read(edit.now) is True))
    new = parts(key[0], edit.field, read(edit.now))
    if new is None:
        raise Gap(edit.id)
    return held.raised(edit.field, values=with_parts(held.values, new))
