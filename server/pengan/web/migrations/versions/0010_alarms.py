"""Alarms: what is watched of each site, what was noticed, who has seen it, and flows learned night by night."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0010"
down_revision = "0009"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables."""
    _make_watches()
    _make_alarms()
    _make_looks()
    _make_learned()
    _make_orders()


def downgrade() -> None:
    """Take them away again; what they wrote into the journal stays there."""
    for table in ("orders", "learned_flows", "watched_nights", "alarm_looks", "alarms", "watches"):
        op.drop_table(table)


def _make_watches() -> None:
    op.create_table(
        "watches",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("night", sa.String(10), server_default="", nullable=False),
        sa.Column("looked", sa.BigInteger(), server_default="0", nullable=False),
        sa.Column("looked_at", sa.BigInteger(), server_default="0", nullable=False),
        sa.Column("due", sa.BigInteger(), server_default="0", nullable=False),
        sa.Column("changes", sa.BigInteger(), server_default="0", nullable=False),
        sa.Column("worker", sa.String(64), nullable=True),
        sa.Column("until", sa.BigInteger(), nullable=True),
        sa.Column("tries", sa.Integer(), server_default="0", nullable=False),
        sa.Column("fault", sa.String(80), nullable=True),
        sa.PrimaryKeyConstraint("site"),
    )
    op.create_index("watches_by_due", "watches", ["due"])


def _make_alarms() -> None:
    op.create_table(
        "alarms",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("change", sa.BigInteger(), nullable=False),
        sa.Column("night", sa.String(10), nullable=False),
        sa.Column("last_night", sa.String(10), nullable=False),
        sa.Column("finding", sa.String(160), nullable=False),
        sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("gravity", sa.Integer(), nullable=False),
        *(sa.Column(name, sa.String(64), nullable=True) for name in ("supply", "controller", "station")),
        sa.Column("size_lpm", sa.Float(), nullable=False),
        sa.Column("said", sa.Text(), nullable=False),
        sa.Column("spells", sa.Text(), nullable=False),
        sa.Column("culprits", sa.Text(), nullable=False),
        sa.Column("trial", sa.Text(), nullable=False),
        sa.Column("times", sa.Integer(), nullable=False),
        sa.Column("opened_at", sa.BigInteger(), nullable=False),
        sa.Column("ended_at", sa.BigInteger(), nullable=True),
        sa.Column("ended_by", sa.String(80), nullable=True),
        sa.Column("ended_why", sa.Text(), nullable=True),
        sa.Column("explained", sa.String(20), nullable=True),
        sa.Column("explained_by", sa.String(64), nullable=True),
        sa.Column("explained_at", sa.BigInteger(), nullable=True),
        sa.Column("explained_text", sa.Text(), nullable=True),
        sa.PrimaryKeyConstraint("site", "id"),
    )
    op.create_index("alarms_by_change", "alarms", ["site", "change"])
    op.create_index("alarms_by_time", "alarms", ["site", "opened_at"])
    op.create_index("alarms_by_night", "alarms", ["site", "last_night"])


def _make_looks() -> None:
    op.create_table(
        "alarm_looks",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("alarm", sa.String(64), nullable=False),
        sa.Column("person", sa.String(64), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("site", "alarm", "person"),
    )


def _make_learned() -> None:
    op.create_table(
        "learned_flows",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("station", sa.String(64), nullable=False),
        sa.Column("night", sa.String(10), nullable=False),
        sa.Column("flow_lpm", sa.Float(), nullable=False),
        sa.Column("firm", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("site", "station", "night"),
    )
    op.create_table(
        "watched_nights",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("night", sa.String(10), nullable=False),
        sa.Column("heard", sa.Text(), nullable=False),
        sa.Column("metered", sa.Text(), nullable=False),
        sa.Column("watched_at", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("site", "night"),
    )


def _make_orders() -> None:
    op.create_table(
        "orders",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("supply", sa.String(64), nullable=False),
        sa.Column("flow_lpm", sa.Float(), nullable=False),
        sa.Column("limit_lpm", sa.Float(), nullable=False),
        sa.Column("sent_at", sa.BigInteger(), nullable=True),
        sa.Column("lapsed", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("site", "id"),
    )
    op.create_index("orders_by_time", "orders", ["sent_at", "at"])
