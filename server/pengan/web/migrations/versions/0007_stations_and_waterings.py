"""Weather stations, the hours they send, and what each night brought."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None

_READINGS = (
    "mean_degc", "high_degc", "low_degc", "humidity_pct", "wind_mps", "wind_height_m", "solar_mj", "sunshine_h",
    "rain_mm",
)  # fmt: skip
_DEPTHS = ("applied_mm", "ran_off_mm", "uneven_mm", "depletion_mm")


def upgrade() -> None:
    """Make the tables."""
    _make_stations()
    op.create_table(
        "weather_hours",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("station", sa.String(64), nullable=False),
        sa.Column("starts", sa.BigInteger(), nullable=False),
        *(sa.Column(name, sa.Float(), nullable=True) for name in _READINGS),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "station", "starts"),
    )
    op.create_table(
        "night_waterings",
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("hydrozone", sa.String(64), nullable=False),
        sa.Column("night", sa.String(10), nullable=False),
        sa.Column("volume_l", sa.Float(), nullable=False),
        *(sa.Column(name, sa.Float(), nullable=True) for name in _DEPTHS),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "hydrozone", "night"),
    )


def downgrade() -> None:
    """Take them away again, with everything in them."""
    op.drop_table("night_waterings")
    op.drop_table("weather_hours")
    op.drop_index("weather_stations_by_id", "weather_stations")
    op.drop_index("weather_stations_by_site", "weather_stations")
    op.drop_table("weather_stations")


def _make_stations() -> None:
    op.create_table(
        "weather_stations",
        sa.Column("team", sa.String(64), nullable=False),
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("site", sa.String(64), nullable=False),
        sa.Column("name", sa.String(80), nullable=False),
        sa.Column("token_hash", sa.String(64), nullable=False),
        sa.Column("made_by", sa.String(64), nullable=False),
        sa.Column("made_at", sa.BigInteger(), nullable=False),
        sa.Column("heard_at", sa.BigInteger(), nullable=True),
        sa.Column("ended_at", sa.BigInteger(), nullable=True),
        sa.Column("ended_by", sa.String(64), nullable=True),
        sa.ForeignKeyConstraint(["team"], ["teams.id"]),
        sa.PrimaryKeyConstraint("team", "id"),
    )
    op.create_index("weather_stations_by_site", "weather_stations", ["site"])
    op.create_index("weather_stations_by_id", "weather_stations", ["id"], unique=True)
