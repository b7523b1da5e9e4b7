"""The journal: entries, what was kept aside, and who reports."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None

_WITH_STATION = sa.text("station IS NOT NULL")
_WITH_TEXT = sa.text("folded IS NOT NULL")


def upgrade() -> None:
    """Make the tables."""
    _make_heads()
    _make_entries()
    _make_aside()
    _make_reporters()


def downgrade() -> None:
    """Take them away again, with everything in them."""
    for table in ("reporters", "journal_aside", "journal_entries", "journal_heads"):
        op.drop_table(table)


def _make_heads() -> None:
    op.create_table(
        "journal_heads",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("newest", sa.BigInteger(), nullable=False),
        sa.Column("newest_aside", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("site"),
    )


def _make_entries() -> None:
    op.create_table(
        "journal_entries",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("number", sa.BigInteger(), autoincrement=False, nullable=False),
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("by", sa.String(80), nullable=False),
        *(sa.Column(name, sa.String(64), nullable=True) for name in ("station", "supply", "controller")),
        sa.Column("flow_lpm", sa.Float(), nullable=True),
        sa.Column("count_l", sa.Float(), nullable=True),
        sa.Column("alarm", sa.String(64), nullable=True),
        sa.Column("finding", sa.String(20), nullable=True),
        sa.Column("count", sa.Integer(), nullable=True),
        sa.Column("text", sa.Text(), nullable=True),
        sa.Column("folded", sa.Text(), nullable=True),
        sa.Column("sum", sa.LargeBinary(16), nullable=False),
        sa.Column("arrived_at", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("site", "number"),
    )
    op.create_index("journal_by_id", "journal_entries", ["site", "id"], unique=True)
    op.create_index("journal_by_sum", "journal_entries", ["site", "sum"], unique=True)
    op.create_index("journal_by_time", "journal_entries", ["site", "at", "number"])
    op.create_index("journal_by_kind", "journal_entries", ["site", "kind", "at"])
    _index_some("journal_by_station", ["site", "station", "at"], _WITH_STATION)
    _index_some("journal_by_text", ["site", "at"], _WITH_TEXT)


def _index_some(name: str, columns: list[str], where: sa.TextClause) -> None:
    op.create_index(name, "journal_entries", columns, postgresql_where=where, sqlite_where=where)


def _make_aside() -> None:
    op.create_table(
        "journal_aside",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("number", sa.BigInteger(), autoincrement=False, nullable=False),
        sa.Column("by", sa.String(80), nullable=False),
        sa.Column("code", sa.String(60), nullable=False),
        sa.Column("faults", sa.Text(), nullable=False),
        sa.Column("given", sa.Text(), nullable=False),
        sa.Column("sum", sa.LargeBinary(16), nullable=False),
        sa.Column("times", sa.BigInteger(), nullable=False),
        sa.Column("first_at", sa.BigInteger(), nullable=False),
        sa.Column("last_at", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("site", "number"),
    )
    op.create_index("journal_aside_by_sum", "journal_aside", ["site", "sum"], unique=True)


def _make_reporters() -> None:
    op.create_table(
        "reporters",
        sa.Column("team", sa.String(64), nullable=False),
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("name", sa.String(80), nullable=False),
        sa.Column("token_hash", sa.String(64), nullable=False),
        sa.Column("made_by", sa.String(64), nullable=False),
        sa.Column("made_at", sa.BigInteger(), nullable=False),
        sa.Column("heard_at", sa.BigInteger(), nullable=True),
        sa.Column("taken", sa.BigInteger(), nullable=False),
        sa.Column("aside", sa.BigInteger(), nullable=False),
        sa.Column("ended_at", sa.BigInteger(), nullable=True),
        sa.Column("ended_by", sa.String(64), nullable=True),
        sa.ForeignKeyConstraint(["team"], ["teams.id"]),
        sa.PrimaryKeyConstraint("team", "id"),
    )
    op.create_index("reporters_by_site", "reporters", ["site"])
    op.create_index("reporters_by_id", "reporters", ["id"], unique=True)
