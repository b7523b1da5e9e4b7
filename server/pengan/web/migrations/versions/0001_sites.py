"""Sites: the rows of their documents, and the night sheets worked out.

A record's table is keyed by site and id; relations are checked when a transaction ends, since records of a document
stand in any order.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the first tables."""
    _make_site_copies()
    _make_controllers()
    _make_hydrozones()
    _make_night_sheets()
    _make_programs()
    _make_site()
    _make_supplies()
    _make_stations()
    _make_apart()
    _make_asked()
    _make_closures()
    _make_turns()
    _make_windows()


def downgrade() -> None:
    """Back to nothing."""
    op.drop_table("windows")
    op.drop_table("turns")
    op.drop_table("closures")
    op.drop_table("asked")
    op.drop_table("apart")
    op.drop_table("stations")
    op.drop_table("supplies")
    op.drop_table("site")
    op.drop_table("programs")
    op.drop_table("night_sheets")
    op.drop_table("hydrozones")
    op.drop_table("controllers")
    op.drop_table("site_copies")


def _make_site_copies() -> None:
    op.create_table(
        "site_copies",
        sa.Column("site", sa.String(length=64), nullable=False),
        sa.Column("format", sa.Integer(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("site"),
    )


def _make_controllers() -> None:
    op.create_table(
        "controllers",
        sa.Column("site", sa.String(length=64), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("max_open", sa.Integer(), nullable=True),
        sa.Column("max_current_ma", sa.Integer(), nullable=True),
        sa.Column("valve_gap_s", sa.Integer(), nullable=True),
        sa.Column("notes", sa.String(), nullable=True),
        sa.Column("row_order", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "id"),
    )


def _make_hydrozones() -> None:
    op.create_table(
        "hydrozones",
        sa.Column("site", sa.String(length=64), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("planting", sa.String(), nullable=True),
        sa.Column("soil", sa.String(), nullable=True),
        sa.Column("slope_pct", sa.Float(), nullable=True),
        sa.Column("exposure", sa.String(), nullable=True),
        sa.Column("notes", sa.String(), nullable=True),
        sa.Column("row_order", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "id"),
    )


def _make_night_sheets() -> None:
    op.create_table(
        "night_sheets",
        sa.Column("site", sa.String(length=64), nullable=False),
        sa.Column("night", sa.String(length=10), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("planner", sa.String(length=80), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "night", "revision", "planner"),
    )


def _make_programs() -> None:
    op.create_table(
        "programs",
        sa.Column("site", sa.String(length=64), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("days", sa.String(), nullable=True),
        sa.Column("weekdays", sa.String(), nullable=True),
        sa.Column("every_n_days", sa.Integer(), nullable=True),
        sa.Column("every_from", sa.String(), nullable=True),
        sa.Column("dates", sa.String(), nullable=True),
        sa.Column("season_from", sa.String(), nullable=True),
        sa.Column("season_to", sa.String(), nullable=True),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("letter", sa.String(), nullable=True),
        sa.Column("start", sa.String(), nullable=True),
        sa.Column("finish_by", sa.String(), nullable=True),
        sa.Column("aim", sa.String(), nullable=True),
        sa.Column("rank", sa.Integer(), nullable=True),
        sa.Column("order", sa.String(), nullable=True),
        sa.Column("limit_lpm", sa.Float(), nullable=True),
        sa.Column("max_open", sa.Integer(), nullable=True),
        sa.Column("seasonal_pct", sa.Integer(), nullable=True),
        sa.Column("notes", sa.String(), nullable=True),
        sa.Column("row_order", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "id"),
    )


def _make_site() -> None:
    op.create_table(
        "site",
        sa.Column("site", sa.String(length=64), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("zone", sa.String(), nullable=True),
        sa.Column("zone_rule", sa.String(), nullable=True),
        sa.Column("zone_changes", sa.String(), nullable=True),
        sa.Column("latitude_deg", sa.Float(), nullable=True),
        sa.Column("longitude_deg", sa.Float(), nullable=True),
        sa.Column("elevation_m", sa.Float(), nullable=True),
        sa.Column("seasonal_pct", sa.Integer(), nullable=True),
        sa.Column("aim", sa.String(), nullable=True),
        sa.Column("finish_by", sa.String(), nullable=True),
        sa.Column("notes", sa.String(), nullable=True),
        sa.Column("row_order", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "id"),
    )


def _make_supplies() -> None:
    op.create_table(
        "supplies",
        sa.Column("site", sa.String(length=64), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("fed_by", sa.String(), nullable=True),
        sa.Column("water", sa.String(), nullable=True),
        sa.Column("limit_lpm", sa.Float(), nullable=True),
        sa.Column("steady_lpm", sa.Float(), nullable=True),
        sa.Column("least_lpm", sa.Float(), nullable=True),
        sa.Column("lead_s", sa.Integer(), nullable=True),
        sa.Column("notes", sa.String(), nullable=True),
        sa.Column("row_order", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["site", "fed_by"], ["supplies.site", "supplies.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "id"),
    )


def _make_stations() -> None:
    op.create_table(
        "stations",
        sa.Column("site", sa.String(length=64), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("number", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("part", sa.String(), nullable=True),
        sa.Column("supply", sa.String(), nullable=False),
        sa.Column("controller", sa.String(), nullable=True),
        sa.Column("hydrozone", sa.String(), nullable=True),
        sa.Column("flow_lpm", sa.Float(), nullable=False),
        sa.Column("current_ma", sa.Integer(), nullable=True),
        sa.Column("area_m2", sa.Float(), nullable=True),
        sa.Column("pressure_kpa", sa.Float(), nullable=True),
        sa.Column("heads", sa.String(), nullable=True),
        sa.Column("notes", sa.String(), nullable=True),
        sa.Column("row_order", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["site", "controller"], ["controllers.site", "controllers.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["site", "hydrozone"], ["hydrozones.site", "hydrozones.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["site", "supply"], ["supplies.site", "supplies.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "id"),
    )


def _make_apart() -> None:
    op.create_table(
        "apart",
        sa.Column("site", sa.String(length=64), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("station", sa.String(), nullable=False),
        sa.Column("other", sa.String(), nullable=False),
        sa.Column("reason", sa.String(), nullable=True),
        sa.Column("row_order", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["site", "other"], ["stations.site", "stations.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["site", "station"], ["stations.site", "stations.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "id"),
    )


def _make_asked() -> None:
    op.create_table(
        "asked",
        sa.Column("site", sa.String(length=64), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("night", sa.String(), nullable=False),
        sa.Column("program", sa.String(), nullable=True),
        sa.Column("station", sa.String(), nullable=True),
        sa.Column("run_s", sa.Integer(), nullable=True),
        sa.Column("at", sa.String(), nullable=True),
        sa.Column("by", sa.String(), nullable=True),
        sa.Column("row_order", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["site", "program"], ["programs.site", "programs.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["site", "station"], ["stations.site", "stations.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "id"),
    )


def _make_closures() -> None:
    op.create_table(
        "closures",
        sa.Column("site", sa.String(length=64), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("days", sa.String(), nullable=True),
        sa.Column("weekdays", sa.String(), nullable=True),
        sa.Column("every_n_days", sa.Integer(), nullable=True),
        sa.Column("every_from", sa.String(), nullable=True),
        sa.Column("dates", sa.String(), nullable=True),
        sa.Column("season_from", sa.String(), nullable=True),
        sa.Column("season_to", sa.String(), nullable=True),
        sa.Column("supply", sa.String(), nullable=True),
        sa.Column("controller", sa.String(), nullable=True),
        sa.Column("hydrozone", sa.String(), nullable=True),
        sa.Column("program", sa.String(), nullable=True),
        sa.Column("station", sa.String(), nullable=True),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("cause", sa.String(), nullable=True),
        sa.Column("starts", sa.String(), nullable=True),
        sa.Column("ends", sa.String(), nullable=True),
        sa.Column("starts_on", sa.String(), nullable=True),
        sa.Column("ends_on", sa.String(), nullable=True),
        sa.Column("row_order", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["site", "controller"], ["controllers.site", "controllers.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["site", "hydrozone"], ["hydrozones.site", "hydrozones.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["site", "program"], ["programs.site", "programs.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["site", "station"], ["stations.site", "stations.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["site", "supply"], ["supplies.site", "supplies.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "id"),
    )


def _make_turns() -> None:
    op.create_table(
        "turns",
        sa.Column("site", sa.String(length=64), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("program", sa.String(), nullable=False),
        sa.Column("station", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=True),
        sa.Column("run_s", sa.Integer(), nullable=False),
        sa.Column("cycles", sa.Integer(), nullable=True),
        sa.Column("soak_s", sa.Integer(), nullable=True),
        sa.Column("rank", sa.Integer(), nullable=True),
        sa.Column("row_order", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["site", "program"], ["programs.site", "programs.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["site", "station"], ["stations.site", "stations.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "id"),
    )


def _make_windows() -> None:
    op.create_table(
        "windows",
        sa.Column("site", sa.String(length=64), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("days", sa.String(), nullable=True),
        sa.Column("weekdays", sa.String(), nullable=True),
        sa.Column("every_n_days", sa.Integer(), nullable=True),
        sa.Column("every_from", sa.String(), nullable=True),
        sa.Column("dates", sa.String(), nullable=True),
        sa.Column("season_from", sa.String(), nullable=True),
        sa.Column("season_to", sa.String(), nullable=True),
        sa.Column("supply", sa.String(), nullable=True),
        sa.Column("controller", sa.String(), nullable=True),
        sa.Column("hydrozone", sa.String(), nullable=True),
        sa.Column("program", sa.String(), nullable=True),
        sa.Column("station", sa.String(), nullable=True),
        sa.Column("name", sa.String(), nullable=True),
        sa.Column("opens", sa.String(), nullable=True),
        sa.Column("closes", sa.String(), nullable=True),
        sa.Column("row_order", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["site", "controller"], ["controllers.site", "controllers.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["site", "hydrozone"], ["hydrozones.site", "hydrozones.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["site", "program"], ["programs.site", "programs.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["site", "station"], ["stations.site", "stations.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(
            ["site", "supply"], ["supplies.site", "supplies.id"], initially="DEFERRED", deferrable=True
        ),
        sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("site", "id"),
    )
