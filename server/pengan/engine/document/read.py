"""From JSON to a valid `Document`, or to every fault it has.

Forgiving about order: records may stand in any. Strict about content: an unknown table or field is a fault,
as it may be a misspelt one. A field that is null counts as not set.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import fields
from typing import Any

from ..message import saying
from .document import Document
from .draft import Draft, Drafts
from .fault import DocumentFaults, Fault
from .fields import kind_of
from .record import Record
from .rules import RULES
from .tables import FORMAT, TABLES, Site
from .values import read_value, shown

NOT_OBJECT = saying("fault.not_object", "This must be a JSON object, but it is {given}.")
NO_RECORDS = saying("fault.no_records", "The list “records” is missing.")
RECORDS_NOT_LIST = saying("fault.records_not_list", "“records” must be a list, but it is {given}.")
NO_FORMAT = saying("fault.no_format", "“format” must be {format}, but it is {given}.")
NEWER = saying(
    "fault.newer_format",
    "This file has format {given}; this version reads up to {format}. A newer version will read it.",
)
UNKNOWN_TOP = saying("fault.unknown_top", "“{name}” is not known here. A document has “format” and “records”.")
UNKNOWN_TABLE = saying("fault.unknown_table", "{given} is no table. Tables are: {tables}.")
UNKNOWN_FIELD = saying("fault.unknown_field", "There is no such field. Fields are: {fields}.")
MISSING = saying("fault.missing", "This is missing.")

TABLE_BY_NAME: Mapping[str, type[Record]] = {table.table: table for table in TABLES}


def read_document(data: object) -> Document:
    """The document that `data` (parsed JSON) describes. Raises `DocumentFaults` with every fault."""
    drafts, faults = _read(data)
    if faults:
        raise DocumentFaults(faults)
    return _document(drafts)


def faults_in(data: object) -> tuple[Fault, ...]:
    """Everything wrong with `data` (parsed JSON), the records in document order; empty if it is a valid document."""
    return tuple(_read(data)[1])


def read_record(data: Mapping[str, object]) -> tuple[Draft, tuple[Fault, ...]]:
    """One record of a known table by itself: what could be read of it, and everything wrong with its fields."""
    faults: list[Fault] = []
    return _read_record(data, 1, faults), tuple(faults)


def faults_across(drafts: Sequence[Draft]) -> tuple[Fault, ...]:
    """Everything that the rules find wrong with records that were read one by one."""
    read = Drafts(drafts)
    return tuple(fault for rule in RULES for fault in rule(read))


def _read(data: object) -> tuple[Drafts, list[Fault]]:
    if not isinstance(data, Mapping):
        return Drafts(()), [Fault(None, None, None, NOT_OBJECT(given=shown(data)))]
    faults = _faults_of_frame(data)
    newer = [fault for fault in faults if fault.message.code == NEWER.code]
    if newer:  # its tables and fields are not ours to judge
        return Drafts(()), newer
    records = data.get("records")
    drafts = Drafts(_read_records(records if isinstance(records, list) else [], faults))
    if isinstance(records, list):
        for rule in RULES:
            faults.extend(rule(drafts))
    return drafts, _in_document_order(faults, drafts)


def _faults_of_frame(data: Mapping[Any, object]) -> list[Fault]:
    """What is wrong around the records."""
    messages = [UNKNOWN_TOP(name=str(name)) for name in data if name not in ("format", "records")]
    given = data.get("format")
    if isinstance(given, bool) or not isinstance(given, (int, float)) or given != FORMAT:
        newer = isinstance(given, int) and given > FORMAT
        messages.append((NEWER if newer else NO_FORMAT)(given=shown(given), format=FORMAT))
    if "records" not in data:
        messages.append(NO_RECORDS())
    elif not isinstance(data["records"], list):
        messages.append(RECORDS_NOT_LIST(given=shown(data["records"])))
    return [Fault(None, None, None, message) for message in messages]


def _read_records(records: list[object], faults: list[Fault]) -> list[Draft]:
    drafts = []
    for place, data in enumerate(records, start=1):
        if not isinstance(data, Mapping):
            faults.append(Fault(None, f"#{place}", None, NOT_OBJECT(given=shown(data))))
        elif not isinstance(data.get("table"), str) or data["table"] not in TABLE_BY_NAME:
            message = UNKNOWN_TABLE(given=shown(data.get("table")), tables=", ".join(TABLE_BY_NAME))
            faults.append(Fault(None, _name_of(data, place), "table", message))
        else:
            drafts.append(_read_record(data, place, faults))
    return drafts


def _name_of(data: Mapping[Any, object], place: int) -> str:
    """The record's id where it has a sound one, else its place."""
    given = data.get("id")
    kind = kind_of(fields(Record)[0])
    return given if isinstance(given, str) and read_value(kind, given)[1] is None else f"#{place}"


def _read_record(data: Mapping[Any, object], place: int, faults: list[Fault]) -> Draft:
    table = TABLE_BY_NAME[str(data["table"])]
    name = _name_of(data, place)
    known = {item.name: item for item in fields(table)}
    for extra in data:
        if extra not in known and extra != "table":
            message = UNKNOWN_FIELD(fields=", ".join(known))
            faults.append(Fault(table.table, name, shown(extra).strip('"'), message))
    given = {key for key in known if data.get(key) is not None}
    values: dict[str, object] = {}
    for key, item in known.items():
        kind = kind_of(item)
        if key not in given:
            if kind.required:
                faults.append(Fault(table.table, name, key, MISSING()))
            else:
                values[key] = item.default
            continue
        value, message_or_none = read_value(kind, data[key])
        if message_or_none is None:
            values[key] = value
        else:
            faults.append(Fault(table.table, name, key, message_or_none))
    return Draft(table.table, name, frozenset(given), values)


def _in_document_order(faults: list[Fault], drafts: Drafts) -> list[Fault]:
    """The document's own faults first, then each record's together; within a record as they were found."""
    places: dict[tuple[str, str], int] = {}
    for place, draft in enumerate(drafts.all):
        places.setdefault((draft.table, draft.id), place)
    last = len(places)
    return sorted(faults, key=lambda f: -1 if f.record is None else places.get((f.table or "", f.record), last))


def _document(drafts: Drafts) -> Document:
    records: dict[str, dict[str, Any]] = {table.table: {} for table in TABLES}
    for draft in drafts.all:
        records[draft.table][draft.id] = TABLE_BY_NAME[draft.table](**draft.values)  # type: ignore[arg-type]
    site: Site = next(iter(records.pop("site").values()))
    return Document(site=site, **records)
