"""What nights that are over used, their meters, and where a meter's counter begins again."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0011"
down_revision = "0010"
branch_labels = None
depends_on = None

_AMOUNTS = (
    "planned_ml", "delivered_ml", "assumed_ml", "beyond_ml", "power_ml", "shut_ml", "stopped_ml", "not_opened_ml",
    "opened_late_ml", "closed_early_ml", "low_flow_ml",
)  # fmt: skip


def upgrade() -> None:
    """Make the tables, and the supplies' new column."""
    op.add_column("supplies", sa.Column("counter_l", sa.Float()))
    op.create_table(
        "used_heads",
        _id("site"),
        sa.Column("newest", sa.BigInteger(), server_default="0", nullable=False),
        sa.Column("until", sa.BigInteger(), server_default="0", nullable=False),
        sa.PrimaryKeyConstraint("site"),
    )
    op.create_table(
        "used_nights",
        _id("site"),
        _day(),
        *(sa.Column(name, sa.Boolean(), nullable=False) for name in ("told", "stale")),
        sa.Column("said", sa.Text(), nullable=False),
        _amount("reckoned_at"),
        sa.PrimaryKeyConstraint("site", "night"),
    )
    op.create_table(
        "used_water",
        _id("site"),
        _day(),
        *(_id(name) for name in ("supply", "program", "hydrozone")),
        *(_amount(name) for name in _AMOUNTS),
        sa.PrimaryKeyConstraint("site", "night", "supply", "program", "hydrozone"),
    )
    _make_meters()


def downgrade() -> None:
    """Take them away again, with everything in them."""
    for table in ("used_meters", "used_water", "used_nights", "used_heads"):
        op.drop_table(table)
    op.drop_column("supplies", "counter_l")


def _make_meters() -> None:
    op.create_table(
        "used_meters",
        _id("site"),
        _day(),
        _id("supply"),
        *(_amount(name) for name in ("first_at", "first_ml")),
        sa.Column("first_is_new", sa.Boolean(), nullable=False),
        *(_amount(name) for name in ("last_at", "last_ml", "counted_ml", "came_ml", "before_ml", "after_ml")),
        sa.Column("ends_ml", sa.BigInteger(), nullable=True),
        sa.Column("said", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("site", "night", "supply"),
    )


def _id(name: str) -> sa.Column[str]:
    return sa.Column(name, sa.String(64), nullable=False)


def _day() -> sa.Column[str]:
    return sa.Column("night", sa.String(10), nullable=False)


def _amount(name: str) -> sa.Column[int]:
    return sa.Column(name, sa.BigInteger(), nullable=False)
