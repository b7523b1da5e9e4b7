"""What every record of a document has."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from .fields import record_id


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """What every record has."""

    table: ClassVar[str]
    id: str = record_id()
