"""A night's entries in the order in which things happened, each told once, however they came in."""

from __future__ import annotations

from collections.abc import Iterable

from .entry import Entry

Rank = tuple[int, str, str]


def rank(entry: Entry) -> Rank:
    """Where an entry stands among others: by instant, then by kind and id, so that every machine has one order."""
    return entry.at, entry.kind, entry.id


def in_order(entries: Iterable[Entry]) -> list[Entry]:
    """The entries by `rank`. Of those that share an id the first in that order counts."""
    once: dict[str, Entry] = {}
    for entry in sorted(entries, key=rank):
        once.setdefault(entry.id, entry)
    return list(once.values())
