"""The site's rule for the rest of an interrupted night."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0016"
down_revision = "0015"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the column."""
    op.add_column("site", sa.Column("catch_up_by_itself", sa.String()))


def downgrade() -> None:
    """Take it away again, with what is in it."""
    op.drop_column("site", "catch_up_by_itself")
