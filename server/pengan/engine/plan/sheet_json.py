"""The night sheet as JSON: what the API serves, a phone stores and golden tests compare to the byte.

A part is an object with its dataclass's field names, a message `{"code", "params"}`; tuples are arrays.
`sheet_schema` describes it (JSON Schema 2020-12); it is served from here too.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import fields
from types import MappingProxyType
from typing import Any, TypeVar

from ..message import Message
from .sheet import SHEET_FORMAT, Bound, ClosedSpan, Draw, NightSheet, Run, Rung, Shortfall
from .sheet_schema import sheet_schema

__all__ = ["dumps", "loads", "sheet_as_json", "sheet_from_json", "sheet_schema"]

Json = dict[str, Any]
P = TypeVar("P", Rung, Run, Shortfall, Draw, Bound, ClosedSpan, NightSheet)


def sheet_as_json(sheet: NightSheet) -> Json:
    """The sheet as JSON's own kinds of value, with its format number."""
    return {
        **_plain(sheet),
        "format": SHEET_FORMAT,
        "runs": [_run_as_json(run) for run in sheet.runs],
        "shortfalls": [{**_plain(part), "why": part.why.as_json()} for part in sheet.shortfalls],
        "draws": [{**_plain(draw), "steps": [list(step) for step in draw.steps]} for draw in sheet.draws],
        "closed": [_plain(span) for span in sheet.closed],
        "bound": None if sheet.bound is None else _bound_as_json(sheet.bound),
        "notices": [notice.as_json() for notice in sheet.notices],
        "order": list(sheet.order),
    }


def sheet_from_json(data: Mapping[str, Any]) -> NightSheet:
    """The sheet again. For data that `sheet_as_json` made; raises ValueError for another format, KeyError for less."""
    if data["format"] != SHEET_FORMAT:
        raise ValueError(f"a sheet of format {data['format']!r}; this is {SHEET_FORMAT}")
    return _made(
        NightSheet,
        data,
        runs=_all(data["runs"], _run),
        shortfalls=_all(data["shortfalls"], lambda part: _made(Shortfall, part, why=_message(part["why"]))),
        draws=_all(data["draws"], lambda draw: _made(Draw, draw, steps=_all(draw["steps"], tuple))),
        closed=_all(data["closed"], lambda span: _made(ClosedSpan, span)),
        bound=None if data["bound"] is None else _bound(data["bound"]),
        notices=_all(data["notices"], _message),
        order=tuple(data["order"]),
    )


def dumps(sheet: NightSheet) -> str:
    """The sheet as text: keys sorted, no spaces, no escapes but those that JSON asks for. Equal sheets, equal bytes."""
    return json.dumps(sheet_as_json(sheet), sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)


def loads(text: str) -> NightSheet:
    """The sheet of such a text."""
    return sheet_from_json(json.loads(text))


def _plain(part: object) -> Json:
    return {name: getattr(part, name) for name in part.__dataclass_fields__}  # type: ignore[attr-defined]


def _run_as_json(run: Run) -> Json:
    return {**_plain(run), "why": run.why.as_json(), "ladder": [_rung_as_json(rung) for rung in run.ladder]}


def _rung_as_json(rung: Rung) -> Json:
    return {"why": rung.why.as_json(), "at": rung.at}


def _bound_as_json(held: Bound) -> Json:
    relief = None if held.relief is None else held.relief.as_json()
    return {"at": held.at, "holder": held.holder.as_json(), "relief": relief}


def _run(data: Json) -> Run:
    ladder = _all(data["ladder"], lambda rung: Rung(_message(rung["why"]), rung["at"]))
    return _made(Run, data, why=_message(data["why"]), ladder=ladder)


def _bound(data: Json) -> Bound:
    relief = None if data["relief"] is None else _message(data["relief"])
    return Bound(data["at"], _message(data["holder"]), relief)


def _message(data: Json) -> Message:
    return Message(data["code"], MappingProxyType(dict(data["params"])))


def _all(items: list[Any], make: Callable[[Any], Any]) -> tuple[Any, ...]:
    return tuple(make(item) for item in items)


def _made(kind: type[P], data: Mapping[str, Any], **parts: Any) -> P:
    given = {item.name: data[item.name] for item in fields(kind) if item.name not in parts}
    return kind(**given, **parts)
