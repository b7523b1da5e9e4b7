"""Field groups: fields whose values are only valid together, so that they change together. All others stand alone."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields

from .record import Record
from .tables import TABLES

_TOGETHER: Mapping[str, Mapping[str, tuple[str, ...]]] = {
    "turns": {"run": ("run_s", "cycles", "soak_s")},
    "site": {"clock": ("zone", "zone_rule", "zone_changes")},
    "windows": {"hours": ("opens", "closes")},
    "closures": {"span": ("starts", "ends", "starts_on", "ends_on")},
}
_DAYS = ("days", "weekdays", "every_n_days", "every_from", "dates", "season_from", "season_to")


def _groups_of(table: type[Record]) -> dict[str, tuple[str, ...]]:
    names = [item.name for item in fields(table) if item.name != "id"]
    together = dict(_TOGETHER.get(table.table, {}))
    if "days" in names:
        together["days"] = _DAYS
    grouped = {name for group in together.values() for name in group}
    return together | {name: (name,) for name in names if name not in grouped}


GROUPS: Mapping[str, Mapping[str, tuple[str, ...]]] = {table.table: _groups_of(table) for table in TABLES}
"""Table → group → its fields. A field that stands alone is a group under its own name."""
