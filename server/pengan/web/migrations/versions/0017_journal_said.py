"""What the server says in the journal, for each reader in their language; and what a person says that an alarm was."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0017"
down_revision = "0016"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the columns. Entries of before have neither: their text stands, and an explanation is of no sort."""
    op.add_column("journal_entries", sa.Column("explained", sa.String(20)))
    op.add_column("journal_entries", sa.Column("said", sa.Text()))


def downgrade() -> None:
    """Take them away again, with what is in them."""
    for name in ("said", "explained"):
        op.drop_column("journal_entries", name)
