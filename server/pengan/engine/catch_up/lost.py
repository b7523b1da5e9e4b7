"""Why water that was due does not come any more tonight."""

from __future__ import annotations

from collections.abc import Sequence

from ..message import Message, saying
from ..plan.problem import Span
from ..plan.spans import common
from .left import Left

NO_POWER = saying(
    "short.no_power", "Missed while {controller} had no power; what was missed is lost, the night keeps to the clock."
)
NO_SITE_POWER = saying(
    "short.no_site_power", "Missed while there was no power; what was missed is lost, the night keeps to the clock."
)
SHUT = saying(
    "short.shut", "Missed while {supply} gave no water; what was missed is lost, the night keeps to the clock."
)
STOPPED = saying(
    "short.stopped", "Missed while all watering was stopped; what was missed is lost, the night keeps to the clock."
)
UNOPENED = saying(
    "short.unopened",
    "Its valve was not open for as long as planned; what was missed is lost, the night keeps to the clock.",
)
NO_TIME_LEFT = saying(
    "short.no_time_left",
    "From {from_at} on, windows, closures and interruptions leave it nowhere the {needed_s} that it needs.",
)


def by_the_clock(left: Left, c: int) -> Message:
    """Why a turn loses water where the night keeps to the clock: the outage that took most of its planned time."""
    due = left.built.dues[c]
    told = next((short.why for short in left.before.shortfalls if short.turn == due.key), None)
    runs = [(run.start, run.end) for run in left.before.runs if run.turn == due.key]
    outages, cabinet = left.happened.outages, due.station.controller
    power = NO_SITE_POWER() if cabinet is None else NO_POWER(controller=cabinet)
    causes: list[tuple[Sequence[Span], Message]] = [
        (outages.power.get(cabinet, ()), power),
        (outages.shut.get(due.station.supply, ()), SHUT(supply=due.station.supply)),
        (outages.stopped, STOPPED()),
    ]
    taken = [sum(end - start for start, end in common(runs, spans)) for spans, _ in causes]
    if not any(taken):
        return told or UNOPENED()
    return causes[taken.index(max(taken))][1]


def no_time_left(left: Left, needed: int) -> Message:
    """Why a cycle cannot run any more even with nothing else open."""
    return NO_TIME_LEFT(from_at=left.built.tonight.instant(left.now), needed_s=needed)
