"""The rows behind a site's document: an SQL table for each of its tables, made from the same declarations."""

from __future__ import annotations

from dataclasses import Field, fields
from typing import Any

from sqlalchemy import Boolean, Column, Float, ForeignKeyConstraint, Integer, String, Table
from sqlalchemy.orm import Mapped, mapped_column
from sqlalchemy.types import TypeEngine

from pengan.engine.document.fields import Kind, kind_of
from pengan.engine.document.tables import TABLES, Record

from ..database import Base


class SiteCopy(Base):
    """One site's document: the format it is kept in, and a revision that rises with every change."""

    __tablename__ = "site_copies"

    site: Mapped[str] = mapped_column(String(64), primary_key=True)
    format: Mapped[int]
    revision: Mapped[int]


ROW_ORDER = "row_order"
"""The column that keeps the order in which a document's records stood."""

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
        ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        *references,
    )


ROWS: dict[str, Table] = {record.table: _rows_of(record) for record in TABLES}
"""SQL tables by the name of the document's table. The key of each is (site, id)."""
