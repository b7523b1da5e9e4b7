"""Each station's own flow, learned from clean moments: what its meter showed with it alone, or as it came and went.

A clean moment is a steady stretch (see `gauge`) in which nothing was noticed at the station's source. One night gives
a station one figure, the median of its moments; nights together give a median, a spread, and how many there are.
The spread is 1.4826 times the median distance from the median, which is the standard deviation where errors are
normal (constant from memory).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from math import sqrt
from statistics import median

from ..plan.water import litres
from .gauge import Segment
from .watch import Watch

KEPT_NIGHTS = 60
LEAST_NIGHTS = 3
"""A flow resting on fewer nights is not yet used in the document's place. Common practice, no source."""
MOST_OFF_SHARE = 0.05
"""Nor is one that may itself be off by more than this share of it. Common practice, no source."""
OFF_BY = 1.2533
"""The standard error of a median, in spreads over the root of how many: where errors are normal (from memory)."""
LEAST_READINGS = 2
LONGEST_GAP_S = 300
MOST_TOGETHER = 8
NORMAL = 1.4826


@dataclass(frozen=True, slots=True)
class Own:
    """A station's own flow and its spread in L/min, and the number of nights that they rest on."""

    flow_lpm: float
    spread_lpm: float
    nights: int

    @property
    def is_firm(self) -> bool:
        """Whether it rests on enough nights, and they agree well enough, to stand in the document's place."""
        off = OFF_BY * self.spread_lpm / sqrt(self.nights)
        return self.nights >= LEAST_NIGHTS and off <= MOST_OFF_SHARE * self.flow_lpm


@dataclass(frozen=True, slots=True)
class Learned:
    """For each station its figures by night (`YYYY-MM-DD`, L/min), in order, the latest `KEPT_NIGHTS` of them."""

    nights: Mapping[str, tuple[tuple[str, float], ...]] = field(default_factory=dict)

    def own(self, station: str) -> Own | None:
        """The station's own flow, on however many nights it rests."""
        flows = [flow for _, flow in self.nights.get(station, ())]
        return _own(flows) if flows else None

    def flows(self) -> dict[str, float]:
        """The flows that are firm enough to stand in the document's place."""
        found = {station: self.own(station) for station in self.nights}
        return {station: one.flow_lpm for station, one in found.items() if one and one.is_firm}

    def with_night(self, night: str, flows: Mapping[str, float]) -> Learned:
        """One night more, or one night anew."""
        out = dict(self.nights)
        for station, flow in flows.items():
            others = [one for one in out.get(station, ()) if one[0] != night]
            out[station] = tuple(sorted([*others, (night, flow)])[-KEPT_NIGHTS:])
        return Learned(out)


def _own(flows: Sequence[float]) -> Own:
    middle = median(flows)
    spread = NORMAL * median(abs(flow - middle) for flow in flows)
    return Own(round(middle, 3), round(spread, 3), len(flows))


Part = tuple[Segment, frozenset[str]]


def night_flows(watch: Watch) -> dict[str, float]:
    """Each station's flow in L/min by the clean moments of a watched night; stations without any are left out.

    First the firm ones; then what is left where all others are known by that; then, for those that only ever run
    together, what is left of them all, shared out as the flows known so far. The sums of those are right, and each by
    itself may not be.
    """
    parts = _parts(watch)
    flows = _firm(parts)
    for most_unknown in (1, 1, 2, 3, MOST_TOGETHER):
        flows = {**_medians(_rest(watch, parts, flows, most_unknown)), **flows}
    return _in_litres(flows)


def firm_flows(watch: Watch) -> dict[str, float]:
    """Those of `night_flows` that were seen alone, or coming and going alone: the ones to look for drift in."""
    return _in_litres(_firm(_parts(watch)))


def _in_litres(flows: Mapping[str, float]) -> dict[str, float]:
    return {station: litres(round(flow)) for station, flow in sorted(flows.items())}


def _parts(watch: Watch) -> list[list[Part]]:
    """Each meter's clean stretches and who was open in them, the lowest meters first."""
    deepest = sorted(watch.gauges, key=lambda supply: (-len(watch.tree.paths[supply]), supply))
    return [[(part, _open_below(watch, supply, part)) for part in _clean(watch, supply)] for supply in deepest]


def _firm(parts: Iterable[Sequence[Part]]) -> dict[str, float]:
    return _medians(one for stretch in parts for one in (*_alone(stretch), *_steps(stretch)))


def _medians(found: Iterable[tuple[str, float]]) -> dict[str, float]:
    by_station: dict[str, list[float]] = defaultdict(list)
    for station, flow in found:
        by_station[station].append(flow)
    return {station: median(flows) for station, flows in by_station.items()}


def _alone(parts: Iterable[Part]) -> Iterator[tuple[str, float]]:
    for part, running in parts:
        if len(running) == 1:
            yield next(iter(running)), part.total / part.count


def _rest(
    watch: Watch, parts: Iterable[Sequence[Part]], flows: Mapping[str, float], most_unknown: int
) -> Iterator[tuple[str, float]]:
    """What known stations leave of a reading, for up to so many unknown ones."""
    for part, running in (one for stretch in parts for one in stretch):
        unknown = running - flows.keys()
        if 0 < len(unknown) <= most_unknown:
            left = part.total / part.count - sum(flows[station] for station in running & flows.keys())
            planned = {station: watch.valves.stations[station].flow for station in unknown}
            for station, flow in planned.items():
                yield station, flow * left / sum(planned.values())


def _clean(watch: Watch, supply: str) -> Iterator[Segment]:
    """The steady stretches of a meter in which nothing was noticed at its source."""
    source = watch.tree.source(supply)
    spells = [
        (start or 0, end)
        for case in watch.cases.all
        if case.supply is None or watch.tree.source(case.supply) == source
        for start, _, end in case.spells
    ]
    for part in watch.gauges[supply].averages():
        noticed = any(start <= part.end and (end is None or end >= part.start) for start, end in spells)
        if part.count >= LEAST_READINGS and not noticed:
            yield part


def _open_below(watch: Watch, supply: str, part: Segment) -> frozenset[str]:
    """The stations below a supply that were open all through a stretch."""
    return frozenset(
        id
        for id, station in watch.valves.stations.items()
        if supply in station.path and any(span.start <= part.start and span.end >= part.end for span in station.spans)
    )


def _steps(parts: Sequence[Part]) -> Iterator[tuple[str, float]]:
    """What a meter showed more or less as one station alone came or went."""
    for (before, was), (after, now) in zip(parts, parts[1:], strict=False):
        moved = was ^ now
        if len(moved) == 1 and after.start - before.end <= LONGEST_GAP_S:
            change = after.total / after.count - before.total / before.count
            yield next(iter(moved)), change if now > was else -change
