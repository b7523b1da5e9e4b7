"""Which station, pipe or cabinet may be behind a finding, how sure each is, and what to run to tell them apart.

Each suspicion foretells how much more or less a meter shows in each steady stretch of time since the fault began: a
break below a valve only while that valve is open, a stuck valve just its flow and only while it should be closed, a
clogged filter a share of everything. Suspicions are weighed by how well they foretell what was read (normal errors,
Bayes' rule; an unknown size is averaged over) and by whether the fault began as a valve moved. The figures are common
practice, no source. Flows are mL/min inside.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import exp, log, pi
from typing import TYPE_CHECKING

from ..plan.water import litres
from .case import Case
from .finding import Cause, Culprit

if TYPE_CHECKING:
    from .watch import Watch

ERROR_SHARE, ERROR = 0.02, 500
"""How far a settled average may be off: a share of the draw, and so many mL/min besides."""
FLOW_SHARE = 0.05
"""How far a station's flow may be off, as a share of it."""
NIGHT_S, MOVING_S = 12 * 3600, 180
"""A fault begins anywhere in so long a night, or within so long of a valve's move."""
LEAST_SURE, MOST_CULPRITS = 0.01, 6
SURE_ENOUGH = 0.95
"""Nothing more needs to be run to be surer than this."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """A steady stretch at one meter: how far its average was off, what was likely, and who was open all through."""

    supply: str
    off: float
    likely: int
    open: frozenset[str]

    @property
    def variance(self) -> float:
        return (ERROR_SHARE * self.likely + ERROR) ** 2


@dataclass(frozen=True, slots=True)
class Suspicion:
    """Foretells `factor * size` for each stretch. `size` None: unknown, up to `most`; else known to within `within`."""

    cause: Cause
    name: tuple[str | None, str | None, str | None]
    factors: tuple[float, ...]
    began_by_moving: float
    moved: bool
    size: float | None = None
    within: float = 0.0


def culprits_of(watch: Watch, case: Case) -> tuple[Culprit, ...]:
    """The likely culprits of a case about water, the surest first."""
    stretches = _stretches(watch, case)
    sign = 1 if case.is_excess else -1
    suspicions = [one for one in _suspicions(watch, case, stretches) if any(one.factors)]
    weighed = [(_weight(one, stretches, sign, 3 * case.size + 50_000), one) for one in suspicions]
    top = max((weight for (weight, _), _ in weighed), default=0.0)
    total = sum(exp(weight - top) for (weight, _), _ in weighed)
    found = [_culprit(one, exp(weight - top) / total, size) for (weight, size), one in weighed]
    found = [one for one in found if one.sure >= LEAST_SURE]
    return tuple(sorted(found, key=lambda one: -one.sure)[:MOST_CULPRITS])


def trial(culprits: Sequence[Culprit]) -> tuple[str, ...]:
    """The station or the pair whose running alone tells most: the fault would show with a chance nearest to one half.

    Nothing where one culprit is as good as sure, or where no station's running would tell.
    """
    names = sorted({one.station for one in culprits if one.station is not None})
    if not names or culprits[0].sure >= SURE_ENOUGH:
        return ()
    groups = [*((name,) for name in names), *combinations(names, 2)]
    best = min(groups, key=lambda group: (abs(_shows(culprits, group) - 0.5), len(group), group))
    return best if 1 - SURE_ENOUGH < _shows(culprits, best) < SURE_ENOUGH else ()


def _shows(culprits: Iterable[Culprit], running: Sequence[str]) -> float:
    """How likely the fault shows while just these stations run: a pipe's always does, a stuck valve's while closed."""
    seen = 0.0
    for one in culprits:
        among = one.station in running
        seen += one.sure * (one.station is None or among != (one.cause is Cause.STUCK_OPEN))
    return round(seen, 6)


def _culprit(one: Suspicion, sure: float, size: float) -> Culprit:
    station, supply, controller = one.name
    return Culprit(one.cause, round(sure, 3), litres(round(abs(size))), station, supply, controller)


def _stretches(watch: Watch, case: Case) -> list[Stretch]:
    """The steady stretches since the case was first noticed; where none shows it yet, the readings that did."""
    found = []
    first = case.spells[0][1] or 0
    for node in case.members:
        for part in watch.gauges[node].averages():
            if part.start >= first:
                found.append(Stretch(node, part.off, part.likely, _open(watch, part.start, part.end)))
    if any(2 * abs(one.off) > case.size for one in found):
        return found
    running = _open(watch, first, first)
    sign = 1 if case.is_excess else -1
    return [*found, *(_at_first(watch, node, sign * case.size, running) for node in case.members[:1])]


def _at_first(watch: Watch, node: str, off: float, running: frozenset[str]) -> Stretch:
    stations = watch.valves.stations
    likely = sum(stations[id].flow for id in running if node in stations[id].path)
    return Stretch(node, off, likely, running)


def _open(watch: Watch, start: int, end: int) -> frozenset[str]:
    """The stations that were open from one instant to another."""
    return frozenset(
        id for id, found in watch.valves.openings.items()
        if any(one.start <= start and (one.end is None or one.end >= end) for one in found)
    ) | frozenset(
        id for id, one in watch.valves.stations.items()
        if any(span.sure and span.start <= start and span.end >= end for span in one.spans)
    )  # fmt: skip


def _suspicions(watch: Watch, case: Case, stretches: Sequence[Stretch]) -> Iterator[Suspicion]:
    zone = _zone(watch, case)
    moved = {id: _moved(watch, id, case.since) for id in zone}
    if case.is_excess:
        yield from _of_excess(watch, case, stretches, zone, moved)
    else:
        yield from _of_lack(watch, case, stretches, zone, moved)


def _of_excess(
    watch: Watch, case: Case, stretches: Sequence[Stretch], zone: Iterable[str], moved: dict[str, tuple[bool, bool]]
) -> Iterator[Suspicion]:
    for id in zone:
        flow = watch.valves.stations[id].flow
        here = [one.supply in watch.valves.stations[id].path for one in stretches]
        on = tuple(float(above and id in one.open) for above, one in zip(here, stretches, strict=True))
        off = tuple(float(above and id not in one.open) for above, one in zip(here, stretches, strict=True))
        yield Suspicion(Cause.BREAK, (id, None, None), on, 0.3, moved[id][0])
        yield Suspicion(Cause.STUCK_OPEN, (id, None, None), off, 0.7, moved[id][1], flow, FLOW_SHARE * flow)
    if case.supply:
        always = tuple(float(one.supply in watch.tree.paths[case.supply]) for one in stretches)
        yield Suspicion(Cause.BREAK, (None, case.supply, None), always, 0.0, False)


def _of_lack(
    watch: Watch, case: Case, stretches: Sequence[Stretch], zone: Iterable[str], moved: dict[str, tuple[bool, bool]]
) -> Iterator[Suspicion]:
    for id in zone:
        station = watch.valves.stations[id]
        on = tuple(float(one.supply in station.path and id in one.open) for one in stretches)
        yield Suspicion(
            Cause.DEAD_VALVE, (id, None, None), on, 0.7, moved[id][0], -station.flow, FLOW_SHARE * station.flow
        )
        yield Suspicion(Cause.LOW_FLOW, (id, None, None), on, 0.3, moved[id][0])
    if case.supply:
        share = tuple(float(one.likely) for one in stretches)
        yield Suspicion(Cause.CLOGGED, (None, case.supply, None), share, 0.0, False)
    for controller in watch.document.controllers:
        taken = tuple(float(_taken(watch, controller, one)) for one in stretches)
        yield Suspicion(Cause.NO_POWER, (None, None, controller), taken, 0.0, False, -1.0, 0.03)


def _taken(watch: Watch, controller: str, stretch: Stretch) -> int:
    """What a controller's open stations should take through a meter."""
    stations = watch.valves.stations
    return sum(
        stations[id].flow
        for id in stretch.open
        if stations[id].controller == controller and stretch.supply in stations[id].path
    )


def _zone(watch: Watch, case: Case) -> list[str]:
    """The stations with no other meter between them and one that shows the case."""
    nodes = {*case.members, *([case.supply] if case.supply else [])}
    metered = {*watch.gauges, *nodes}
    return [
        id for id, one in watch.valves.stations.items() if next((n for n in one.path if n in metered), None) in nodes
    ]


def _moved(watch: Watch, station: str, since: int) -> tuple[bool, bool]:
    """Whether a station opened, and whether it closed, about when a case began."""
    found = watch.valves.openings.get(station, ())
    opened = any(-MOVING_S < since - one.start < MOVING_S for one in found)
    return opened, any(one.end is not None and -MOVING_S < since - one.end < MOVING_S for one in found)


def _weight(one: Suspicion, stretches: Sequence[Stretch], sign: int, most: float) -> tuple[float, float]:
    """The logarithm of how likely a suspicion makes what was read, and its size."""
    own, mixed, squares = 0.0, 0.0, 0.0
    for factor, stretch in zip(one.factors, stretches, strict=True):
        own += factor * factor / stretch.variance
        mixed += factor * stretch.off / stretch.variance
        squares += stretch.off * stretch.off / stretch.variance
    if one.size is None:
        fit, size = _of_any_size(own, mixed, sign, most, max(map(abs, one.factors)))
    else:
        tight = 1 / one.within**2
        size = (mixed + one.size * tight) / (own + tight)
        fit = (size * size * (own + tight) - one.size**2 * tight - log((own + tight) / tight)) / 2
    return fit - squares / 2 + _onset(one), size * max(map(abs, one.factors))


def _of_any_size(own: float, mixed: float, sign: int, most: float, factor: float) -> tuple[float, float]:
    size = mixed / own
    if size * sign <= 0:
        return -1e6, size
    return mixed * mixed / own / 2 + log(2 * pi / own) / 2 - log(most / factor), size


def _onset(one: Suspicion) -> float:
    """The logarithm of how likely a fault of this cause begins when it did."""
    anywhen = (1 - one.began_by_moving) / NIGHT_S
    return log(anywhen + (one.began_by_moving / MOVING_S if one.moved else 0.0))
