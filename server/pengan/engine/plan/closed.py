"""The spans of a night that are closed to water, as the picture of the night draws them."""

from __future__ import annotations

from collections.abc import Iterator

from .calendars import WHOLE_SITE, Calendars, Shut, scope_of, speaks_of
from .dues import turns_by_program
from .sheet import ClosedSpan
from .spans import rest_of


def closed_spans(calendars: Calendars) -> tuple[ClosedSpan, ...]:
    """Where no window of the site or of a supply is open, and every closure; for each supply whose stations it means.

    Windows of single programs, stations, controllers and hydrozones are left out: they are hours of those, and no
    span in which the supply is closed.
    """
    found = [*_outside_windows(calendars), *(span for shut in calendars.shut for span in _shut(calendars, shut))]
    return tuple(sorted(found, key=lambda span: (span.start, span.end, span.closure or "", span.supply or "")))


def _outside_windows(calendars: Calendars) -> Iterator[ClosedSpan]:
    tonight = calendars.tonight
    for key in calendars.windows:
        supply, *others = key
        if any(others):
            continue
        for start, end in rest_of(calendars.open_in(key), tonight.length):
            yield ClosedSpan(None, supply, True, tonight.instant(start), tonight.instant(end))


def _shut(calendars: Calendars, shut: Shut) -> Iterator[ClosedSpan]:
    tonight = calendars.tonight
    for supply, whole in _lanes(calendars, shut):
        for start, end in shut.spans:
            yield ClosedSpan(shut.closure.id, supply, whole, tonight.instant(start), tonight.instant(end))


def _lanes(calendars: Calendars, shut: Shut) -> list[tuple[str | None, bool]]:
    """Which supplies a closure touches, and whether it means every station that hangs on them directly."""
    key = scope_of(shut.closure)
    supply, *others = key
    if key == WHOLE_SITE or not any(others):
        return [(supply, True)]
    document = calendars.tonight.document
    programs: dict[str, list[str | None]] = {station: [None] for station in document.stations}
    for program, turns in turns_by_program(calendars.tonight).items():
        for turn in turns:
            programs[turn.station].append(program)
    meant: dict[str, list[bool]] = {}
    for station in document.stations.values():
        path = calendars.tonight.path(station.supply)
        hit = any(speaks_of(key, station, program, path) for program in programs[station.id])
        meant.setdefault(station.supply, []).append(hit)
    return [(lane, all(hits)) for lane, hits in sorted(meant.items()) if any(hits)]
