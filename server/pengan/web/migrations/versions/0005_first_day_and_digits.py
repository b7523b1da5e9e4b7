"""A person's week begins where they want it to, and numbers have the signs they read."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Both are left open: as the language has it."""
    op.add_column("people", sa.Column("first_day", sa.String(3)))
    op.add_column("people", sa.Column("digits", sa.String(8)))


def downgrade() -> None:
    """Without either."""
    op.drop_column("people", "digits")
    op.drop_column("people", "first_day")
