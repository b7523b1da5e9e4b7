"""Prints entries as JSON, one a line."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable, Sequence

from pengan.engine.journal.entry import Entry
from pengan.engine.journal.reading import told


class Printed:
    """Writes lines as they are told, by whatever writes a line."""

    def __init__(self, write: Callable[[str], object]) -> None:
        self._write = write

    def send(self, entries: Sequence[Entry]) -> Counter[str]:
        """One line for each entry."""
        for entry in entries:
            self._write(json.dumps(told(entry), ensure_ascii=False))
        return Counter(printed=len(entries))

    def close(self) -> None:
        """Nothing is held open."""
