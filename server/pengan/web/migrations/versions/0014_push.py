"""Push: which devices are told of alarms, how people want it, and what waits to be told."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0014"
down_revision = "0013"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "push_subscriptions",
        *(sa.Column(name, sa.String(64), nullable=False) for name in ("team", "device", "person")),
        sa.Column("endpoint", sa.Text(), nullable=False),
        sa.Column("p256dh", sa.String(100), nullable=False),
        sa.Column("auth", sa.String(40), nullable=False),
        sa.Column("made_at", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("team", "device"),
    )
    op.create_index("push_by_person", "push_subscriptions", ["team", "person"])
    op.create_table(
        "push_wishes",
        *(sa.Column(name, sa.String(64), nullable=False) for name in ("team", "person")),
        sa.Column("least", sa.Integer(), nullable=False),
        *(sa.Column(name, sa.String(5), nullable=True) for name in ("quiet_from", "quiet_to")),
        sa.Column("quiet_but", sa.Integer(), nullable=True),
        sa.PrimaryKeyConstraint("team", "person"),
    )
    _make_messages()


def _make_messages() -> None:
    op.create_table(
        "push_messages",
        *(sa.Column(name, sa.String(64), nullable=False) for name in ("site", "alarm", "device", "team", "person")),
        sa.Column("due", sa.BigInteger(), nullable=False),
        sa.Column("waited", sa.Boolean(), nullable=False),
        sa.Column("tries", sa.Integer(), nullable=False),
        sa.Column("worker", sa.String(64), nullable=True),
        sa.Column("until", sa.BigInteger(), nullable=True),
        sa.PrimaryKeyConstraint("site", "alarm", "device"),
    )
    op.create_index("push_messages_by_due", "push_messages", ["due"])


def downgrade() -> None:
    """Take them away again: devices have to be asked anew."""
    for table in ("push_messages", "push_wishes", "push_subscriptions"):
        op.drop_table(table)
