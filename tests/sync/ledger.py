"""What the server wrote down, read with plain SQL, and the site rebuilt from it: shares no line with the server."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import MISSING, dataclass, field, fields
from typing import Any

from sqlalchemy import Engine, text

from pengan.engine.document.tables import TABLES

Row = dict[str, Any]
EDITS = text("SELECT * FROM edits WHERE site = :site ORDER BY revision, place, id")
WAITING = text("SELECT * FROM waiting_edits WHERE site = :site ORDER BY edit")
JSON_COLUMNS = ("seen", "was", "now", "before", "answer")
DEFAULTS: Mapping[str, Row] = {
    table.table: {item.name: item.default for item in fields(table) if item.default is not MISSING} for table in TABLES
}


@dataclass
class Replayed:
    """One record as the history has it so far."""

    fields: Row
    versions: dict[str, int] = field(default_factory=dict)
    removed: bool = False

    def version(self, group: str) -> int:
        """The version of a field or field group."""
        return self.versions.get(group, 1)


def edits_of(engine: Engine, site: str) -> list[Row]:
    """Every edit the server knows of the site, in the order in which it decided."""
    with engine.connect() as line:
        rows = [dict(row) for row in line.execute(EDITS, {"site": site}).mappings()]
    for row in rows:
        row |= {name: None if row[name] is None else json.loads(row[name]) for name in JSON_COLUMNS}
    return rows


def waiting_of(engine: Engine, site: str) -> dict[str, Row]:
    """What waits for a decision, or did, by edit."""
    with engine.connect() as line:
        return {row["edit"]: dict(row) for row in line.execute(WAITING, {"site": site}).mappings()}


def filled(table: str, record: Mapping[str, Any]) -> Row:
    """A record with every field: what was left out is at its default, amounts are floats."""
    row = DEFAULTS[table] | {name: value for name, value in record.items() if value is not None and name != "table"}
    return {name: float(value) if type(value) is int else value for name, value in row.items()}


def replayed(document: Mapping[str, Any], edits: Iterable[Row]) -> dict[str, Replayed]:
    """The site rebuilt: the document it began with, and every edit in force, one after the other.

    Fails where a version is not the next one, where an edit had not seen the version before, and where something is
    written to a record that is removed, or that is not there.
    """
    state = {
        f"{record['table']}/{record['id']}": Replayed({k: v for k, v in record.items() if k != "table"})
        for record in document["records"]
    }
    for edit in edits:
        if edit["outcome"] == "taken":
            _apply(state, edit)
        elif edit["outcome"] == "agreed":
            _check_agreed(state, edit)
    return state


def _apply(state: dict[str, Replayed], edit: Row) -> None:
    key = f"{edit['record_table']}/{edit['record']}"
    if edit["kind"] == "add":
        assert key not in state, f"{key} is added twice: {edit}"
        state[key] = Replayed({"id": edit["record"], **edit["now"]})
        return
    record = state[key]
    group = _group(edit)
    assert edit["saw"] == record.version(group), f"{key} was at {record.version(group)}: {edit}"
    assert edit["version"] == record.version(group) + 1, f"{key} was at {record.version(group)}: {edit}"
    record.versions[group] = edit["version"]
    if group == "removed":
        _remove(record, edit)
    else:
        assert not record.removed, f"{key} is removed: {edit}"
        assert _same(edit["record_table"], group, edit["before"], _value(record, edit["now"], group)), edit
        record.fields |= _parts(group, edit["now"])


def _group(edit: Row) -> str:
    return "removed" if edit["kind"] in ("remove", "restore") else str(edit["field"])


def _remove(record: Replayed, edit: Row) -> None:
    removed = edit["kind"] == "remove" or (edit["kind"] == "settle" and bool(edit["now"]))
    assert removed != record.removed, f"that is how it was: {edit}"
    record.removed = removed


def _check_agreed(state: dict[str, Replayed], edit: Row) -> None:
    """Somebody wanted what was in force already: no version was written."""
    record = state[f"{edit['record_table']}/{edit['record']}"]
    group = _group(edit)
    assert edit["version"] is None or edit["version"] == record.version(group), edit
    if edit["kind"] == "set":
        assert not record.removed, edit
        assert _same(edit["record_table"], group, edit["now"], _value(record, edit["now"], group)), edit


def _parts(group: str, value: Any) -> Row:
    return dict(value) if isinstance(value, Mapping) else {group: value}


def _value(record: Replayed, like: Any, group: str) -> Any:
    if isinstance(like, Mapping):
        return {name: record.fields.get(name) for name in like}
    return record.fields.get(group)


def _same(table: str, group: str, one: Any, other: Any) -> bool:
    mine, theirs = _parts(group, one), _parts(group, other)
    names = mine.keys() | theirs.keys()
    return all(filled(table, mine).get(name) == filled(table, theirs).get(name) for name in names)
