"""What each supply should be giving at each moment: a band, wide while pipes fill and valves move, a line once settled.

A supply's draw is that of every station below it, its mains' included. Flows are whole mL/min, instants whole seconds.
The band is what an honest meter may show; `likely` is the draw of the open stations. The figures of `Settling` are
common practice, no source.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from ..document.document import Document
from ..plan.problem import Span
from ..plan.sheet import NightSheet, Run
from ..plan.spans import common, rest_of
from ..plan.water import millilitres_per_minute
from .entry import Entry, Kind
from .in_order import in_order
from .openings import Opening, openings
from .outages import FOREVER, outages, path_of

TOLD_EARLY_S = 60
"""A valve told open so long before its run's start is that run. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Settling:
    """How water follows valves.

    An opening shows in full after `settle_s`, a closing after `closing_s`. Filling pipes draw up to `surge_pct` on
    top, and a quarter of that in the second half of `settle_s`. Clocks differ by up to `early_s`, those of a
    controller that tells nothing by `sheet_s`.
    """

    settle_s: int = 60
    closing_s: int = 30
    surge_pct: int = 60
    early_s: int = 5
    sheet_s: int = 30


SETTLING = Settling()


@dataclass(frozen=True, slots=True)
class Band:
    """The least and the most an honest meter may show, and what is likely, in mL/min."""

    low: int
    likely: int
    high: int


NOTHING = Band(0, 0, 0)


@dataclass(frozen=True, slots=True)
class Flowing:
    """A span in which a valve gives water; not `sure` where nothing was told of what the sheet asks for."""

    start: int
    end: int
    sure: bool
    early_s: int

    def lasts(self, at: int, settling: Settling) -> bool:
        """Whether a meter may show something of it at an instant."""
        return self.start - self.early_s <= at < self.end + settling.closing_s


def flowing(
    told: Iterable[Opening], runs: Sequence[Run], voices: Sequence[int], dry: Sequence[Span], heard: bool,
    settling: Settling = SETTLING,
) -> list[Flowing]:  # fmt: skip
    """When one station gives water: by what was told of it, and by its runs where nothing was.

    `voices` are the instants, in order, at which its opening or closing was told; `dry` when no water could come;
    `heard` whether its controller tells of its valves at all: if it does not, its runs are taken as they are.
    """
    out: list[Flowing] = []
    for one in told:
        out += _told(one, runs, dry, settling)
    for run in runs:
        if not _any_in(voices, run.start - TOLD_EARLY_S, run.end):
            early = settling.early_s if heard else settling.sheet_s
            out += [Flowing(*span, sure=not heard, early_s=early) for span in _wet((run.start, run.end), dry)]
    return out


def _told(one: Opening, runs: Sequence[Run], dry: Sequence[Span], settling: Settling) -> Iterator[Flowing]:
    """An opening as told. One whose closing is overdue by the sheet is not sure from the end of its run on."""
    end = FOREVER if one.end is None else one.end
    due = overdue_from(one, runs)
    sure_until = end if due is None else due
    for span in _wet((one.start, sure_until), dry):
        yield Flowing(*span, sure=True, early_s=settling.early_s)
    for span in _wet((sure_until, end), dry):
        yield Flowing(*span, sure=False, early_s=settling.early_s)


def overdue_from(one: Opening, runs: Sequence[Run]) -> int | None:
    """The end of the run that an opening without a closing belongs to."""
    if one.end is not None:
        return None
    ends = [run.end for run in runs if run.start - TOLD_EARLY_S <= one.start < run.end]
    return ends[-1] if ends else None


def _wet(span: Span, dry: Sequence[Span]) -> list[Span]:
    return common([span], rest_of(dry, FOREVER)) if dry else [span] if span[0] < span[1] else []


def _any_in(instants: Sequence[int], start: int, end: int) -> bool:
    return any(start <= at < end for at in instants)


def moments(spans: Iterable[Flowing], settling: Settling = SETTLING) -> list[int]:
    """The instants, in order, at which a valve's band may change."""
    half, whole = settling.settle_s // 2, settling.settle_s
    found = set()
    for one in spans:
        found |= {one.start - one.early_s, one.start, one.start + half, one.start + whole}
        found |= {one.end - one.early_s, one.end, one.end + settling.closing_s}
    return sorted(found)


def band_of(spans: Iterable[Flowing], flow: int, at: int, settling: Settling = SETTLING) -> Band:
    """What one valve of this flow may be giving at an instant."""
    low = likely = high = 0
    for one in spans:
        if one.lasts(at, settling):
            high = max(high, flow + flow * _surge(at - one.start, settling) // 100)
            if one.start <= at < one.end:
                likely = flow
                if one.sure and one.start + settling.settle_s <= at < one.end - one.early_s:
                    low = flow
    return Band(low, likely, high)


def _surge(open_s: int, settling: Settling) -> int:
    """What filling pipes may draw on top so long after a valve opened, in percent."""
    if open_s < settling.settle_s // 2:
        return settling.surge_pct
    return settling.surge_pct // 4 if open_s < settling.settle_s else 0


Step = tuple[int, Band]


@dataclass(frozen=True, slots=True)
class Expected:
    """One supply's band over time: from each instant on, until the next. Before the first it is `NOTHING`."""

    supply: str
    steps: tuple[Step, ...]

    def at(self, instant: int) -> Band:
        place = bisect_right(self.steps, instant, key=lambda step: step[0])
        return self.steps[place - 1][1] if place else NOTHING


def expected(
    document: Document,
    sheet: NightSheet | None,
    entries: Iterable[Entry],
    flows: Mapping[str, float] | None = None,
    heard: Iterable[str] = (),
    settling: Settling = SETTLING,
) -> dict[str, Expected]:
    """The band of every supply over a night, for a picture of expected against measured.

    With no entries it is the sheet's own draw; where valves are told of, it is theirs. `flows` are learned flows in
    L/min, `heard` the controllers that are known to tell of their valves, besides those that do tonight.
    """
    told = in_order(entries)
    valves = flowing_of_all(document, sheet, told, heard, settling)
    changes: dict[str, list[tuple[int, Band, Band]]] = defaultdict(list)
    for station, spans in valves.items():
        record = document.stations[station]
        flow = millilitres_per_minute((flows or {}).get(station, record.flow_lpm))
        before = NOTHING
        for at in moments(spans, settling):
            now = band_of(spans, flow, at, settling)
            for supply in path_of(document, record.supply) if now != before else ():
                changes[supply].append((at, before, now))
            before = now
    return {supply: Expected(supply, _added(changes[supply])) for supply in document.supplies}


def flowing_of_all(
    document: Document, sheet: NightSheet | None, told: Sequence[Entry], heard: Iterable[str], settling: Settling
) -> dict[str, list[Flowing]]:
    """For each station when it gives water, from all that a night's entries (in order) tell."""
    found: dict[str, list[Opening]] = defaultdict(list)
    for one in openings(document, told, sheet):
        found[one.station].append(one)
    runs: dict[str, list[Run]] = defaultdict(list)
    for run in sheet.runs if sheet else ():
        runs[run.station].append(run)
    voices = _voices(told)
    speaking = {*heard, *(voice_of(document, station) for station in voices if station in document.stations)}
    why = outages(document, told)
    return {
        station: flowing(
            found[station], runs[station], voices[station], why.of_station(document, station),
            voice_of(document, station) in speaking, settling,
        )
        for station in document.stations
        if found[station] or runs[station]
    }  # fmt: skip


def voice_of(document: Document, station: str) -> str:
    """Who tells of a station's valve: its controller, or people at the valve itself where it has none."""
    return document.stations[station].controller or station


def _voices(told: Iterable[Entry]) -> dict[str, list[int]]:
    voices: dict[str, list[int]] = defaultdict(list)
    for entry in told:
        if entry.kind in (Kind.OPENED, Kind.CLOSED) and entry.station:
            voices[entry.station].append(entry.at)
    return voices


def _added(changes: Iterable[tuple[int, Band, Band]]) -> tuple[Step, ...]:
    """The sums of many valves' bands, from each one's changes."""
    steps: list[Step] = []
    low = likely = high = 0
    for at, before, now in sorted(changes, key=lambda change: change[0]):
        low += now.low - before.low
        likely += now.likely - before.likely
        high += now.high - before.high
        if steps and steps[-1][0] == at:
            steps.pop()
        steps.append((at, Band(low, likely, high)))
    return tuple(steps)
