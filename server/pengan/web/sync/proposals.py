"""The document as it would be if what waits in a dispute were in force."""

from __future__ import annotations

from sqlalchemy import Select, select
from sqlalchemy.orm import Session

from pengan.engine.document.document import Document
from pengan.engine.document.fault import DocumentFaults
from pengan.engine.document.read import read_document
from pengan.engine.document.tables import FORMAT
from pengan.engine.document.write import write_document

from .arriving import read
from .groups import GROUPS, REMOVED_GROUP, Values, parts, record_values, with_parts
from .models import Edit, Waiting
from .working import Key, as_record


def proposed(session: Session, document: Document, dispute: Edit) -> Document | None:
    """The document with the whole waiting set of a disputed edit; None where that would break a rule by now.

    Belongs to the caller's transaction.
    """
    records: dict[Key, Values] = {}
    for record in write_document(document)["records"]:  # type: ignore[attr-defined]
        records[record["table"], record["id"]] = record_values(record["table"], record)
    for edit in session.scalars(_set_of(dispute)):
        if not _laid_over(records, edit):
            return None
    try:
        return read_document({"format": FORMAT, "records": [as_record(key, held) for key, held in records.items()]})
    except DocumentFaults:
        return None


def _laid_over(records: dict[Key, Values], edit: Edit) -> bool:
    key = (edit.record_table, edit.record)
    if edit.kind == "add":
        records[key] = record_values(edit.record_table, read(edit.now))
        return True
    if edit.field == REMOVED_GROUP:
        removes = edit.kind == "remove" or read(edit.now) is True
        return records.pop(key, None) is not None if removes else key in records
    if edit.field is None or edit.field not in GROUPS.get(key[0], ()) or key not in records:
        return False
    new = parts(key[0], edit.field, read(edit.now))
    if new is None:
        return False
    records[key] = with_parts(records[key], new)
    return True


def _set_of(dispute: Edit) -> Select[Edit]:
    waits = select(Waiting.edit).where(Waiting.site == dispute.site, Waiting.tray == "disputed", Waiting.open)
    own = select(Edit).where(Edit.site == dispute.site, Edit.edit_set == dispute.edit_set, Edit.id.in_(waits))
    return own.where(Edit.person == dispute.person).order_by(Edit.revision, Edit.place)
