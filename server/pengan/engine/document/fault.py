"""What is wrong with a document, and where."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..message import Message


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong. `record` is the record's id, or `#7` for the seventh record where its id is no use.

    `table`, `record` and `field` are None where the fault is about the whole document, table or record.
    """

    table: str | None
    record: str | None
    field: str | None
    message: Message

    def as_json(self) -> dict[str, object]:
        """The shape it has in API answers and on the command line."""
        return {"table": self.table, "record": self.record, "field": self.field, **self.message.as_json()}


class DocumentFaults(ValueError):
    """Raised instead of handing out a document that has faults. `faults` holds all of them, in document order."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("; ".join(f"{f.table}/{f.record}/{f.field}: {f.message.code}" for f in self.faults[:20]))
