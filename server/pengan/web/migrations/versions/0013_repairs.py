"""What wet checks find and becomes work to do, its photos, and where stations lie."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0013"
down_revision = "0012"
branch_labels = None
depends_on = None

_TEXTS = ("found", "state", "owner", "found_on", "found_by", "finding", "photos", "notes")


def upgrade() -> None:
    """Make the tables, and the stations' new columns."""
    for name in ("latitude_deg", "longitude_deg"):
        op.add_column("stations", sa.Column(name, sa.Float()))
    op.create_table(
        "repairs",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("station", sa.String(), nullable=False),
        sa.Column("count", sa.Integer()),
        *(sa.Column(name, sa.String()) for name in _TEXTS),
        sa.Column("row_order", sa.Integer(), nullable=False),
        sa.Column("row_revision", sa.Integer(), nullable=False, server_default="0"),
        sa.Column("row_versions", sa.Text(), nullable=False, server_default="{}"),
        sa.Column("row_removed", sa.Boolean(), nullable=False, server_default=sa.false()),
        sa.PrimaryKeyConstraint("site", "id"),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.ForeignKeyConstraint(
            ["site", "station"], ["stations.site", "stations.id"], deferrable=True, initially="DEFERRED"
        ),
    )
    op.create_index("repairs_by_revision", "repairs", ["site", "row_revision"])
    _make_photos()


def downgrade() -> None:
    """Take them away again, with everything in them."""
    op.drop_table("photos")
    op.drop_index("repairs_by_revision", "repairs")
    op.drop_table("repairs")
    for name in ("longitude_deg", "latitude_deg"):
        op.drop_column("stations", name)


def _make_photos() -> None:
    op.create_table(
        "photos",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("size", sa.Integer(), nullable=False),
        sa.Column("sum", sa.LargeBinary(32), nullable=False),
        sa.Column("by", sa.String(64), nullable=False),
        sa.Column("arrived_at", sa.BigInteger(), nullable=False),
        sa.Column("content", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("site", "id"),
    )
