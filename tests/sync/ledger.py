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


class Replay:
    """The site rebuilt from nothing: every edit in force, one after the other, each held against the promises.

    Fails where a version is not the next one, where its editor had not seen the version before, and where something is
    written to a record that is removed, or that is not there. What an editor had seen is worked out from the edit
    itself, not from what the server made of it.
    """

    def __init__(self, edits: Iterable[Row]) -> None:
        self.records: dict[str, Replayed] = {}
        self.saw: dict[str, tuple[str, int | None]] = {}
        for edit in edits:
            self._note_seen(edit)
            if edit["outcome"] == "taken":
                self._apply(edit)
            elif edit["outcome"] == "agreed":
                self._check_agreed(edit)

    def _apply(self, edit: Row) -> None:
        key = key_of(edit)
        if edit["kind"] == "add":
            assert key not in self.records, f"{key} is added twice: {edit}"
            self.records[key] = Replayed({"id": edit["record"], **edit["now"]})
            return
        record, group = self.records[key], group_of(edit)
        self._check_seen(edit, record, group)
        assert edit["version"] == record.version(group) + 1, f"{key} was at {record.version(group)}: {edit}"
        if group == "removed":
            _mark(record, edit)
        else:
            assert not record.removed, f"{key} is removed: {edit}"
            assert _same(edit["record_table"], group, edit["before"], _value(record, edit["now"], group)), edit
            record.fields |= _parts(group, edit["now"])
        record.versions[group] = edit["version"]

    def _note_seen(self, edit: Row) -> None:
        """What an edit stands for where a later one says that it has seen it: what it wrote, or else what it saw."""
        seen = None if isinstance(edit["seen"], Mapping) else self._version(key_of(edit), edit["seen"])
        landed = edit["outcome"] in ("taken", "agreed")
        self.saw[edit["id"]] = (key_of(edit), edit["version"] if landed else seen)

    def _version(self, key: str, seen: Any) -> int | None:
        if isinstance(seen, str):
            of, version = self.saw.get(seen, ("", None))
            return version if of == key else None
        return seen if isinstance(seen, int) else None

    def _check_seen(self, edit: Row, record: Replayed, group: str) -> None:
        key = key_of(edit)
        if edit["kind"] == "remove":
            for name, version in record.versions.items():
                seen = self._version(key, edit["seen"].get(name, 1))
                assert seen == version, f"{name} of {key} was at {version}: {edit}"
        else:
            seen = self._version(key, edit["seen"])
            assert seen == record.version(group), f"{key} was at {record.version(group)}, not {seen}: {edit}"

    def _check_agreed(self, edit: Row) -> None:
        """Somebody wanted what was in force already: no version was written."""
        record, group = self.records[key_of(edit)], group_of(edit)
        assert edit["version"] is None or edit["version"] == record.version(group), edit
        if edit["kind"] == "set":
            assert not record.removed, edit
            assert _same(edit["record_table"], group, edit["now"], _value(record, edit["now"], group)), edit


def key_of(edit: Row) -> str:
    """The record that a row of the history is about."""
    return f"{edit['record_table']}/{edit['record']}"


def group_of(edit: Row) -> str:
    """The versioned field that it writes."""
    return "removed" if edit["kind"] in ("remove", "restore") else str(edit["field"])


def _mark(record: Replayed, edit: Row) -> None:
    removed = edit["kind"] == "remove" or (edit["kind"] == "settle" and bool(edit["now"]))
    assert removed != record.removed, f"that is how it was: {edit}"
    record.removed = removed


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
