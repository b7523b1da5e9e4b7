"""Edits laid over a copy of the records: what a phone shows before the server has answered."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

Row = dict[str, Any]


def key_of(row: Mapping[str, Any]) -> str:
    """Where a record, removal or edit belongs: `table/id`. A record has `id`; what speaks of one has `record`."""
    return f"{row['table']}/{row['record'] if 'record' in row else row['id']}"


def laid_over(records: Mapping[str, Row], edits: Iterable[Row]) -> dict[str, Row]:
    """The records with the edits applied in order. Neither argument is changed."""
    shown = {key: dict(record) for key, record in records.items()}
    for edit in edits:
        _lay(shown, edit)
    return shown


def _lay(shown: dict[str, Row], edit: Row) -> None:
    key = key_of(edit)
    if edit["kind"] == "add" and isinstance(edit["now"], Mapping):
        shown[key] = {"table": edit["table"], "id": edit["record"], **edit["now"]}
    elif edit["kind"] == "remove":
        shown.pop(key, None)
    elif edit["kind"] in ("set", "settle") and key in shown:
        shown[key] |= fields_of(edit["field"], edit["now"])


def fields_of(field: str, value: Any) -> Row:
    """What an edit of a field, or of a group of fields, sets."""
    return dict(value) if isinstance(value, Mapping) else {field: value}
