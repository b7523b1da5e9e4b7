"""What the meters of a night tell: readings of the flow, and counters that add up all that has run through."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from random import Random

from pengan.engine.plan.problem import Span
from pengan.engine.plan.spans import holding, merged

from .ground import Ground
from .pressure import Supplied
from .streams import Stream
from .troubles import StuckMeter
from .valves import site_cuts

MOST_COUNTED_L = 2_000_000


@dataclass(frozen=True, slots=True)
class Reading:
    """A meter's flow or, where `is_count`, its counter, at a second of the night."""

    supply: str
    second: int
    value: float
    is_count: bool


class Meter:
    """One supply's meter over one night."""

    def __init__(self, ground: Ground, supply: str, streams: Sequence[Stream], supplied: Supplied, count_l: float):
        self._ground, self._supply, self._supplied = ground, supply, supplied
        self._below = [stream for stream in streams if supply in ground.paths[stream.supply]]
        self._next = 0
        self._open: list[Stream] = []
        self._count = count_l
        self._shown = 0.0
        self._chance = ground.random("meter", ground.sheet.night, supply)
        self._blind = site_cuts(ground)
        self._stuck = _stuck(ground, supply)

    def readings(self) -> Iterator[Reading]:
        """All of the night, in order of time. Without power nothing is told, but water is counted."""
        nature, chance = self._ground.nature, self._chance
        flows = _ticks(chance, nature.read_every_s, self._ground.length)
        counts = {*_ticks(chance, nature.count_every_s, self._ground.length), self._ground.length - 1}
        told = {*flows, *counts}
        turns = {edge for stream in self._below for edge in (stream.start, stream.end)} | self._supplied.changes
        turns |= {edge for span in self._stuck for edge in span}
        last = 0
        for second in sorted(turn for turn in told | turns if 0 <= turn < self._ground.length):
            self._run(last, second)
            last = second
            if second in told and not holding(self._blind, second):
                yield from self._tell(second, second in flows, second in counts)

    def _tell(self, second: int, flow: bool, count: bool) -> Iterator[Reading]:
        if flow:
            yield Reading(self._supply, second, self._flow(second), False)
        if count:
            yield Reading(
                self._supply, second, _stepped(self._count, self._ground.nature.count_step_l, down=True), True
            )

    def _flow(self, second: int) -> float:
        """What the meter shows: the true flow with its noise, in whole steps; a stuck one shows what it last showed."""
        if not holding(self._stuck, second):
            true = sum(stream.at(second) * self._share(stream, second) for stream in self._open)
            noisy = true * (1 + self._chance.gauss(0, self._ground.nature.noise_pct / 100))
            self._shown = _stepped(max(0.0, noisy), self._ground.nature.step_lpm)
        return self._shown

    def _run(self, start: int, end: int) -> None:
        """Count what has run through between two seconds between which nothing changes at once."""
        if start < end and not holding(self._stuck, start):
            middle = (start + end) / 2
            self._count += sum(stream.litres(start, end) * self._share(stream, middle) for stream in self._open)
        self._open = [stream for stream in self._open if stream.end > end]
        while self._next < len(self._below) and self._below[self._next].start <= end:
            stream = self._below[self._next]
            self._next += 1
            if stream.end > end:
                self._open.append(stream)

    def _share(self, stream: Stream, second: float) -> float:
        shares = self._supplied.escaping if stream.escapes else self._supplied.heads
        return shares(stream.supply, second)


def first_count(ground: Ground, supply: str) -> float:
    """What a counter shows in the evening, where nobody says so."""
    return ground.random("counter", supply).randrange(MOST_COUNTED_L)


def _ticks(chance: Random, every_s: int, length: int) -> range:
    """Each meter has its own second of the minute."""
    return range(chance.randrange(every_s), length, every_s)


def _stepped(value: float, step: float, *, down: bool = False) -> float:
    if not step:
        return value
    steps = value // step if down else round(value / step)
    return round(steps * step, 3)


def _stuck(ground: Ground, supply: str) -> list[Span]:
    found = (trouble for trouble in ground.troubles if isinstance(trouble, StuckMeter) and trouble.supply == supply)
    spans = (trouble.seconds(ground.sheet.starts, ground.length) for trouble in found)
    return merged((max(0, start), end) for start, end in spans)
