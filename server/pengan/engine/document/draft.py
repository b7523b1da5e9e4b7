"""Records on their way to being valid: what could be read of each, for rules that look across fields and records."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from ..message import Message
from .fault import Fault


@dataclass(frozen=True, slots=True)
class Draft:
    """One record. `values` has every field whose value is sound, defaults included; `given` the fields that were set.

    A field that was set to something unsound is in `given` alone, so that no rule calls it missing as well.
    """

    table: str
    id: str
    given: frozenset[str]
    values: Mapping[str, object]

    def text(self, name: str) -> str:
        """A text field, or "" where it is not set or unsound."""
        value = self.values.get(name)
        return value if isinstance(value, str) else ""

    def number(self, name: str) -> float | None:
        """A number field, or None where it is not set or unsound."""
        value = self.values.get(name)
        return value if isinstance(value, (int, float)) else None

    def has(self, name: str) -> bool:
        """Whether the field was set, soundly or not."""
        return name in self.given

    def fault(self, field: str | None, message: Message) -> Fault:
        """A fault of this record."""
        return Fault(self.table, self.id, field, message)


@dataclass(frozen=True, slots=True)
class Drafts:
    """All records of a document, in document order."""

    all: Sequence[Draft]

    def of(self, *tables: str) -> Iterator[Draft]:
        """The records of these tables."""
        return (draft for draft in self.all if draft.table in tables)
