"""The JSON Schema (draft 2020-12) of what may be told to the journal, for whoever builds a controller or a gateway.

It says what can be said without the site's document; which stations, supplies and controllers there are, the document
says. The same shape is sent over MQTT and over HTTP; over HTTP the token is in the header.
"""

from __future__ import annotations

from typing import Any

from ..document.fields import Kind as FieldKind
from ..document.schema import DIALECT
from ..document.written import ID, TEXT
from .entry import Kind
from .fields import ALLOWED, ENTRY_ID, FIELDS, MOST_ENTRIES, NEEDED, PLACES, VALUES
from .reading import EARLIEST

Schema = dict[str, Any]
_ALWAYS = ("id", "at", "kind")
TOPICS = "pengan/1"
"""What every topic begins with; its number rises with a change that an older reporter would misread."""

_OWN: dict[str, Schema] = {
    "id": {
        "type": "string",
        "pattern": f"^{ENTRY_ID}$",
        "description": "Made by whoever tells it, and never used for another entry: a UUID does. Told twice is once.",
    },
    "at": {
        "description": "When it happened: an instant with its offset (RFC 3339), or whole seconds since 1970.",
        "oneOf": [
            {"type": "string", "format": "date-time"},
            {"type": "integer", "minimum": EARLIEST},
        ],
    },
    "kind": {"enum": [kind.value for kind in Kind], "description": "What happened."},
    "alarm": {"type": "string", "pattern": f"^{ENTRY_ID}$", "description": "The alarm it is about."},
}


def topic_of(reporter: str) -> str:
    """Where a reporter's entries are published."""
    return f"{TOPICS}/{reporter}/entries"


def answers_topic_of(reporter: str) -> str:
    """Where it is told what became of them."""
    return f"{TOPICS}/{reporter}/answers"


def entries_schema() -> Schema:
    """The schema of a message with entries."""
    return {
        "$schema": DIALECT,
        "title": "Entries for a site's journal",
        "description": f"One message on the topic {topic_of('REPORTER')}, QoS 1, or one request.",
        "type": "object",
        "properties": {
            "token": {"type": "string", "description": "The reporter's, over MQTT; over HTTP it is in the header."},
            "entries": {"type": "array", "maxItems": MOST_ENTRIES, "items": entry_schema()},
        },
        "required": ["entries"],
        "additionalProperties": False,
    }


def entry_schema() -> Schema:
    """The schema of one entry."""
    return {
        "type": "object",
        "properties": {name: _field(name) if name in _ALWAYS else _or_null(_field(name)) for name in FIELDS},
        "required": list(_ALWAYS),
        "additionalProperties": False,
        "allOf": [_only_for(kind) for kind in Kind],
    }


def _only_for(kind: Kind) -> Schema:
    """What an entry of a kind has to have, and may not have."""
    never = [name for name in (*PLACES, "alarm", *VALUES) if name not in ALLOWED[kind]]
    then: Schema = {"properties": {name: {"type": "null"} for name in never}}
    if NEEDED[kind]:
        then["required"] = list(NEEDED[kind])
        then["properties"] |= {name: {"not": {"enum": [None, ""]}} for name in NEEDED[kind]}
    return {"if": {"properties": {"kind": {"const": kind.value}}, "required": ["kind"]}, "then": then}


def _or_null(field: Schema) -> Schema:
    """Null is as if it were not there; where it is needed, the rule of the kind says so."""
    described = {key: value for key, value in field.items() if key == "description"}
    return {**described, "anyOf": [{k: v for k, v in field.items() if k != "description"}, {"type": "null"}]}


def _field(name: str) -> Schema:
    if name in _OWN:
        return _OWN[name]
    if name in PLACES:
        return {"type": "string", "pattern": f"^{ID}$", "maxLength": 64, "description": f"An id of {PLACES[name]}."}
    return {"description": VALUES[name].about, **_value(VALUES[name])}


def _value(kind: FieldKind) -> Schema:
    if kind.name in ("whole", "number"):
        word = "integer" if kind.name == "whole" else "number"
        return {"type": word, "minimum": kind.least, "maximum": kind.most}
    if kind.name == "choice":
        return {"enum": [str(choice) for choice in kind.choices]}
    return {"type": "string", "maxLength": int(kind.most or 0), "pattern": f"^{TEXT}$"}
