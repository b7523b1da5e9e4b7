"""What run times are worked out from: weather, normals, soil, audits, droughts and prices, and fields beside them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None

_FIELDS: dict[str, dict[str, str]] = {
    "site": {
        "reference": "text", "near_sea": "text", "rain_counts": "text", "currency": "text",
        "standing_charge": "number", "allowance_pct": "number",
    },
    "hydrozones": {
        "plant_kind": "text", "kc_initial": "number", "kc_middle": "number", "kc_end": "number", "kc_rest": "number",
        "grows_from": "text", "initial_days": "whole", "growth_days": "whole", "middle_days": "whole",
        "late_days": "whole", "species_factor": "number", "density_factor": "number",
        "microclimate_factor": "number", "roots_m": "number", "depletion_pct": "number", "held_mm": "number",
        "intake_mm": "number", "storage_mm": "number", "watering": "text", "trigger_pct": "whole",
        "leave_mm": "number", "least_mm": "number", "most_mm": "number", "priority": "whole",
    },
    "stations": {"evenness_pct": "number"},
    "programs": {
        "seasonal_least_pct": "whole", "seasonal_most_pct": "whole", "seasonal_by_itself_pct": "whole",
    },
    "turns": {"mode": "text"},
}  # fmt: skip
_TABLES: dict[str, dict[str, str]] = {
    "weather": {
        "day": "text!", "kind": "text", "source": "text", "high_degc": "number", "low_degc": "number",
        "dew_degc": "number", "dampest_pct": "number", "driest_pct": "number", "humidity_pct": "number",
        "wind_mps": "number", "wind_height_m": "number", "solar_mj": "number", "sunshine_h": "number",
        "rain_mm": "number", "et_mm": "number",
    },
    "normals": {"month": "whole!", "et_mm": "number!", "rain_mm": "number", "source": "text"},
    "soil_water": {"hydrozone": "hydrozones!", "day": "text!", "depletion_mm": "number!", "how": "text"},
    "audits": {
        "name": "text!", "station": "stations!", "day": "text!", "run_s": "whole!", "caught_in": "text",
        "opening_cm2": "number", "spacing_m": "number", "notes": "text",
    },
    "cans": {"audit": "audits!", "column": "whole!", "row": "whole!", "catch": "number"},
    "droughts": {"starts": "text!", "ends": "text", "priority": "whole!", "share_pct": "number!"},
    "tiers": {"up_to_l": "number", "price": "number!"},
}  # fmt: skip
_TYPES: dict[str, type[sa.types.TypeEngine[Any]]] = {"whole": sa.Integer, "number": sa.Float}
"""All else is text; a word that is no type names the table that is referred to. `!`: never empty."""


def upgrade() -> None:
    """Add the fields and the tables."""
    for table, fields in _FIELDS.items():
        for name, kind in fields.items():
            op.add_column(table, _column(name, kind))
    for table, fields in _TABLES.items():
        op.create_table(table, *_columns(fields), *_keys(fields))
        op.create_index(f"{table}_by_revision", table, ["site", "row_revision"])


def downgrade() -> None:
    """Take them away again, with everything in them."""
    for table in reversed(_TABLES):
        op.drop_index(f"{table}_by_revision", table)
        op.drop_table(table)
    for table, fields in _FIELDS.items():
        for name in reversed(fields):
            op.drop_column(table, name)


def _column(name: str, kind: str) -> sa.Column[object]:
    return sa.Column(name, _TYPES.get(kind.rstrip("!"), sa.String)(), nullable=not kind.endswith("!"))


def _columns(fields: dict[str, str]) -> Iterable[sa.Column[object]]:
    yield sa.Column("site", sa.String(64), nullable=False)
    yield sa.Column("id", sa.String(), nullable=False)
    yield from (_column(name, kind) for name, kind in fields.items())
    yield sa.Column("row_order", sa.Integer(), nullable=False)
    yield sa.Column("row_revision", sa.Integer(), nullable=False, server_default="0")
    yield sa.Column("row_versions", sa.Text(), nullable=False, server_default="{}")
    yield sa.Column("row_removed", sa.Boolean(), nullable=False, server_default=sa.false())


def _keys(fields: dict[str, str]) -> Iterable[sa.Constraint]:
    yield sa.PrimaryKeyConstraint("site", "id")
    yield sa.ForeignKeyConstraint(["site"], ["site_copies.site"], ondelete="CASCADE")
    for name, kind in fields.items():
        target = kind.rstrip("!")
        if target not in ("text", *_TYPES):
            yield sa.ForeignKeyConstraint(
                ["site", name], [f"{target}.site", f"{target}.id"], deferrable=True, initially="DEFERRED"
            )
