"""The document's fields as data, for whoever cannot import the tables: a form on a phone follows the same limits."""

from __future__ import annotations

from dataclasses import Field, fields
from typing import Any

from .fields import kind_of
from .groups import GROUPS
from .record import Record
from .tables import FORMAT, TABLES
from .written import CLOCK, DATE, MOMENT, MONTH_DAY

PATTERNS = {"clock": CLOCK, "date": DATE, "month_day": MONTH_DAY, "moment": MOMENT}


def description() -> dict[str, Any]:
    """`{"format", "patterns", "tables": {table: {"groups": {group: [field]}, "fields": {field: {…}}}}}`.

    Tables and fields stand in their order. `patterns` say how a kind is written, to match as a whole.
    """
    tables = {table.table: _table(table) for table in TABLES}
    return {"format": FORMAT, "patterns": PATTERNS, "tables": tables}


def _table(table: type[Record]) -> dict[str, Any]:
    groups = {group: list(names) for group, names in GROUPS[table.table].items()}
    described = {item.name: _field(item) for item in fields(table) if item.name != "id"}
    return {"groups": groups, "fields": described}


def _field(item: Field[Any]) -> dict[str, Any]:
    """Only what holds for the field: no limit, no unit, no default where there is none."""
    kind = kind_of(item)
    default = None if kind.required else item.default
    said = {
        "kind": kind.name,
        "required": kind.required or None,
        "unit": kind.unit,
        "least": kind.least,
        "most": kind.most,
        "choices": list(kind.choices) or None,
        "table": kind.table,
        "default": default,
    }
    return {name: value for name, value in said.items() if value is not None and value != ""}
