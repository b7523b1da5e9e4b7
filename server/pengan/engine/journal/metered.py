"""The share of its water that a station got, by the nearest meter above it."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from statistics import median

from ..document.document import Document
from ..plan.problem import Span
from ..plan.water import millilitres, millilitres_per_minute
from .entry import Entry, Kind
from .expected import SETTLING
from .outages import path_of

SHORT_SHARE = 0.85
"""A meter that reads less than this share of what its open stations take means that they got less. Common practice."""
LEAST_READINGS = 3
"""So many settled readings tell a share."""


class Share:
    """Knows every station's flowing spans of a night and every meter's readings."""

    def __init__(
        self, document: Document, told: Iterable[Entry], spans: Iterable[tuple[str, int, int]], flow: Mapping[str, int]
    ) -> None:
        self.document, self.flow = document, flow
        self.readings: dict[str, list[tuple[int, int]]] = defaultdict(list)
        for entry in told:
            if entry.kind is Kind.FLOW and entry.supply and entry.flow_lpm is not None:
                self.readings[entry.supply].append((entry.at, millilitres_per_minute(entry.flow_lpm)))
        self.draws = _draws(document, spans, flow)

    def of(self, station: str, wet: Sequence[Span]) -> int:
        """The millilitres that a station got in these spans."""
        whole = millilitres(self.flow[station], sum(end - start for start, end in wet))
        shares = self._shares(station, wet)
        if len(shares) < LEAST_READINGS or (share := median(shares)) >= SHORT_SHARE:
            return whole
        return round(whole * share)

    def _shares(self, station: str, wet: Sequence[Span]) -> list[float]:
        """Reading by draw, at each settled reading of the nearest meter that has enough of them."""
        for supply in path_of(self.document, self.document.stations[station].supply):
            found = [share for span in wet for share in self._in_span(supply, span)]
            if len(found) >= LEAST_READINGS:
                return found
        return []

    def _in_span(self, supply: str, span: Span) -> Iterable[float]:
        readings = self.readings.get(supply, [])
        first = bisect_left(readings, (span[0] + SETTLING.settle_s, -1))
        for at, reading in readings[first : bisect_left(readings, (span[1], -1))]:
            if draw := _level(self.draws[supply], at):
                yield reading / draw


def _draws(
    document: Document, spans: Iterable[tuple[str, int, int]], flow: Mapping[str, int]
) -> dict[str, list[tuple[int, int]]]:
    """Each supply's draw: from each instant on, so many mL/min."""
    changes: dict[str, dict[int, int]] = {supply: defaultdict(int) for supply in document.supplies}
    for station, start, end in spans:
        for supply in path_of(document, document.stations[station].supply):
            changes[supply][start] += flow[station]
            changes[supply][end] -= flow[station]
    return {supply: _running(steps) for supply, steps in changes.items()}


def _running(changes: Mapping[int, int]) -> list[tuple[int, int]]:
    level, out = 0, []
    for at in sorted(changes):
        level += changes[at]
        out.append((at, level))
    return out


def _level(steps: Sequence[tuple[int, int]], at: int) -> int:
    place = bisect_right(steps, at, key=lambda step: step[0])
    return steps[place - 1][1] if place else 0
