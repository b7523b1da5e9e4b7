"""What supplies still give: less where water escapes, where a filter clogs, nothing where a main is shut.

A pipe's loss of pressure grows with its flow to the power of 1.852 (Hazen-Williams), and a head gives water with the
square root of its pressure (orifice equation; both from memory). Only water that nobody asked for counts here: what
the sheet asks for, the pipes are made for.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Callable, Sequence
from math import sqrt

from .ground import Ground
from .streams import Stream
from .troubles import Clogged, ShutMain
from .valves import site_cuts

HAZEN_WILLIAMS = 1.852
LEAST_PRESSURE = 0.05
"""However much escapes, so much of the pressure stays."""
CREEP_S = 60
"""A slow change is taken as steady for so long."""

Share = Callable[[float], float]


class Supplied:
    """The share of its flow that each supply gives, at any second of the night."""

    def __init__(self, ground: Ground, streams: Sequence[Stream]) -> None:
        self._ground = ground
        self._pressures = _Pressures(ground, streams)
        self._shares = {supply: self._of(path) for supply, path in ground.paths.items()}
        self.changes = self._pressures.changes | self._turns()

    def escaping(self, supply: str, second: float) -> float:
        """The share that what escapes at a supply has left: pipes that are shut or clogged give less of that too."""
        share = 1.0
        for part in self._shares[supply]:
            share *= part(second)
        return share

    def heads(self, supply: str, second: float) -> float:
        """The share that heads at a supply have left."""
        return self.escaping(supply, second) * sqrt(self._pressures.at(supply, second))

    def _of(self, path: tuple[str, ...]) -> list[Share]:
        """What stands in the water's way from the source down to a supply."""
        troubles = self._ground.troubles
        shares = [self._clogging(item) for item in troubles if isinstance(item, Clogged) and item.supply in path]
        shut = [item for item in troubles if isinstance(item, ShutMain) and item.supply in path]
        spans = [item.seconds(self._ground.sheet.starts, self._ground.length) for item in shut]
        if self._ground.document.supplies[path[-1]].water != "town":
            spans += site_cuts(self._ground)
        return [*shares, *(_none_within(start, end) for start, end in spans)]

    def _clogging(self, trouble: Clogged) -> Share:
        start, end = trouble.seconds(self._ground.sheet.starts, self._ground.length)

        def share(second: float) -> float:
            if not start <= second < end:
                return 1.0
            return max(0.0, 1 - trouble.loss_pct / 100 * min(1.0, (second - start) / max(1, trouble.over_s)))

        return share

    def _turns(self) -> set[int]:
        """The seconds at which a share changes at once, and for slow changes every so often."""
        turns = {edge for span in site_cuts(self._ground) for edge in span}
        for trouble in self._ground.troubles:
            if isinstance(trouble, ShutMain | Clogged):
                start, end = trouble.seconds(self._ground.sheet.starts, self._ground.length)
                step = CREEP_S if isinstance(trouble, Clogged) else max(1, end - start)
                turns |= {*range(max(0, start), end, step), end}
        return turns


class _Pressures:
    """The pressure left at each supply, as a share of what it is on a sound night; steady between two `changes`."""

    def __init__(self, ground: Ground, streams: Sequence[Stream]) -> None:
        self._ground = ground
        self._times: list[int] = []
        self._left: list[dict[str, float]] = []
        self.changes: set[int] = set()
        if any(not stream.wanted for stream in streams):
            self._follow(streams)

    def at(self, supply: str, second: float) -> float:
        """1 where nothing escapes."""
        place = bisect_right(self._times, second) - 1
        return self._left[place].get(supply, 1.0) if place >= 0 else 1.0

    def _follow(self, streams: Sequence[Stream]) -> None:
        edges = [(second, sign, stream) for stream in streams for second, sign in _edges(stream)]
        edges.sort(key=lambda edge: edge[:2])
        draws = {True: defaultdict[str, float](float), False: defaultdict[str, float](float)}
        for second, sign, stream in edges:
            for supply in self._ground.paths[stream.supply]:
                draws[stream.wanted][supply] += sign * stream.lpm
            if self._times and self._times[-1] == second:
                self._times.pop()
                self._left.pop()
            self._times.append(second)
            self._left.append(self._pressures(draws[True], draws[False]))
        self.changes = set(self._times)

    def _pressures(self, wanted: dict[str, float], unasked: dict[str, float]) -> dict[str, float]:
        """The supplies that have lost pressure. What a pipe loses, everything below it loses too."""
        losses = {
            supply: self._loss(supply, max(0.0, wanted.get(supply, 0.0)), more)
            for supply, more in unasked.items()
            if more > 1e-9
        }
        if not losses:
            return {}
        return {
            supply: max(LEAST_PRESSURE, 1 - sum(losses.get(node, 0.0) for node in path))
            for supply, path in self._ground.paths.items()
        }

    def _loss(self, supply: str, wanted: float, more: float) -> float:
        carries = self._ground.capacities[supply] or wanted + more
        return self._ground.nature.loss_pct / 100 * (_lost((wanted + more) / carries) - _lost(wanted / carries))


def _lost(load: float) -> float:
    return float(load**HAZEN_WILLIAMS)


def _edges(stream: Stream) -> tuple[tuple[int, int], tuple[int, int]]:
    return (stream.start, 1), (stream.end, -1)


def _none_within(start: int, end: int) -> Share:
    return lambda second: 0.0 if start <= second < end else 1.0
