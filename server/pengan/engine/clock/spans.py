"""Windows and closures as stretches of real time within a night.

Both are spans of the wall clock: a second counts by what the wall reads in it. A window from 22:00 to 06:00 lasts
nine hours where the clock goes back and seven where it goes forward; an edge in the hour that does not exist falls
on the change. Where a span ends inside the hour that comes twice, a window is open only while the wall reads a time
within it, and a closure stays closed until its end has passed for the last time: in doubt, no water.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, datetime, timedelta

from ..document.tables import Closure, DayRule, Window
from .days import holds
from .instants import EPOCH, Edge, Instant, instants_between, wall_seconds
from .nights import Night
from .sun import Place
from .times import edge_on
from .zones import SiteClock

RealSpan = tuple[Instant, Instant]

_DAY_S = 86_400


def window_spans(window: Window, night: Night, clock: SiteClock, place: Place | None) -> list[RealSpan]:
    """When a window is open in a night: clipped to it, merged, in order.

    Without `opens` it opens at 00:00, without `closes` it closes at 24:00. On a date on which the sun it speaks of
    does not rise or set, it stays shut. Raises `ClockFault` for a time that cannot be read.
    """
    edges = window_edges(window, night, clock, place)
    return clipped((span for pair in edges for span in instants_between(clock.timeline, *pair)), night)


def closure_spans(closure: Closure, night: Night, clock: SiteClock, place: Place | None) -> list[RealSpan]:
    """When a closure forbids water in a night: clipped to it, merged, in order.

    With `starts_on` or `ends_on` it is closed once; otherwise by day rule, the whole day where no times are given.
    On a date on which the sun it speaks of does not rise or set, the whole day is closed. Raises `ClockFault`.
    """
    edges = closure_edges(closure, night, clock, place)
    return clipped((span for pair in edges for span in _whole(clock, *pair)), night)


def window_edges(window: Window, night: Night, clock: SiteClock, place: Place | None) -> Iterator[tuple[Edge, Edge]]:
    """Both ends of every opening of a window that can reach into a night."""
    for day in _dates(window, night):
        edges = _edges(window.opens, window.closes, day, clock, place)
        if edges is not None:
            yield edges


def closure_edges(closure: Closure, night: Night, clock: SiteClock, place: Place | None) -> Iterator[tuple[Edge, Edge]]:
    """Both ends of every span of a closure that can reach into a night."""
    if closure.starts_on or closure.ends_on:
        yield _once(closure, night)
        return
    for day in _dates(closure, night):
        yield _edges(closure.starts, closure.ends, day, clock, place) or _all_day(day)


def clipped(spans: Iterable[RealSpan], night: Night) -> list[RealSpan]:
    """The parts of spans that lie in a night, sorted, with those that touch or overlap made one."""
    merged: list[RealSpan] = []
    for start, end in sorted((max(start, night.starts), min(end, night.ends)) for start, end in spans):
        if start >= end:
            continue
        if merged and start <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(merged[-1][1], end))
        else:
            merged.append((start, end))
    return merged


def _dates(rule: DayRule, night: Night) -> Iterator[date]:
    """The dates whose spans can reach into the night and on which the rule holds."""
    for days in (-1, 0, 1):
        day = night.date + timedelta(days=days)
        if holds(rule, day):
            yield day


def _edges(
    opens: str | None, closes: str | None, day: date, clock: SiteClock, place: Place | None
) -> tuple[Edge, Edge] | None:
    """Both ends of a span that opens on a date; one that would close at or before its opening closes a day later."""
    first = edge_on(opens or "00:00", day, clock, place)
    last = edge_on(closes or "24:00", day, clock, place)
    if first is None or last is None:
        return None
    if _on_wall(last, clock) <= _on_wall(first, clock):
        last = edge_on(closes or "24:00", day + timedelta(days=1), clock, place)
    return None if last is None else (first, last)


def _on_wall(edge: Edge, clock: SiteClock) -> int:
    return edge.seconds if edge.is_wall else edge.seconds + clock.offset(edge.seconds)


def _all_day(day: date) -> tuple[Edge, Edge]:
    midnight = (day - EPOCH.date()).days * _DAY_S
    return Edge(midnight, is_wall=True), Edge(midnight + _DAY_S, is_wall=True)


def _once(closure: Closure, night: Night) -> tuple[Edge, Edge]:
    """A closure's own moments; one without a start has always been, one without an end never ends."""
    first = _moment(closure.starts_on) if closure.starts_on else Edge(night.starts, is_wall=False)
    last = _moment(closure.ends_on) if closure.ends_on else Edge(night.ends, is_wall=False)
    return first, last


def _moment(text: str) -> Edge:
    return Edge(wall_seconds(datetime.fromisoformat(text)), is_wall=True)


def _whole(clock: SiteClock, opens: Edge, closes: Edge) -> list[RealSpan]:
    """One span from the first second that counts to the last, over whatever the wall repeats in between."""
    parts = list(instants_between(clock.timeline, opens, closes))
    return [(parts[0][0], parts[-1][1])] if parts else []
