"""What controllers do to valves in a night: the spans in which each is told to be open, and why each span ends."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pengan.engine.plan.problem import Span
from pengan.engine.plan.sheet import Run
from pengan.engine.plan.spans import merged, without

from .ground import Ground
from .troubles import PowerCut, Stop


@dataclass(frozen=True, slots=True)
class Order:
    """A station is told to be open from `start` to `end`, in seconds of the night. A `cut` end is told by nobody."""

    station: str
    controller: str | None
    start: int
    end: int
    cut: bool


def orders(ground: Ground) -> list[Order]:
    """What the sheet asks for, less what power cuts and stops take out of it."""
    known = (run for run in ground.sheet.runs if run.station in ground.document.stations)
    return [order for run in known for order in _of_run(ground, run)]


def _of_run(ground: Ground, run: Run) -> Iterator[Order]:
    controller = ground.document.stations[run.station].controller
    cuts = power_cuts(ground, controller)
    taken = merged([*cuts, *_stops(ground)])
    ends_by_cut = {start for start, _ in cuts}
    asked = [(max(0, ground.second(run.start)), min(ground.length, ground.second(run.end)))]
    for start, end in without(asked, taken, ground.length):
        yield Order(run.station, controller, start, end, end in ends_by_cut)


def power_cuts(ground: Ground, controller: str | None) -> list[Span]:
    """When a controller is without power; None: a valve that only a cut of the whole site reaches."""
    cuts = (trouble for trouble in ground.troubles if isinstance(trouble, PowerCut))
    return _spans(ground, [cut for cut in cuts if cut.controller in (None, controller)])


def site_cuts(ground: Ground) -> list[Span]:
    """When the whole site is without power."""
    return power_cuts(ground, None)


def _stops(ground: Ground) -> list[Span]:
    return _spans(ground, [trouble for trouble in ground.troubles if isinstance(trouble, Stop)])


def _spans(ground: Ground, troubles: list[PowerCut] | list[Stop]) -> list[Span]:
    found = (trouble.seconds(ground.sheet.starts, ground.length) for trouble in troubles)
    return merged((max(0, start), end) for start, end in found)
