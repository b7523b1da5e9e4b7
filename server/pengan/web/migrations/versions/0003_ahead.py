"""Nights ahead: the queue of sites to plan, notices, and night sheets that say for which revisions they hold.

Stored sheets are worked out anew rather than carried over: they are no more than what the planner makes of a document.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the new tables, and the sheets' table anew."""
    op.drop_table("night_sheets")
    _make_sheets()
    _make_jobs()
    _make_notices()


def downgrade() -> None:
    """Back to sheets that hold for one revision."""
    op.drop_table("night_notices")
    op.drop_table("planning_jobs")
    op.drop_table("night_sheets")
    op.create_table("night_sheets", *_sheet_key(), sa.Column("body", sa.Text(), nullable=False), *_sheet_constraints())


def _sheet_key() -> tuple[sa.Column[object], ...]:
    return (
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("night", sa.String(10), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("planner", sa.String(80), nullable=False),
    )


def _sheet_constraints() -> tuple[sa.schema.Constraint, ...]:
    return (
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "night", "revision", "planner"),
    )


def _make_sheets() -> None:
    op.create_table(
        "night_sheets",
        *_sheet_key(),
        sa.Column("good_for", sa.Integer(), nullable=False),
        sa.Column("inputs", sa.String(64), nullable=False),
        sa.Column("constructions", sa.Integer(), nullable=False),
        sa.Column("number", sa.BigInteger(), nullable=True),
        sa.Column("packed", sa.LargeBinary(), nullable=False),
        *_sheet_constraints(),
    )
    op.create_index("night_sheets_by_number", "night_sheets", ["site", "number"])


def _make_jobs() -> None:
    op.create_table(
        "planning_jobs",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("wanted", sa.Integer(), nullable=False),
        sa.Column("planned", sa.Integer(), nullable=False, server_default="0"),
        sa.Column("planner", sa.String(80), nullable=False, server_default=""),
        sa.Column("tonight", sa.String(10), nullable=False, server_default=""),
        sa.Column("due", sa.BigInteger(), nullable=False, server_default="0"),
        sa.Column("stage", sa.Integer(), nullable=False, server_default="0"),
        sa.Column("worker", sa.String(64), nullable=True),
        sa.Column("until", sa.BigInteger(), nullable=True),
        sa.Column("numbered", sa.BigInteger(), nullable=False, server_default="0"),
        sa.Column("tries", sa.Integer(), nullable=False, server_default="0"),
        sa.Column("fault", sa.String(80), nullable=True),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site"),
    )
    op.create_index("planning_jobs_by_due", "planning_jobs", ["stage", "due"])


def _make_notices() -> None:
    op.create_table(
        "night_notices",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("night", sa.String(10), nullable=False),
        sa.Column("code", sa.String(60), nullable=False),
        sa.Column("subject", sa.BigInteger(), nullable=False),
        sa.Column("params", sa.Text(), nullable=False),
        sa.Column("people", sa.Text(), nullable=False),
        sa.Column("made_at", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "night", "code", "subject"),
    )
