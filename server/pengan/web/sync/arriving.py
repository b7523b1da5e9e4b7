"""An edit on its way in: as it was sent, and as it is understood today."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True, slots=True)
class Arriving:
    """One edit. `undoes` is set by the server alone; `sent` where an upgrader changed what the phone had sent."""

    id: str
    kind: str
    table: str
    record: str
    field: str | None = None
    seen: object = None
    was: object = None
    now: object = None
    format: int = 1
    phone_time: str | None = None
    settles: str | None = None
    undoes: str | None = None
    sent: str | None = None

    @property
    def key(self) -> tuple[str, str]:
        """The record's table and id."""
        return self.table, self.record


@dataclass(frozen=True, slots=True)
class ArrivingSet:
    """Edits that stand or fall together. `cursor` is how much of the site the phone knew when they were made."""

    id: str
    site: str
    edits: list[Arriving] = field(default_factory=list)
    cursor: int | None = None


def arriving_set(sent: Mapping[str, Any]) -> ArrivingSet:
    """A set as its schema read it."""
    return ArrivingSet(sent["id"], sent["site"], [_arriving(edit) for edit in sent["edits"]], sent.get("cursor"))


def _arriving(sent: Mapping[str, Any]) -> Arriving:
    return Arriving(
        id=sent["id"],
        kind=sent["kind"],
        table=storable(sent.get("table")) or "",
        record=storable(sent.get("record")) or "",
        field=storable(sent.get("field")),
        seen=finite(sent.get("seen")),
        was=finite(sent.get("was")),
        now=finite(sent.get("now")),
        format=sent["format"],
        phone_time=storable(sent.get("phone_time")),
        settles=sent.get("settles"),
    )


def storable(text: str | None) -> str | None:
    """A text that any database takes: without the null mark and lone halves of surrogate pairs."""
    return None if text is None else text.replace("\0", "\ufffd").encode("utf-8", "replace").decode("utf-8")


def finite(value: Any) -> Any:
    """A value that JSON can carry: a number beyond every bound becomes the text it is written with."""
    if isinstance(value, float) and not math.isfinite(value):
        return str(value)
    if isinstance(value, dict):
        return {str(name): finite(item) for name, item in value.items()}
    return [finite(item) for item in value] if isinstance(value, list) else value


def as_sent(edit: Arriving) -> dict[str, object]:
    """The edit in the words a phone uses."""
    names = ("id", "kind", "table", "record", "field", "seen", "was", "now", "format", "phone_time", "settles")
    return {name: getattr(edit, name) for name in names}


_WRITER = json.JSONEncoder(separators=(",", ":"), sort_keys=True)


def written(value: object) -> str:
    """A value as the JSON text the database keeps."""
    return _WRITER.encode(value)


def same(one: object, other: object) -> bool:
    """Whether two values are one and the same in JSON, where 1 and true differ."""
    return one == other and written(one) == written(other)


def read(text: str | None) -> Any:
    """The value in such a text."""
    return None if text is None else json.loads(text)
