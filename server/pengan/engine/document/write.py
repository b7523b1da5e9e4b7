"""From a `Document` back to JSON: the shape that is exported, stored and sent."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields

from .document import Document
from .record import Record
from .tables import FORMAT, TABLES, Site


def write_document(document: Document) -> dict[str, object]:
    """The document as JSON, table by table. Fields at their default are left out."""
    return {"format": FORMAT, "records": [write_record(record) for record in records_of(document)]}


def write_record(record: Record) -> dict[str, object]:
    """One record as JSON: its table, its id, and what is not at its default."""
    data: dict[str, object] = {"table": record.table}
    for item in fields(record):
        value = getattr(record, item.name)
        if value != item.default:
            data[item.name] = _plain(value)
    return data


def records_of(document: Document) -> Iterator[Record]:
    """All records, table by table, each table in document order."""
    for table in TABLES:
        if table is Site:
            yield document.site
        else:
            yield from getattr(document, table.table).values()


def _plain(value: object) -> object:
    """Whole amounts without a decimal point, so that a file reads as people would write it."""
    return int(value) if isinstance(value, float) and value.is_integer() else value
