"""Versions, revisions and removal marks on every record; every edit, and what waits for a person.

What a database held before is entered in the history as if it had been added just now, by nobody: replayed from
nothing, the history then gives the documents as they stand.
"""

from __future__ import annotations

import json
import time
from collections.abc import Iterator
from typing import Any
from uuid import uuid4

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

TABLES = (
    "site",
    "supplies",
    "controllers",
    "hydrozones",
    "stations",
    "programs",
    "turns",
    "windows",
    "closures",
    "apart",
    "asked",
)
OURS = ("site", "row_order", "row_revision", "row_versions", "row_removed")


def upgrade() -> None:
    """Add what sync needs, and enter in the history what there is."""
    _widen_site_copies()
    for table in TABLES:
        op.add_column(table, sa.Column("row_revision", sa.Integer(), nullable=False, server_default="0"))
        op.add_column(table, sa.Column("row_versions", sa.Text(), nullable=False, server_default="{}"))
        op.add_column(table, sa.Column("row_removed", sa.Boolean(), nullable=False, server_default=sa.false()))
        op.create_index(f"{table}_by_revision", table, ["site", "row_revision"])
    _make_edits()
    _make_waiting()
    _enter_what_there_is(op.get_bind())


def downgrade() -> None:
    """Take it all away again: removed records are gone then, and so is the history."""
    op.drop_table("waiting_edits")
    op.drop_table("edits")
    for table in reversed(TABLES):
        rows = sa.table(table, sa.column("row_removed", sa.Boolean()))
        op.execute(rows.delete().where(rows.c.row_removed))
        op.drop_index(f"{table}_by_revision", table)
        for column in ("row_removed", "row_versions", "row_revision"):
            op.drop_column(table, column)
    for column in ("epoch", "next_order", "kept_from", "counter"):
        op.drop_column("site_copies", column)


def _widen_site_copies() -> None:
    for column in ("counter", "kept_from", "next_order"):
        op.add_column("site_copies", sa.Column(column, sa.Integer(), nullable=False, server_default="0"))
    op.add_column("site_copies", sa.Column("epoch", sa.String(12), nullable=False, server_default=""))


def _make_edits() -> None:
    op.create_table(
        "edits",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.Column("edit_set", sa.String(64), nullable=False),
        sa.Column("kind", sa.String(8), nullable=False),
        sa.Column("record_table", sa.String(64), nullable=False),
        sa.Column("record", sa.String(64), nullable=False),
        sa.Column("field", sa.String(64)),
        sa.Column("seen", sa.Text()),
        sa.Column("saw", sa.Integer()),
        sa.Column("was", sa.Text()),
        sa.Column("now", sa.Text()),
        sa.Column("before", sa.Text()),
        sa.Column("format", sa.Integer(), nullable=False),
        sa.Column("sent", sa.Text()),
        sa.Column("settles", sa.String(64)),
        sa.Column("undoes", sa.String(64)),
        sa.Column("outcome", sa.String(8), nullable=False),
        sa.Column("version", sa.Integer()),
        sa.Column("answer", sa.Text(), nullable=False),
        sa.Column("person", sa.String(64), nullable=False),
        sa.Column("device", sa.String(64)),
        sa.Column("phone_time", sa.String(40)),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("decided_by", sa.String(64)),
        sa.Column("decided_at", sa.BigInteger()),
        sa.Column("effect", sa.Text()),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "id"),
    )
    op.create_index("edits_by_revision", "edits", ["site", "revision", "place"])
    op.create_index("edits_by_record", "edits", ["site", "record_table", "record", "revision"])
    op.create_index("edits_by_set", "edits", ["site", "edit_set"])


def _make_waiting() -> None:
    op.create_table(
        "waiting_edits",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("edit", sa.String(64), nullable=False),
        sa.Column("tray", sa.String(8), nullable=False),
        sa.Column("changed", sa.Integer(), nullable=False),
        sa.Column("open", sa.Boolean(), nullable=False),
        sa.Column("closed_how", sa.String(10)),
        sa.Column("closed_by", sa.String(64)),
        sa.Column("closed_at", sa.BigInteger()),
        sa.Column("effect", sa.Text()),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "edit"),
    )
    op.create_index("waiting_edits_by_change", "waiting_edits", ["site", "changed"])


def _enter_what_there_is(bind: sa.Connection) -> None:
    tables = sa.MetaData()
    tables.reflect(bind, only=["site_copies", "edits", *TABLES])
    copies, edits = tables.tables["site_copies"], tables.tables["edits"]
    at = int(time.time())
    for copy in bind.execute(sa.select(copies.c.site, copies.c.revision, copies.c.format)).all():
        rows = list(_edits_of(bind, tables, copy, at))
        if rows:
            bind.execute(edits.insert(), rows)
        for name in TABLES:
            table = tables.tables[name]
            bind.execute(table.update().where(table.c.site == copy.site).values(row_revision=copy.revision))
        known = {
            "counter": copy.revision,
            "next_order": _next_order(bind, tables, copy.site),
            "epoch": uuid4().hex[:12],
        }
        bind.execute(copies.update().where(copies.c.site == copy.site).values(**known))


def _edits_of(bind: sa.Connection, tables: sa.MetaData, copy: Any, at: int) -> Iterator[dict[str, Any]]:
    edit_set, place = str(uuid4()), 0
    for name in TABLES:
        table = tables.tables[name]
        for row in bind.execute(
            sa.select(table).where(table.c.site == copy.site).order_by(table.c.row_order)
        ).mappings():
            now = {key: value for key, value in row.items() if value is not None and key not in (*OURS, "id")}
            answer = {"outcome": "taken", "version": 1, "revision": copy.revision}
            yield {
                "site": copy.site,
                "id": str(uuid4()),
                "revision": copy.revision,
                "place": place,
                "edit_set": edit_set,
                "kind": "add",
                "record_table": name,
                "record": row["id"],
                "now": json.dumps(now),
                "format": copy.format,
                "outcome": "taken",
                "version": 1,
                "answer": json.dumps(answer),
                "person": "",
                "at": at,
            }
            place += 1


def _next_order(bind: sa.Connection, tables: sa.MetaData, site: str) -> int:
    most = (
        bind.execute(sa.select(sa.func.max(table.c.row_order)).where(table.c.site == site)).scalar()
        for table in (tables.tables[name] for name in TABLES)
    )
    return max((item for item in most if item is not None), default=-1) + 1
