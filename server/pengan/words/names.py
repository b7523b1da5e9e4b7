"""What a sentence's parameters refer to: the names people gave their records, and the site's clock."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Protocol

from ..engine.document.document import Document

NAMED = (
    "site", "supply", "controller", "hydrozone", "station", "program", "turn", "window", "closure", "asked",
)  # fmt: skip
"""Kinds of record a parameter's name can end in (see `engine/message.py`)."""


class Names(Protocol):
    """Looks up what a reader should see in place of an id or an instant."""

    def name(self, kind: str, record: str) -> str:
        """The record's name as people typed it; the id itself where it has none."""
        ...

    def local(self, instant: int) -> tuple[datetime, str]:
        """An instant on the site's wall, and the mark it needs: `¹`, `²`, an offset, or nothing."""
        ...


class NoNames:
    """For sentences that are about no site yet: ids stay ids, instants are read in UTC and say so."""

    def name(self, kind: str, record: str) -> str:
        return record

    def local(self, instant: int) -> tuple[datetime, str]:
        return datetime(1970, 1, 1, tzinfo=UTC).replace(tzinfo=None) + timedelta(seconds=instant), " UTC"


class Wall(Protocol):
    """A site's clock for people."""

    def local(self, instant: int) -> tuple[datetime, str]: ...


class SiteNames:
    """The names in a document, and the times of its clock."""

    def __init__(self, document: Document, wall: Wall) -> None:
        self._document = document
        self._wall = wall

    def local(self, instant: int) -> tuple[datetime, str]:
        return self._wall.local(instant)

    def name(self, kind: str, record: str) -> str:
        if kind == "station":
            return self._station(record)
        if kind == "turn" or kind == "asked":
            return self._turn(record)
        found = self._document.site if kind == "site" else self._table(kind).get(record)
        return getattr(found, "name", "") or record

    def _table(self, kind: str) -> dict[str, object]:
        plural = {"supply": "supplies"}.get(kind, f"{kind}s")
        return dict(getattr(self._document, plural))

    def _station(self, record: str) -> str:
        station = self._document.stations.get(record)
        return f"{station.number} {station.name}" if station else record

    def _turn(self, record: str) -> str:
        """A turn has no name of its own: people know it by its station, a program asked for by its program."""
        turn = self._document.turns.get(record) or self._document.asked.get(record)
        if turn is None:
            return record
        return self._station(turn.station) if turn.station else self.name("program", turn.program or record)
