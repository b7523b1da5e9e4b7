"""What each change of a site's clock does: to the nights around it, and to every time written in the document."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import TypeVar

from ..document.document import Document
from ..document.record import Record
from ..document.tables import Program
from ..message import Message, saying
from .days import holds
from .instants import EPOCH, Edge, Timeline
from .nights import Night, night_at, night_on
from .rules import DAY_S, Change
from .spans import RealSpan, closure_edges, closure_spans, window_edges, window_spans
from .sun import Place, place_of
from .times import moment_on, read_time
from .zones import SiteClock

AnyRecord = TypeVar("AnyRecord", bound=Record)

START_MISSING = saying(
    "clock.start_missing", "{edge_clock} does not come: program {program} starts at {moved_at} instead."
)
START_TWICE = saying("clock.start_twice", "{edge_clock} comes twice: program {program} starts once, the first time.")
OPENS_MISSING = saying("clock.opens_missing", "{edge_clock} does not come: window {window} opens as the clock leaps.")
CLOSES_MISSING = saying(
    "clock.closes_missing", "{edge_clock} does not come: window {window} closes as the clock leaps."
)
WINDOW_TWICE = saying(
    "clock.window_twice",
    "{edge_clock} comes twice: window {window} is open only while the clock reads a time within it.",
)
CLOSED_MISSING = saying(
    "clock.closed_missing", "{edge_clock} does not come: closure {closure} starts as the clock leaps."
)
FREED_MISSING = saying("clock.freed_missing", "{edge_clock} does not come: closure {closure} ends as the clock leaps.")
CLOSED_TWICE = saying("clock.closed_twice", "{edge_clock} comes twice: closure {closure} starts the first time.")
FREED_TWICE = saying("clock.freed_twice", "{edge_clock} comes twice: closure {closure} ends the second time.")
WINDOW_LASTS = saying("clock.window_lasts", "Window {window} is open for {night_s} instead of {usual_s}.")
CLOSURE_LASTS = saying("clock.closure_lasts", "Closure {closure} lasts {night_s} instead of {usual_s}.")


@dataclass(frozen=True, slots=True)
class Effect:
    """One change and what it does. Wall times from `first` up to `last` are missing that night, or come twice.

    `touched` speaks of program starts, windows and closures that fall in them, then of those that last longer or
    shorter in this night.
    """

    change: Change
    night: Night
    before: Night
    after: Night
    first: datetime
    last: datetime
    touched: tuple[Message, ...]


def effects(document: Document, clock: SiteClock, start: int, end: int) -> Iterator[Effect]:
    """The effect of each change from `start` up to and without `end`, in order of time."""
    for change in clock.changes(start, end):
        night = night_at(clock, change.at)
        walls = sorted((change.at + change.before_s, change.at + change.after_s))
        yield Effect(
            change,
            night,
            night_on(clock, night.date - timedelta(days=1)),
            night_on(clock, night.date + timedelta(days=1)),
            EPOCH + timedelta(seconds=walls[0]),
            EPOCH + timedelta(seconds=walls[1]),
            tuple(_Looking(document, clock, place_of(document.site), change, night).touched()),
        )


@dataclass(frozen=True, slots=True)
class _Looking:
    """One change, and all that is needed to see what it touches."""

    document: Document
    clock: SiteClock
    place: Place | None
    change: Change
    night: Night

    def touched(self) -> Iterator[Message]:
        for program in _by_id(self.document.programs.values()):
            yield from self.start(program)
        yield from self.window_ends()
        yield from self.closure_ends()
        yield from self.lengths()

    def start(self, program: Program) -> Iterator[Message]:
        if program.start is None or read_time(program.start).event is not None:
            return
        for days in (-1, 0, 1, 2):
            day = self.night.date + timedelta(days=days)
            wall_s = (day - EPOCH.date()).days * DAY_S + read_time(program.start).seconds
            if not self.is_touched(Edge(wall_s, is_wall=True)) or not holds(program, _date_of(wall_s)):
                continue
            if self.change.step_s < 0:
                yield START_TWICE(program=program.id, edge_clock=program.start)
            else:
                moved = moment_on(program.start, day, self.clock, self.place)
                yield START_MISSING(program=program.id, edge_clock=program.start, moved_at=moved)

    def window_ends(self) -> Iterator[Message]:
        forward = self.change.step_s > 0
        for window in _by_id(self.document.windows.values()):
            for opens, closes in window_edges(window, self.night, self.clock, self.place):
                if self.is_touched(opens):
                    what = OPENS_MISSING if forward else WINDOW_TWICE
                    yield what(window=window.id, edge_clock=_clock_text(opens))
                if self.is_touched(closes, ends=True):
                    what = CLOSES_MISSING if forward else WINDOW_TWICE
                    yield what(window=window.id, edge_clock=_clock_text(closes))

    def closure_ends(self) -> Iterator[Message]:
        forward = self.change.step_s > 0
        for closure in _by_id(self.document.closures.values()):
            for starts, ends in closure_edges(closure, self.night, self.clock, self.place):
                if self.is_touched(starts):
                    what = CLOSED_MISSING if forward else CLOSED_TWICE
                    yield what(closure=closure.id, edge_clock=_clock_text(starts))
                if self.is_touched(ends, ends=True):
                    what = FREED_MISSING if forward else FREED_TWICE
                    yield what(closure=closure.id, edge_clock=_clock_text(ends))

    def lengths(self) -> Iterator[Message]:
        """Beside the same night on a clock that never changes."""
        steady = SiteClock(self.clock.name, self.clock.data_version, Timeline(self.change.before_s))
        usual = night_on(steady, self.night.date)
        for window in _by_id(self.document.windows.values()):
            real_s = _total(window_spans(window, self.night, self.clock, self.place))
            usual_s = _total(window_spans(window, usual, steady, self.place))
            if real_s != usual_s:
                yield WINDOW_LASTS(window=window.id, night_s=real_s, usual_s=usual_s)
        for closure in _by_id(self.document.closures.values()):
            real_s = _total(closure_spans(closure, self.night, self.clock, self.place))
            usual_s = _total(closure_spans(closure, usual, steady, self.place))
            if real_s != usual_s:
                yield CLOSURE_LASTS(closure=closure.id, night_s=real_s, usual_s=usual_s)

    def is_touched(self, edge: Edge, *, ends: bool = False) -> bool:
        """Whether a wall time is missing, or comes twice. A span that ends just where a gap begins misses nothing."""
        first, last = sorted((self.change.at + self.change.before_s, self.change.at + self.change.after_s))
        return edge.is_wall and first + ends <= edge.seconds < last


def _by_id(records: Iterable[AnyRecord]) -> list[AnyRecord]:
    return sorted(records, key=lambda record: record.id)


def _total(spans: list[RealSpan]) -> int:
    return sum(end - start for start, end in spans)


def _date_of(wall_s: int) -> date:
    return (EPOCH + timedelta(seconds=wall_s)).date()


def _clock_text(edge: Edge) -> str:
    return (EPOCH + timedelta(seconds=edge.seconds)).strftime("%H:%M")
