"""People: teams and their sites, people and their roles, devices, invitations, and attempts that are counted."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables of people."""
    _make_teams()
    _make_people()
    _make_grants()
    _make_devices()
    _make_invitations()
    op.create_table(
        "attempts", _id("subject"), _instant("window"), sa.Column("count", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("subject", "window"),
    )  # fmt: skip


def downgrade() -> None:
    """Without people."""
    for table in ("attempts", "invitations", "devices", "grants", "people", "team_sites", "teams"):
        op.drop_table(table)


def _id(name: str, needed: bool = True) -> sa.Column[str]:
    return sa.Column(name, sa.String(64), nullable=not needed)


def _instant(name: str, needed: bool = True) -> sa.Column[int]:
    return sa.Column(name, sa.BigInteger(), nullable=not needed)


def _of_team() -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint(["team"], ["teams.id"])


def _of_person() -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint(["team", "person"], ["people.team", "people.id"])


def _make_teams() -> None:
    op.create_table(
        "teams", _id("id"), sa.Column("name", sa.String(200), nullable=False), sa.PrimaryKeyConstraint("id")
    )
    op.create_table(
        "team_sites",
        _id("site"),
        _id("team"),
        sa.Column("open_to_read", sa.Boolean(), nullable=False),
        _of_team(),
        sa.PrimaryKeyConstraint("site"),
    )


def _make_people() -> None:
    op.create_table(
        "people",
        _id("team"),
        _id("id"),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("language", sa.String(35), nullable=False),
        sa.Column("units", sa.String(200), nullable=False),
        sa.Column("hour_cycle", sa.String(2)),
        sa.Column("sign_in_name", sa.String(80)),
        sa.Column("password_hash", sa.String(200)),
        _instant("joined_at"),
        _instant("removed_at", needed=False),
        _of_team(),
        sa.PrimaryKeyConstraint("team", "id"),
    )
    op.create_index("people_by_id", "people", ["id"], unique=True)
    op.create_index("people_by_sign_in_name", "people", ["sign_in_name"], unique=True)


def _make_grants() -> None:
    op.create_table(
        "grants",
        _id("site"),
        _id("person"),
        _id("team"),
        sa.Column("role", sa.String(10)),
        sa.Column("scope", sa.Integer(), nullable=False),
        _of_person(),
        sa.PrimaryKeyConstraint("site", "person"),
    )
    op.create_index("grants_by_person", "grants", ["team", "person"])


def _make_devices() -> None:
    op.create_table(
        "devices",
        _id("team"),
        _id("id"),
        _id("person"),
        sa.Column("name", sa.String(200), nullable=False),
        _id("token_hash"),
        _instant("enrolled_at"),
        _instant("seen_at"),
        _instant("ended_at", needed=False),
        _id("ended_by", needed=False),
        _of_person(),
        sa.PrimaryKeyConstraint("team", "id"),
    )
    op.create_index("devices_by_person", "devices", ["team", "person"])


def _make_invitations() -> None:
    op.create_table(
        "invitations",
        _id("team"),
        _id("id"),
        _id("code_hash"),
        _id("site", needed=False),
        sa.Column("role", sa.String(10)),
        _id("person", needed=False),
        sa.Column("name", sa.String(200)),
        _id("made_by", needed=False),
        _instant("made_at"),
        _instant("expires_at"),
        _instant("used_at", needed=False),
        _id("used_by", needed=False),
        _instant("withdrawn_at", needed=False),
        _of_team(),
        sa.PrimaryKeyConstraint("team", "id"),
    )
    op.create_index("invitations_by_code", "invitations", ["code_hash"], unique=True)
