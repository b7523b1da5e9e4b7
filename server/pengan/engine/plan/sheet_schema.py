"""The JSON Schema (2020-12) of a night sheet, read off the sheet's own dataclasses."""

from __future__ import annotations

from dataclasses import fields
from types import NoneType, UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

from ..message import Message
from .sheet import SHEET_FORMAT, Bound, ClosedSpan, Draw, NightSheet, Run, Rung, Shortfall

Json = dict[str, Any]
CLOSED = {"additionalProperties": False}

PARTS = (Rung, Run, Shortfall, Draw, Bound, ClosedSpan)
LOCAL = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}[+-][0-9]{2}:[0-9]{2}(:[0-9]{2})?$"
PATTERNS = {"start_local": LOCAL, "end_local": LOCAL, "starts_local": LOCAL, "ends_local": LOCAL}
PATTERNS["night"] = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"

DESCRIPTIONS = {
    "site": "Id of the site.",
    "night": "The calendar date on which the night begins, at local noon.",
    "starts": "The night's first instant, in whole seconds since 1970-01-01T00:00Z.",
    "ends": "The next night's first instant.",
    "starts_local": "The night's start on the site's clock, with its offset.",
    "ends_local": "The night's end on the site's clock, with its offset.",
    "zone": "Name of the site's clock: an IANA zone, or a rule of its own as text.",
    "zone_data": "Release of the zone data; empty for a rule of the site's own.",
    "engine": "Version of the engine that worked the sheet out.",
    "format": "Number of this format.",
    "runs": "Every run, by start.",
    "shortfalls": "Water that did not fit, and why.",
    "draws": "Each supply's draw over the night.",
    "closed": "Spans in which a closure, or the lack of an open window, forbids water.",
    "finish": "The instant at which the last run ends; null if nothing runs.",
    "bound": "How early the night could possibly end; null if nothing is due.",
    "notices": "What a person should know of this night.",
    "volume_due_l": "Litres due tonight: what is planned and what falls short, together.",
    "volume_l": "Litres planned, or drawn.",
    "moved_pct": "Share of the runs that moved by more than ten minutes against the sheet before; null without one.",
    "order": "The order that won: given back, a small edit is planned from it.",
    "constructions": "Constructions spent on it.",
    "turn": "Id of the turn or of the asked-for run; both, with / between, where a whole program was asked for.",
    "station": "Id of the station.",
    "program": "Id of the program; null for a single station asked for.",
    "supply": "Id of the supply; of a closed span, null for the whole site.",
    "controller": "Id of the controller; null without one.",
    "cycle": "Which cycle of the turn, from 1.",
    "cycles": "The turn's cycles tonight; of a shortfall, those left out.",
    "start": "First instant.",
    "end": "First instant after it.",
    "start_local": "The start on the site's clock, with its offset.",
    "end_local": "The end on the site's clock, with its offset.",
    "flow_lpm": "Flow in litres per minute.",
    "why": "What it waited for, or why it did not fit.",
    "ladder": "The limits it waited for, in order of time; the last decides.",
    "at": "The instant from which this holds.",
    "run_s": "Time left out, in seconds.",
    "steps": "From each instant on, so many litres per minute, until the next. Ends with 0.",
    "peak_lpm": "The most that it gives, in litres per minute.",
    "holder": "The limit that holds the night's end.",
    "relief": "What a little more of that limit would bring; null if nothing.",
    "closure": "Id of the closure; null where no window is open.",
    "whole": "False where only some stations of the supply are meant.",
}


def sheet_schema() -> Json:
    """The schema that every sheet of this format fulfils."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Night sheet",
        **_object(NightSheet, {"format": {"const": SHEET_FORMAT, "description": DESCRIPTIONS["format"]}}),
        "$defs": {**{part.__name__: _object(part) for part in PARTS}, "Message": _message()},
    }


def _object(part: type, more: Json | None = None) -> Json:
    hints = get_type_hints(part)
    properties = {item.name: _property(item.name, hints[item.name]) for item in fields(part)} | (more or {})
    described = {"description": " ".join((part.__doc__ or "").split())}
    return {**described, "type": "object", "properties": properties, "required": sorted(properties), **CLOSED}


def _property(name: str, hint: Any) -> Json:
    pattern = {"pattern": PATTERNS[name]} if name in PATTERNS else {}
    return {"description": DESCRIPTIONS[name], **_kind(hint), **pattern}


def _kind(hint: Any) -> Json:
    """A type hint as a schema: the few shapes that a sheet is made of."""
    if get_origin(hint) in (Union, UnionType):
        return {"anyOf": [_kind(part) for part in get_args(hint)]}
    if get_origin(hint) is tuple:
        return _array(get_args(hint))
    if hint in PARTS or hint is Message:
        return {"$ref": f"#/$defs/{hint.__name__}"}
    return {"type": {str: "string", bool: "boolean", int: "integer", float: "number", NoneType: "null"}[hint]}


def _array(parts: tuple[Any, ...]) -> Json:
    if parts[-1] is Ellipsis:
        return {"type": "array", "items": _kind(parts[0])}
    kinds = [_kind(part) for part in parts]
    return {"type": "array", "prefixItems": kinds, "minItems": len(kinds), "maxItems": len(kinds)}


def _message() -> Json:
    value = {"type": ["string", "number", "null"]}
    return {
        "description": "One thing said: the code of a sentence and the values for its placeholders.",
        "type": "object",
        "properties": {"code": {"type": "string"}, "params": {"type": "object", "additionalProperties": value}},
        "required": ["code", "params"],
        **CLOSED,
    }
