"""When each site's forecast is asked for next."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table."""
    op.create_table(
        "weather_fetches",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("service", sa.String(40), nullable=False),
        sa.Column("due", sa.BigInteger(), server_default="0", nullable=False),
        sa.Column("modified", sa.String(80), nullable=True),
        sa.Column("tries", sa.Integer(), server_default="0", nullable=False),
        sa.Column("fault", sa.String(80), nullable=True),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site"),
    )
    op.create_index("weather_fetches_by_due", "weather_fetches", ["due"])


def downgrade() -> None:
    """Take it away again; the forecasts themselves stay in the document."""
    op.drop_index("weather_fetches_by_due", "weather_fetches")
    op.drop_table("weather_fetches")
