"""Each supply's own limits for alarms, and the flow above which it is shut by itself."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0015"
down_revision = "0014"
branch_labels = None
depends_on = None

_FLOWS = ("watch_least_lpm", "shut_above_lpm")
_WHOLE = ("watch_share_pct", "watch_hold_s", "watch_silent_s", "shut_after_s")


def upgrade() -> None:
    """Make the columns."""
    for name in _FLOWS:
        op.add_column("supplies", sa.Column(name, sa.Float()))
    for name in _WHOLE:
        op.add_column("supplies", sa.Column(name, sa.Integer()))


def downgrade() -> None:
    """Take them away again, with what is in them."""
    for name in (*_FLOWS, *_WHOLE):
        op.drop_column("supplies", name)
