"""An entry, and the instant at which somebody is told of it."""

from __future__ import annotations

from dataclasses import dataclass

from pengan.engine.journal.entry import Entry


@dataclass(frozen=True, slots=True)
class Told:
    """`at` is `entry.at`, or later where power or a voice was missing."""

    at: int
    entry: Entry
