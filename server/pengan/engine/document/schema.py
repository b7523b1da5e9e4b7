"""The document's JSON Schema (draft 2020-12), made from the same field kinds the reader follows.

It says what can be said of one record alone. What holds between records (ids that exist, no loops, one
clock) only the reader knows: a document that fits the schema may still have faults.
"""

from __future__ import annotations

from dataclasses import MISSING, Field, fields
from inspect import getdoc
from typing import Any

from .fields import Kind, kind_of
from .record import Record
from .tables import FORMAT, TABLES
from .written import CLOCK, DATE, DATES, ID, MOMENT, MONTH_DAY, TEXT, WEEKDAYS

Schema = dict[str, Any]

DIALECT = "https://json-schema.org/draft/2020-12/schema"
_PATTERNS = {"id": ID, "ref": ID, "clock": CLOCK, "date": DATE, "month_day": MONTH_DAY, "moment": MOMENT}
_LISTS = {"weekdays": f"(?:{WEEKDAYS})?", "dates": f"(?:{DATES})?"}


def document_schema() -> Schema:
    """The schema of a whole document, one definition a table."""
    return {
        "$schema": DIALECT,
        "title": "A site's document",
        "type": "object",
        "properties": {
            "format": {"const": FORMAT, "description": "The version of this file format."},
            "records": {
                "type": "array",
                "description": "All records, in any order.",
                "items": {
                    "type": "object",
                    "properties": {"table": {"enum": [table.table for table in TABLES]}},
                    "required": ["table"],
                    "allOf": [_only_for(table) for table in TABLES],
                },
            },
        },
        "required": ["format", "records"],
        "additionalProperties": False,
        "$defs": {table.table: _table(table) for table in TABLES},
    }


def _only_for(table: type[Record]) -> Schema:
    """A record is held to the definition of the table it names, so that a validator's complaints are about that one."""
    return {
        "if": {"properties": {"table": {"const": table.table}}, "required": ["table"]},
        "then": {"$ref": f"#/$defs/{table.table}"},
    }


def _table(table: type[Record]) -> Schema:
    items = fields(table)
    return {
        "description": (getdoc(table) or "").split("\n")[0],
        "type": "object",
        "properties": {
            "table": {"const": table.table, "description": "The table the record belongs to."},
            **{item.name: _field(item) for item in items},
        },
        "required": ["table", *(item.name for item in items if kind_of(item).required)],
        "additionalProperties": False,
    }


def _field(item: Field[Any]) -> Schema:
    kind = kind_of(item)
    value = _value(kind, item.name)
    if not kind.required:
        value = {"anyOf": [value, {"type": "null"}]}
    described: Schema = {"description": kind.about, **value}
    if item.default not in (MISSING, None):
        described["default"] = item.default
    return described


def _value(kind: Kind, name: str) -> Schema:
    if kind.name in ("whole", "number"):
        word = "integer" if kind.name == "whole" else "number"
        return {"type": word, "minimum": kind.least, "maximum": kind.most}
    if kind.name == "choice":
        return {"enum": list(kind.choices)}
    if kind.name == "text":
        return _text(kind, name)
    value: Schema = {"type": "string", "pattern": f"^{_PATTERNS[kind.name]}$"}
    if kind.name == "date":
        value["format"] = "date"
    if kind.most is not None:
        value["maxLength"] = int(kind.most)
    return value


def _text(kind: Kind, name: str) -> Schema:
    pattern = _LISTS.get(name, TEXT)
    if kind.required:
        pattern = rf"(?=[\s\S]*\S){pattern}"
    return {"type": "string", "maxLength": int(kind.most or 0), "pattern": f"^{pattern}$"}
