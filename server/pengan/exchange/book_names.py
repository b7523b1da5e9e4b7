"""The names in a book, for sentences about its records."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from pengan.words.names import NoNames


class BookNames(NoNames):
    """What people call the records that were read, whether the book as a whole is sound or not."""

    def __init__(self, records: Iterable[Mapping[str, object]]) -> None:
        self._names = {(str(record["table"]), str(record.get("id", ""))): _name_of(record) for record in records}

    def name(self, kind: str, record: str) -> str:
        """The record's number and name as typed; its id where it has none."""
        table = {"supply": "supplies", "site": "site", "asked": "asked"}.get(kind, f"{kind}s")
        return self._names.get((table, record)) or record


def _name_of(record: Mapping[str, object]) -> str:
    return " ".join(str(record[part]) for part in ("number", "name") if part in record)
