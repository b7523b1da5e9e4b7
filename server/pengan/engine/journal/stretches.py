"""What meters showed since a fault began, in steady stretches of time: what culprits are weighed by.

For a lack the meters above, and those beside the way up, are asked as well: they tell how far up it goes. Flows are
mL/min.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from .case import Case

if TYPE_CHECKING:
    from .watch import Watch

ERROR_SHARE, ERROR = 0.02, 500
"""How far a settled average may be off: a share of the draw, and so many mL/min besides."""
COSTS, COSTS_OFF, FRICTION = 0.25, 0.15, 1.85
"""What escapes costs the others such a share of it in pressure for each full pipe on its way, give or take so much.
Friction grows with this power of the flow (the Hazen-Williams formula); the shares are common practice, no source."""
HALF_FULL, LEAST_LEFT = 0.5, 0.3
"""How full a pipe without a limit is taken to be, and the least of it that a meter shows of what escapes."""
FRESH_S = 180
"""A reading tells of now for so long. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """A steady stretch at one meter: how far its average was off, what was likely, and who was open all through.

    `full`: how full the pipes on the way there were with that, each from 0 to 1, and added up as friction does.
    """

    supply: str
    off: float
    likely: int
    open: frozenset[str]
    full: float

    @property
    def variance(self) -> float:
        return (ERROR_SHARE * self.likely + ERROR) ** 2 + (max(0.0, self.off) * COSTS_OFF * self.full) ** 2

    @property
    def left(self) -> float:
        """How much of what escapes a meter shows: the others give less for it."""
        return max(LEAST_LEFT, 1 - COSTS * self.full)


def stretches_of(watch: Watch, case: Case) -> list[Stretch]:
    """The steady stretches since the case was first noticed; where none shows it yet, the readings that did."""
    first = case.spells[0][1] or 0
    found = [one for node in case.members for one in _averages(watch, node, first)]
    around = [one for node in _beside(watch, case) for one in _averages(watch, node, first) or _latest(watch, node)]
    if any(2 * abs(one.off) > case.size for one in found):
        return [*found, *around]
    running = open_through(watch, first, first)
    sign = 1 if case.is_excess else -1
    shown = [_at_first(watch, node, sign * case.size, running) for node in case.members[:1]]
    return [*found, *shown, *around]


def _averages(watch: Watch, node: str, first: int) -> list[Stretch]:
    return [
        _stretch(watch, node, part.off, part.likely, open_through(watch, part.start, part.end))
        for part in watch.gauges[node].averages()
        if part.start >= first
    ]


def _at_first(watch: Watch, node: str, off: float, running: frozenset[str]) -> Stretch:
    stations = watch.valves.stations
    likely = sum(stations[id].flow for id in running if node in stations[id].path)
    return _stretch(watch, node, off, likely, running)


def _latest(watch: Watch, node: str) -> list[Stretch]:
    """What a meter shows now that has gone on as before, if that is of the draw as it is."""
    gauge, level = watch.gauges[node], watch.valves.levels[node]
    fresh = watch.done - gauge.at <= FRESH_S and gauge.changes == level.changes
    if not fresh or level.low != level.high:
        return []
    running = open_through(watch, watch.done, watch.done)
    return [_stretch(watch, node, gauge.flow - level.likely, level.likely, running)]


def _beside(watch: Watch, case: Case) -> list[str]:
    """For a lack by itself the meters above it, and the others right below those."""
    if case.is_excess or not case.supply or any(one is not case and one.members for one in watch.cases.open()):
        return []
    above = [node for node in watch.tree.paths[case.supply][1:] if node in watch.gauges]
    below = {other for node in above for other in watch.tree.below(node, watch.gauges)}
    return sorted({*above, *below} - {*case.members, *watch.tree.paths[case.supply][:1]})


def _stretch(watch: Watch, node: str, off: float, likely: int, running: frozenset[str]) -> Stretch:
    return Stretch(node, off, likely, running, sum(_full(watch, one, running) for one in watch.tree.paths[node]))


def _full(watch: Watch, supply: str, running: frozenset[str]) -> float:
    stations = (watch.valves.stations[id] for id in running)
    likely = sum(one.flow for one in stations if supply in one.path)
    limit = watch.document.supplies[supply].limit_lpm
    share = (HALF_FULL if limit is None else min(1.0, likely / (1000 * limit))) if likely else 0.0
    return float(share**FRICTION)


def open_through(watch: Watch, start: int, end: int) -> frozenset[str]:
    """The stations that were open from one instant to another."""
    return frozenset(
        id for id, found in watch.valves.openings.items()
        if any(one.start <= start and (one.end is None or one.end >= end) for one in found)
    ) | frozenset(
        id for id, one in watch.valves.stations.items()
        if any(span.sure and span.start <= start and span.end >= end for span in one.spans)
    )  # fmt: skip
