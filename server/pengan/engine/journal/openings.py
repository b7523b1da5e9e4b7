"""When each valve was open, from what was told of it: late, doubled, out of order, and with parts missing."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import groupby

from ..document.document import Document
from ..message import Message, saying
from ..plan.sheet import NightSheet, Run
from .entry import Entry, Kind
from .in_order import in_order

SAME_S = 30
"""A second telling of an opening within so many seconds is the same one. Common practice, no source."""

OPENING_UNTOLD = saying(
    "journal.opening_untold",
    "Nothing told of {station} being opened before it closed at {end_at}; taken from {start_at}.",
)
CLOSING_UNTOLD = saying(
    "journal.closing_untold", "Nothing told of {station} being closed after it opened at {start_at}; taken as {end_at}."
)


class Edge(StrEnum):
    """How it is known that an opening began or ended."""

    TOLD = "told"
    POWER = "power"  # its controller lost its power, or had it back
    GUESSED = "guessed"  # nothing was told: from the sheet, or from what came next


@dataclass(frozen=True, slots=True)
class Opening:
    """One valve open from `start` to `end` (instants). `end` None: nothing has ended it yet, and so `ended` is None."""

    station: str
    start: int
    end: int | None
    began: Edge = Edge.TOLD
    ended: Edge | None = Edge.TOLD


def openings(document: Document, entries: Iterable[Entry], sheet: NightSheet | None = None) -> tuple[Opening, ...]:
    """Every opening that a night's entries tell of, by start and station.

    A loss of power at the station's controller, or of the whole site, closes its valve. What is missing is taken from
    the sheet's runs where there is one. Without: a closing that was never told is put at the next opening, and an
    opening that was never told is not made up.
    """
    runs = _runs_by_station(sheet)
    spans = [
        opening
        for station, told in _by_station(document, in_order(entries)).items()
        for opening in openings_of(station, told, runs.get(station, ()))
    ]
    return tuple(sorted(spans, key=lambda one: (one.start, one.station)))


def openings_of(station: str, told: Sequence[Entry], runs: Sequence[Run]) -> tuple[Opening, ...]:
    """One station's openings, from what concerns its valve, in order, and its runs."""
    return tuple(_Valve(station, runs).read(told))


def doubts(found: Iterable[Opening]) -> Iterator[Message]:
    """What was taken for granted in these openings, for people to read."""
    for one in found:
        if one.began is Edge.GUESSED:
            yield OPENING_UNTOLD(station=one.station, start_at=one.start, end_at=one.end)
        if one.ended is Edge.GUESSED:
            yield CLOSING_UNTOLD(station=one.station, start_at=one.start, end_at=one.end)


def _runs_by_station(sheet: NightSheet | None) -> Mapping[str, Sequence[Run]]:
    runs: dict[str, list[Run]] = defaultdict(list)
    for run in sorted(sheet.runs, key=lambda run: run.start) if sheet else ():
        runs[run.station].append(run)
    return runs


def _by_station(document: Document, told: Iterable[Entry]) -> dict[str, list[Entry]]:
    """For each station what concerns its valve, the power of its controller included."""
    powered = defaultdict(list)
    for station in document.stations.values():
        powered[station.controller].append(station.id)
    out: dict[str, list[Entry]] = {station: [] for station in document.stations}
    for entry in told:
        if entry.kind in (Kind.OPENED, Kind.CLOSED) and entry.station in out:
            out[entry.station].append(entry)
        elif entry.kind in (Kind.POWER_LOST, Kind.POWER_BACK):
            for darkened in out if entry.controller is None else powered[entry.controller]:
                out[darkened].append(entry)
    return out


class _Valve:
    """Reads one station's entries in order, holding what is open and since when."""

    def __init__(self, station: str, runs: Sequence[Run]) -> None:
        self.station, self.runs = station, runs
        self.open: Opening | None = None
        self.ended = self.powered = -1
        self.dark = False

    def read(self, told: Sequence[Entry]) -> Iterator[Opening]:
        for entry in _with_twins_in_place(told):
            if entry.kind is Kind.OPENED:
                yield from self._opened(entry.at)
            elif entry.kind is Kind.CLOSED:
                yield from self._closed(entry.at)
            elif entry.kind is Kind.POWER_LOST:
                self.dark = True
                yield from self._end(entry.at, Edge.POWER)
            else:
                self.dark, self.powered = False, entry.at
        if self.open:
            yield self.open

    def _opened(self, at: int) -> Iterator[Opening]:
        if self.open and at - self.open.start <= SAME_S:
            return
        if self.open:
            yield from self._end(self._guessed_end(self.open.start, at), Edge.GUESSED)
        self.open = Opening(self.station, at, None, ended=None)

    def _closed(self, at: int) -> Iterator[Opening]:
        if self.open:
            yield from self._end(at, Edge.TOLD)
        elif (start := self._guessed_start(at)) is not None:
            edge = Edge.POWER if start == self.powered else Edge.GUESSED
            self.open = Opening(self.station, start, None, edge, None)
            yield from self._end(at, Edge.TOLD)

    def _end(self, at: int, edge: Edge) -> Iterator[Opening]:
        if self.open and at > self.open.start:
            yield Opening(self.station, self.open.start, at, self.open.began, edge)
        if self.open:
            self.open, self.ended = None, at

    def _guessed_end(self, start: int, reopened: int) -> int:
        """The end of the run that began about then, if it lies before the next opening."""
        ends = [run.end for run in self.runs if run.start - SAME_S <= start < run.end <= reopened]
        return ends[0] if ends else reopened

    def _guessed_start(self, closed: int) -> int | None:
        """The start of the run that a closing belongs to, not before the last closing and the power's return.

        A closing about the time of the last one is the same told twice, and a dark cabinet closes nothing.
        """
        starts = [run.start for run in self.runs if run.start < closed <= run.end + SAME_S]
        if not starts or self.dark or closed - self.ended <= SAME_S:
            return None
        return max(starts[-1], self.ended, self.powered)


def _with_twins_in_place(told: Sequence[Entry]) -> Iterator[Entry]:
    """Openings and closings of one second in the order that makes sense: what is open closes before it opens again."""
    is_open = False
    for _, together in groupby(told, key=lambda entry: entry.at):
        first = Kind.CLOSED if is_open else Kind.OPENED
        places = (Kind.POWER_BACK, first, Kind.CLOSED if first is Kind.OPENED else Kind.OPENED, Kind.POWER_LOST)
        for entry in sorted(together, key=lambda entry: places.index(entry.kind)):
            is_open = entry.kind is Kind.OPENED or (is_open and entry.kind is Kind.POWER_BACK)
            yield entry
