"""Water that flows: what each opened, stuck or broken thing draws, and from when to when it does."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import exp

from pengan.engine.plan.problem import Span
from pengan.engine.plan.spans import common, merged, without

from .ground import Ground, Valve
from .troubles import Break, DeadValve, Leak, StuckOpen, Trouble
from .valves import Order


@dataclass(frozen=True, slots=True)
class Stream:
    """Water drawn at a supply from `start` to `end`, in seconds of the night.

    A station draws more while its pipes fill: `lpm * (1 + fill * e^(-t / settle_s))`. `wanted` is False for what
    escapes or runs unasked: it costs the others pressure. What escapes does not itself yield to pressure.
    """

    supply: str
    start: int
    end: int
    lpm: float
    fill: float = 0.0
    settle_s: float = 1.0
    wanted: bool = True
    escapes: bool = False

    def at(self, second: int) -> float:
        """L/min at a second within it, before pressure and filters."""
        return self.lpm * (1 + self.fill * exp((self.start - second) / self.settle_s)) if self.fill else self.lpm

    def litres(self, start: int, end: int) -> float:
        """Litres drawn between two seconds within it: the integral of `at`."""
        steady = end - start
        if not self.fill:
            return self.lpm * steady / 60
        decay = exp((self.start - start) / self.settle_s) - exp((self.start - end) / self.settle_s)
        return self.lpm * (steady + self.fill * self.settle_s * decay) / 60


def streams(ground: Ground, orders: Iterable[Order]) -> list[Stream]:
    """All water of the night, by its start."""
    ordered: dict[str, list[Span]] = {station: [] for station in ground.document.stations}
    for order in orders:
        ordered[order.station].append((order.start, order.end))
    found = [stream for station, spans in ordered.items() for stream in _of_station(ground, station, spans)]
    found += _escaping(ground)
    return sorted(found, key=lambda stream: (stream.start, stream.end, stream.supply))


def _of_station(ground: Ground, station: str, ordered: list[Span]) -> Iterator[Stream]:
    valve, supply = ground.valves[station], ground.document.stations[station].supply
    dead = _when(ground, DeadValve, station)
    opened = without(_opened(valve, ordered, ground.length), dead, ground.length)
    stuck = without(without(_when(ground, StuckOpen, station), opened, ground.length), dead, ground.length)
    for start, end in opened:
        yield Stream(supply, start, end, valve.flow_lpm, valve.fill, valve.settle_s)
    for start, end in stuck:
        yield Stream(supply, start, end, valve.flow_lpm, wanted=False)
    yield from _below_the_valve(ground, station, merged([*opened, *stuck]))


def _opened(valve: Valve, ordered: list[Span], length: int) -> list[Span]:
    """When water really flows: a valve takes a while to open, and a while to close."""
    return merged(
        (start + valve.opening_s, min(length, end + valve.closing_s))
        for start, end in ordered
        if start + valve.opening_s < end
    )


def _below_the_valve(ground: Ground, station: str, opened: list[Span]) -> Iterator[Stream]:
    supply = ground.document.stations[station].supply
    for trouble in ground.troubles:
        if isinstance(trouble, Break) and trouble.station == station:
            for start, end in common(opened, [_clipped(ground, trouble)]):
                yield Stream(supply, start, end, trouble.flow_lpm, wanted=False, escapes=True)


def _escaping(ground: Ground) -> Iterator[Stream]:
    for trouble in ground.troubles:
        if isinstance(trouble, Break | Leak) and trouble.supply in ground.paths:
            start, end = _clipped(ground, trouble)
            if start < end:
                yield Stream(trouble.supply, start, end, trouble.flow_lpm, wanted=False, escapes=True)


def _when(ground: Ground, kind: type[DeadValve] | type[StuckOpen], station: str) -> list[Span]:
    found = (trouble for trouble in ground.troubles if isinstance(trouble, kind))
    return merged(_clipped(ground, trouble) for trouble in found if trouble.station == station)


def _clipped(ground: Ground, trouble: Trouble) -> Span:
    start, end = trouble.seconds(ground.sheet.starts, ground.length)
    return max(0, start), end
