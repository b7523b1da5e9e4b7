"""The rows behind a site's document: an SQL table for each of its tables, made from the same declarations."""

from __future__ import annotations

from dataclasses import Field, fields
from typing import Any
from uuid import uuid4

from sqlalchemy import Boolean, Column, Float, ForeignKeyConstraint, Index, Integer, String, Table, Text
from sqlalchemy.orm import Mapped, mapped_column
from sqlalchemy.types import TypeEngine

from pengan.engine.document.fields import Kind, kind_of
from pengan.engine.document.record import Record
from pengan.engine.document.tables import TABLES

from ..database import Base


def new_epoch() -> str:
    """A word that no other copy of the site has."""
    return uuid4().hex[:12]


class SiteCopy(Base):
    """One site's document: the format it is kept in, and the counter under whose lock everything of it changes.

    `counter` is the last revision taken, by a change of the document or of what waits for a person (disputes, trays);
    `revision` is the one of the document's last change. Changes are known from `kept_from` on: a phone whose cursor
    is older gets a fresh copy. `epoch` is another one after a restore, as revisions may then mean other things.
    `next_order` is the place the next record takes in the document.
    """

    __tablename__ = "site_copies"

    site: Mapped[str] = mapped_column(String(64), primary_key=True)
    format: Mapped[int]
    revision: Mapped[int]
    counter: Mapped[int] = mapped_column(default=0)
    kept_from: Mapped[int] = mapped_column(default=0)
    next_order: Mapped[int] = mapped_column(default=0)
    epoch: Mapped[str] = mapped_column(String(12), default=new_epoch)


ROW_ORDER = "row_order"
"""The column that keeps the order in which a document's records stood."""

REVISION, VERSIONS, REMOVED = "row_revision", "row_versions", "row_removed"
"""The columns of sync: the revision of a record's last change; the versions of its fields, as a JSON object that
leaves out those at 1; whether it is removed. Removed rows stay: a late edit finds what it was about."""

ROW_COLUMNS = (ROW_ORDER, REVISION, VERSIONS, REMOVED)

_COLUMN_TYPES: dict[str, type[TypeEngine[Any]]] = {
    "whole": Integer,
    "number": Float,
    "flag": Boolean,
}


def _column(name: str, kind: Kind) -> Column[object]:
    column_type = _COLUMN_TYPES.get(kind.name, String)
    return Column(name, column_type, primary_key=name == "id", nullable=not kind.required)


def _reference(item: Field[object]) -> ForeignKeyConstraint | None:
    """Checked only when the transaction ends, since records of a document stand in any order."""
    target = kind_of(item).table
    if target is None:
        return None
    return ForeignKeyConstraint(
        ["site", item.name], [f"{target}.site", f"{target}.id"], deferrable=True, initially="DEFERRED"
    )


def _rows_of(record: type[Record]) -> Table:
    references = [reference for item in fields(record) if (reference := _reference(item)) is not None]
    return Table(
        record.table,
        Base.metadata,
        Column("site", String(64), primary_key=True),
        *(_column(item.name, kind_of(item)) for item in fields(record)),
        Column(ROW_ORDER, Integer, nullable=False),
        Column(REVISION, Integer, nullable=False, default=0),
        Column(VERSIONS, Text, nullable=False, default="{}"),
        Column(REMOVED, Boolean, nullable=False, default=False),
        ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        *references,
        Index(f"{record.table}_by_revision", "site", REVISION),
    )


ROWS: dict[str, Table] = {record.table: _rows_of(record) for record in TABLES}
"""SQL tables by the name of the document's table. The key of each is (site, id)."""
