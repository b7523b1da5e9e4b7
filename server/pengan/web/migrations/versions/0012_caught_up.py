"""The rests of nights that people accepted."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0012"
down_revision = "0011"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table."""
    op.create_table(
        "caught_up",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("night", sa.String(10), nullable=False),
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("way", sa.String(10), nullable=False),
        sa.Column("effort", sa.Integer(), nullable=False),
        sa.Column("promised", sa.Text(), nullable=False),
        sa.Column("by", sa.String(80), nullable=False),
        sa.Column("arrived_at", sa.BigInteger(), nullable=False),
        sa.Column("worked_out", sa.Boolean(), nullable=False),
        sa.Column("effect", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "night", "id"),
    )


def downgrade() -> None:
    """Take it away again, with everything in it."""
    op.drop_table("caught_up")
