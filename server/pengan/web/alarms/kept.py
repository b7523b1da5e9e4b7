"""A night while a process watches it: in memory, an entry at a time, and read anew where something came late.

Entries wait a few seconds before they are looked at, since several reporters never tell in one order.
"""

from __future__ import annotations

import time
from collections.abc import Iterable
from dataclasses import dataclass, field

from pengan.engine.journal.entry import Entry
from pengan.engine.journal.finding import Finding
from pengan.engine.journal.in_order import in_order
from pengan.engine.journal.watch import Watch

from .ground import Ground

LAG_S = 5
"""So long entries wait for those that should have come before them."""
PAUSE_S, PAUSE_FACTOR = 10, 20
"""A night is not read anew more often than this, nor than so many times as long as reading it takes."""


@dataclass(slots=True)
class KeptNight:
    """One night's watch. `looked` is the newest number of the journal in it; `built_at` the machine's clock."""

    ground: Ground
    watch: Watch
    looked: int
    built_at: float
    cost_s: float
    pending: list[Entry] = field(default_factory=list)
    is_stale: bool = False
    filed: tuple[Finding, ...] | None = None
    late_at: float = 0.0
    """When the night before was last read anew."""

    def take(self, entries: Iterable[Entry], now: int) -> None:
        """Take in what has come since, and let time pass until `now`. What came too late makes it stale."""
        self.pending = in_order([*self.pending, *entries])
        ready = [entry for entry in self.pending if entry.at <= now - LAG_S]
        self.pending = self.pending[len(ready) :]
        for entry in ready:
            if not self.watch.take(entry):
                self.is_stale = True
        self.watch.tick(now - LAG_S)

    def may_be_read_anew(self, real: float) -> bool:
        """Whether it was long enough ago: a gateway that is always late must not take up all the time."""
        return real - self.built_at >= max(PAUSE_S, PAUSE_FACTOR * self.cost_s)


def kept_night(ground: Ground, entries: Iterable[Entry], looked: int, now: int, real: float) -> KeptNight:
    """Watch a night from its beginning, as far as it has been told."""
    began = time.monotonic()
    watch = Watch(ground.document, ground.sheet, ground.limits, ground.known)
    made = KeptNight(ground, watch, looked, real, 0.0)
    made.take([*ground.before, *entries], min(now, ground.night.ends + LAG_S))
    made.is_stale = False
    made.cost_s = time.monotonic() - began
    return made
