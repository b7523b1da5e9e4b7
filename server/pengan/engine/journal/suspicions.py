"""Who may be behind a finding, what each would make the meters show, and how likely each is before that is looked at.

Weights say how much likelier one cause is than another to begin just then. A valve's fault begins as the valve moves:
what does not close shows at its closing, what gives no water at its opening, and a closed valve hardly ever opens by
itself. What lies below a valve can only break while it is open, and does so the sooner as pressure comes. A controller
that was heard since has power, one that is overdue may have none. The weights are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from .case import Case
from .finding import Cause
from .stretches import Stretch

if TYPE_CHECKING:
    from .watch import Watch

FLOW_SHARE = 0.05
"""How far a station's flow may be off, as a share of it."""
POWER_SHARE = 0.03
"""How far the flow of all that one controller has open may be off, as a share of it."""
MOVING_S, READ_S = 180, 120
"""A fault began with a valve's move if that was so long before it, or so long after the last reading without it."""

AT_ITS_MOVE, AS_PRESSURE_COMES, MEANWHILE, HARDLY = 5.0, 3.0, 1.0, 0.005
"""A valve's own fault as it moves, a break as water comes and while it is there, and any of them at another time."""
SELDOM = 0.1
"""A valve that has given water closes by itself, or a station comes to give less in the middle of its run."""
HEARD, OVERDUE = 0.01, 10.0
"""No power at a controller that was heard since, and at one that should have been heard by now."""


@dataclass(frozen=True, slots=True)
class Suspicion:
    """Foretells `factor * size` for each stretch. `size` None: unknown, up to `most`; else known to within `within`."""

    cause: Cause
    name: tuple[str | None, str | None, str | None]
    factors: tuple[float, ...]
    weight: float
    most: float = 1.0
    size: float | None = None
    within: float = 0.0


@dataclass(frozen=True, slots=True)
class Onset:
    """What one station's valve did about when a case began."""

    opened: bool
    closed: bool
    open: bool


def suspicions(watch: Watch, case: Case, stretches: Sequence[Stretch]) -> Iterator[Suspicion]:
    """Everything that may be behind a case about water and that these stretches can tell of."""
    zone = {id: _onset(watch, id, case.since) for id in _zone(watch, case)}
    found = _of_excess(watch, case, stretches, zone) if case.is_excess else _of_lack(watch, case, stretches, zone)
    return (one for one in found if any(one.factors))


def _of_excess(watch: Watch, case: Case, stretches: Sequence[Stretch], zone: dict[str, Onset]) -> Iterator[Suspicion]:
    most = 3.0 * case.size + 50_000
    for id, then in zone.items():
        station = watch.valves.stations[id]
        here = [one.left if one.supply in station.path else 0.0 for one in stretches]
        on = tuple(left * (id in one.open) for left, one in zip(here, stretches, strict=True))
        off = tuple(left * (id not in one.open) for left, one in zip(here, stretches, strict=True))
        broke = AS_PRESSURE_COMES if then.opened else MEANWHILE if then.open else HARDLY
        yield Suspicion(Cause.BREAK, (id, None, None), on, broke, most)
        stuck = AT_ITS_MOVE if then.closed else HARDLY
        yield Suspicion(Cause.STUCK_OPEN, (id, None, None), off, stuck, most, station.flow, FLOW_SHARE * station.flow)
    if case.supply:
        always = tuple(one.left * (one.supply in watch.tree.paths[case.supply]) for one in stretches)
        yield Suspicion(Cause.BREAK, (None, case.supply, None), always, MEANWHILE, most)


def _of_lack(watch: Watch, case: Case, stretches: Sequence[Stretch], zone: dict[str, Onset]) -> Iterator[Suspicion]:
    for id, then in zone.items():
        station = watch.valves.stations[id]
        on = tuple(float(one.supply in station.path and id in one.open) for one in stretches)
        dead = AT_ITS_MOVE if then.opened else SELDOM if then.open else HARDLY
        within = FLOW_SHARE * station.flow
        yield Suspicion(Cause.DEAD_VALVE, (id, None, None), on, dead, 1.0, -station.flow, within)
        low = MEANWHILE if then.opened else SELDOM
        yield Suspicion(Cause.LOW_FLOW, (id, None, None), on, low, station.flow)
    for supply in watch.tree.paths[case.supply] if case.supply else ():
        share = tuple(float(_taken(watch, one, supply=supply)) for one in stretches)
        yield Suspicion(Cause.CLOGGED, (None, supply, None), share, MEANWHILE)
    for controller in watch.document.controllers:
        taken = tuple(float(_taken(watch, one, controller)) for one in stretches)
        weight = _without_power(watch, controller, case.since)
        yield Suspicion(Cause.NO_POWER, (None, None, controller), taken, weight, 1.0, -1.0, POWER_SHARE)
    if len(ruled := _ruling(watch, stretches)) > 1:
        taken = tuple(float(sum(_taken(watch, one, controller) for controller in ruled)) for one in stretches)
        weight = min(_without_power(watch, controller, case.since) for controller in ruled)
        yield Suspicion(Cause.NO_POWER, (None, None, None), taken, weight, 1.0, -1.0, POWER_SHARE)


def _ruling(watch: Watch, stretches: Sequence[Stretch]) -> list[str]:
    """The controllers that had any of these stations open."""
    running = {id for one in stretches for id in one.open}
    found = {watch.valves.stations[id].controller for id in running}
    return sorted(one for one in found if one is not None)


def _without_power(watch: Watch, controller: str, since: int) -> float:
    if watch.silence.last.get(controller, -1) > since + READ_S:
        return HEARD
    return OVERDUE if controller in watch.silence.quiet else MEANWHILE


def _taken(watch: Watch, stretch: Stretch, controller: str | None = None, supply: str | None = None) -> int:
    """What the open stations of a controller, or below a supply, should take through a meter."""
    stations = (watch.valves.stations[id] for id in stretch.open)
    return sum(
        one.flow for one in stations
        if stretch.supply in one.path and (one.controller == controller if supply is None else supply in one.path)
    )  # fmt: skip


def _zone(watch: Watch, case: Case) -> list[str]:
    """The stations with no other meter between them and one that shows the case."""
    nodes = {*case.members, *([case.supply] if case.supply else [])}
    metered = {*watch.gauges, *nodes}
    return [
        id for id, one in watch.valves.stations.items() if next((n for n in one.path if n in metered), None) in nodes
    ]


def _onset(watch: Watch, station: str, since: int) -> Onset:
    """`since` is the last reading without the fault: what began it may have come until the next one."""
    found = watch.valves.openings.get(station, ())
    return Onset(
        opened=any(-READ_S < since - one.start < MOVING_S for one in found),
        closed=any(one.end is not None and -READ_S < since - one.end < MOVING_S for one in found),
        open=any(one.start <= since + READ_S and (one.end is None or one.end > since) for one in found),
    )
