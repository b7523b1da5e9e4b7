"""Who should have said something by now: controllers that fall silent, and meters."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from ..document.document import Document
from .gauge import Gauge
from .live import Valves
from .thresholds import Limits

CHECK_S = 30
"""Silence is looked for at whole multiples of so many seconds, so that it is noticed at the same instant everywhere."""


class Silence:
    """Voices by name: a controller's id, or `meter:` and a supply's. `quiet` holds those that are silent now."""

    def __init__(self, document: Document, starts: int | None, limits: Limits, metered: Iterable[str]) -> None:
        self.document, self.limits, self.starts = document, limits, starts
        self.metered = sorted(set(metered) & set(document.supplies))
        self.alive: set[str] = set()
        self.last: dict[str, int] = {}
        self.quiet: set[str] = set()
        self.next: int | None = starts

    def heard(self, voice: str, at: int) -> None:
        self.last[voice] = at
        self.quiet.discard(voice)

    def excuse(self, at: int) -> None:
        """Nobody could say anything before this instant."""
        self.starts = at

    def until(self, now: int, valves: Valves, gauges: Mapping[str, Gauge]) -> Iterator[tuple[str, int, int]]:
        """Each voice that falls silent until `now`, since when, and the instant at which that is noticed."""
        if self.next is None:
            self.starts = self.next = now
        self.next += -self.next % CHECK_S
        while self.next <= now:
            yield from self._check(self.next, valves, gauges)
            self.next += CHECK_S

    def _check(self, now: int, valves: Valves, gauges: Mapping[str, Gauge]) -> Iterator[tuple[str, int, int]]:
        dark = valves.dark()
        for controller in self.document.controllers:
            since = self._controller(controller, now, valves)
            if since is not None and controller not in dark and controller not in self.quiet:
                self.quiet.add(controller)
                yield controller, since, now
        if None in dark:
            return
        for supply in sorted({*gauges, *self.metered}):
            heard = max(gauges[supply].at if supply in gauges else -1, self.starts or now)
            voice = f"meter:{supply}"
            if now - heard >= self.limits.of(supply).silent_s and voice not in self.quiet:
                self.quiet.add(voice)
                yield voice, heard, now

    def _controller(self, controller: str, now: int, valves: Valves) -> int | None:
        """Since when a controller is silent, if it is."""
        if controller not in valves.heard:
            return None
        heard, silences = max(self.last.get(controller, -1), (self.starts or now) - 1), self.limits.silences
        if controller in self.alive and now - heard >= silences.controller_s:
            return heard
        return valves.untold_since(controller, heard, now - silences.word_s)
