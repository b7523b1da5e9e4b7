"""When each station may run: its water windows less its closures, less the time its source needs to fill the pipes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeVar

from ..clock.spans import RealSpan, closure_spans, window_spans
from ..document.tables import Closure, Station, Window
from ..message import Message
from .dues import Due
from .problem import Span
from .spans import common, merged, without
from .tonight import Tonight

ScopeKey = tuple[str | None, str | None, str | None, str | None, str | None]
"""Supply, controller, hydrozone, program, station that a window or closure speaks of."""
WHOLE_SITE: ScopeKey = (None, None, None, None, None)
S = TypeVar("S", Window, Closure)


@dataclass(frozen=True, slots=True)
class Shut:
    """A closure and its spans tonight."""

    closure: Closure
    spans: list[Span]


@dataclass(frozen=True, slots=True)
class Calendar:
    """When a station may run, and what makes it so.

    `spans` is what is left. `windows`: where every window that speaks of it is open. `opened_by`: which window opens
    at a second. `shut`: the closures that speak of it and fall in this night. `filled`: where its source has filled
    the pipes, None if it needs no time for that. `narrowest` lists the windows of the scope that opens least.
    `edges`: the seconds at which any of these lets water run. `freed`: what else let it run, and from which second.
    """

    spans: tuple[Span, ...]
    windows: tuple[Span, ...]
    opened_by: dict[int, str]
    shut: tuple[Shut, ...]
    filled: tuple[Span, ...] | None
    narrowest: tuple[str, ...]
    edges: tuple[int, ...]
    freed: tuple[tuple[int, Message], ...] = ()


class Calendars:
    """The calendars of one night, each made once however many stations share it."""

    def __init__(self, tonight: Tonight) -> None:
        self.tonight = tonight
        self.whole_night: list[Span] = [(0, tonight.length)]
        self.windows: dict[ScopeKey, list[tuple[Window, list[Span]]]] = {}
        for window in _by_id(tonight.document.windows.values()):
            self.windows.setdefault(scope_of(window), []).append((window, self._window_spans(window)))
        self.shut = [
            Shut(closure, spans)
            for closure in _by_id(tonight.document.closures.values())
            if (spans := self._closure_spans(closure))
        ]
        self._made: dict[tuple[tuple[ScopeKey, ...], tuple[str, ...], str | None], Calendar] = {}
        self._paths = {supply: tonight.path(supply) for supply in tonight.document.supplies}

    def of(self, due: Due) -> Calendar:
        """The calendar of one due turn."""
        program = due.program.id if due.program else None
        path = self._paths[due.station.supply]
        scopes = tuple(key for key in self.windows if speaks_of(key, due.station, program, path))
        shut = [one for one in self.shut if speaks_of(scope_of(one.closure), due.station, program, path)]
        source = path[-1] if self.tonight.document.supplies[path[-1]].lead_s else None
        key = (scopes, tuple(one.closure.id for one in shut), source)
        if key not in self._made:
            self._made[key] = self._make(scopes, shut, source)
        return self._made[key]

    def source_open(self, source: str) -> list[Span]:
        """When water may run from a source at all: by the windows and closures of the whole site and of the source."""
        keys: tuple[ScopeKey, ...] = (WHOLE_SITE, (source, None, None, None, None))
        shut = [span for one in self.shut if scope_of(one.closure) in keys for span in one.spans]
        return without(self._open([key for key in keys if key in self.windows]), merged(shut), self.tonight.length)

    def open_in(self, key: ScopeKey) -> list[Span]:
        """Where any window of one scope is open."""
        return merged(span for _, spans in self.windows[key] for span in spans)

    def _make(self, scopes: tuple[ScopeKey, ...], shut: list[Shut], source: str | None) -> Calendar:
        windows = self._open(list(scopes))
        filled = self._filled(source) if source else None
        spans = without(windows, merged(span for one in shut for span in one.spans), self.tonight.length)
        opened_by = {
            span[0]: window.id
            for key in reversed(scopes)
            for window, own in reversed(self.windows[key])
            for span in own
        }
        edges = {span[0] for span in (*windows, *(filled or ()))} | {end for one in shut for _, end in one.spans}
        least = min(scopes, key=lambda key: (_total(self.open_in(key)), scopes.index(key)), default=None)
        return Calendar(
            spans=tuple(spans if filled is None else common(spans, filled)),
            windows=tuple(windows),
            opened_by=opened_by,
            shut=tuple(shut),
            filled=None if filled is None else tuple(filled),
            narrowest=tuple(window.id for window, _ in self.windows[least]) if least else (),
            edges=tuple(sorted(edges)),
        )

    def _open(self, scopes: list[ScopeKey]) -> list[Span]:
        """Windows of one scope add up; of several scopes, all must be open. No window at all: the whole night."""
        spans = self.whole_night
        for key in scopes:
            spans = common(spans, self.open_in(key))
        return spans

    def _filled(self, source: str) -> list[Span]:
        """The source's open spans, each later by its lead time."""
        lead = self.tonight.document.supplies[source].lead_s
        return [(start + lead, end) for start, end in self.source_open(source) if start + lead < end]

    def _window_spans(self, window: Window) -> list[Span]:
        tonight = self.tonight
        return self._seconds(window_spans(window, tonight.night, tonight.clock, tonight.place))

    def _closure_spans(self, closure: Closure) -> list[Span]:
        tonight = self.tonight
        return self._seconds(closure_spans(closure, tonight.night, tonight.clock, tonight.place))

    def _seconds(self, spans: Iterable[RealSpan]) -> list[Span]:
        return [(self.tonight.second(start), self.tonight.second(end)) for start, end in spans]


def scope_of(scope: Window | Closure) -> ScopeKey:
    """What a window or closure speaks of, as a key: windows with equal keys add up."""
    return scope.supply, scope.controller, scope.hydrozone, scope.program, scope.station


def speaks_of(key: ScopeKey, station: Station, program: str | None, path: tuple[str, ...]) -> bool:
    """Whether everything that the scope names is true of the station; a supply means all that hangs on it."""
    supply, controller, hydrozone, its_program, its_station = key
    return (
        (supply is None or supply in path)
        and (controller is None or controller == station.controller)
        and (hydrozone is None or hydrozone == station.hydrozone)
        and (its_program is None or its_program == program)
        and (its_station is None or its_station == station.id)
    )


def _by_id(records: Iterable[S]) -> list[S]:
    return sorted(records, key=lambda record: record.id)


def _total(spans: list[Span]) -> int:
    return sum(end - start for start, end in spans)
