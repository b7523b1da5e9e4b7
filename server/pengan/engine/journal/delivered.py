"""What each planned run really gave its plants, and what was lost on the way: to power, to shut mains, to valves.

Time is told by the valves' openings, less the time in which no water could come; litres are that time at the
station's own flow. Where the nearest meter above the station read clearly less than the open stations take together
(`SHORT_SHARE`), they are all taken to have got the share it read; more than they take is lost elsewhere, and counts
for nobody. Instants and seconds are whole; litres are exact to the millilitre.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from ..document.document import Document
from ..plan.problem import Span
from ..plan.sheet import NightSheet, Run
from ..plan.spans import common, merged, rest_of
from ..plan.water import litres, millilitres, millilitres_per_minute
from .entry import Entry, Kind
from .in_order import in_order
from .metered import Share
from .openings import Opening, openings
from .outages import FOREVER, Outages, outages

RunKey = tuple[str, int]
NEAR_S = 30 * 60
"""An opening that overlaps no run of its station belongs to the nearest one within so long. Common practice."""


class Lost(StrEnum):
    """Why water that was due did not come. The first that holds is the one told."""

    POWER = "power"
    SHUT = "shut"
    STOPPED = "stopped"
    NOT_OPENED = "not_opened"
    OPENED_LATE = "opened_late"
    CLOSED_EARLY = "closed_early"
    LOW_FLOW = "low_flow"


@dataclass(frozen=True, slots=True)
class Loss:
    """So many seconds of a run, or so much of its water, that did not come. `LOW_FLOW` costs water but no seconds."""

    why: Lost
    seconds: int
    volume_l: float


@dataclass(frozen=True, slots=True)
class Delivered:
    """One run of the sheet held against what happened until `now`.

    `due_s` is the part of it planned before `now`. `told` False: nothing was told of its valve, nor by its
    controller while it should have run, so that it is taken to have run as planned but for the outages. `wet` are the
    spans of instants in which water came, in order and apart.
    """

    run: Run
    due_s: int
    delivered_s: int
    delivered_l: float
    told: bool
    lost: tuple[Loss, ...]
    wet: tuple[Span, ...]


@dataclass(frozen=True, slots=True)
class Extra:
    """An opening that belongs to no run of the sheet. `wet` are the spans in which water came."""

    opening: Opening
    delivered_s: int
    delivered_l: float
    wet: tuple[Span, ...]


@dataclass(frozen=True, slots=True)
class NightDelivered:
    """The night until `now`: every run of the sheet in its order, and what ran besides."""

    runs: tuple[Delivered, ...]
    extras: tuple[Extra, ...]

    def by_turn(self) -> Mapping[str, tuple[int, float]]:
        """Seconds and litres that each turn got."""
        seconds: dict[str, int] = defaultdict(int)
        volume: dict[str, int] = defaultdict(int)
        for one in self.runs:
            seconds[one.run.turn] += one.delivered_s
            volume[one.run.turn] += round(one.delivered_l * 1000)
        return {turn: (seconds[turn], litres(volume[turn])) for turn in seconds}


def delivered(
    document: Document,
    sheet: NightSheet,
    entries: Iterable[Entry],
    now: int,
    flows: Mapping[str, float] | None = None,
) -> NightDelivered:
    """Hold the sheet against what the journal tells until `now`.

    `flows` are stations' own flows in L/min where they are learned; the document's stand for the others.
    """
    told = [entry for entry in in_order(entries) if entry.at <= now]
    return _Reckoning(document, sheet, told, now, flows or {}).night()


class _Reckoning:
    def __init__(
        self, document: Document, sheet: NightSheet, told: Sequence[Entry], now: int, flows: Mapping[str, float]
    ) -> None:
        self.document, self.sheet, self.told, self.now = document, sheet, told, now
        self.outages = outages(document, told)
        self.voices = _voices(document, told)
        found = [one for one in openings(document, told, sheet) if one.start < now]
        self.of_run, self.extras = _assigned(sheet.runs, found)
        self.flow = {
            station.id: millilitres_per_minute(flows.get(station.id, station.flow_lpm))
            for station in document.stations.values()
        }
        presumed = [(run.station, *span) for run in sheet.runs if not self.is_told(run) for span in self.presumed(run)]
        spans = [(one.station, *self.span(one)) for one in found] + presumed
        self.share = Share(document, told, spans, self.flow)

    def night(self) -> NightDelivered:
        runs = tuple(self.run(run) for run in self.sheet.runs)
        return NightDelivered(runs, tuple(self.extra(one) for one in self.extras))

    def span(self, opening: Opening) -> Span:
        return opening.start, self.now if opening.end is None else min(opening.end, self.now)

    def is_told(self, run: Run) -> bool:
        """Whether its valve, or its controller while the run was due, said anything at all."""
        if self.of_run[_key(run)]:
            return True
        names = (run.station, run.controller)
        return any(run.start <= at <= run.end for name in names if name for at in self.voices[name])

    def presumed(self, run: Run) -> list[Span]:
        """The run as planned, less its outages."""
        return common([(run.start, min(run.end, self.now))], self.wet(run.station))

    def wet(self, station: str) -> list[Span]:
        return rest_of(self.outages.of_station(self.document, station), FOREVER)

    def run(self, run: Run) -> Delivered:
        due = max(0, min(run.end, self.now) - run.start)
        told = self.is_told(run)
        open_ = merged(self.span(one) for one in self.of_run[_key(run)])
        wet = common(open_, self.wet(run.station)) if told else self.presumed(run) if due else []
        seconds = _length(wet)
        whole = millilitres(self.flow[run.station], seconds)
        got = self.share.of(run.station, wet)
        lost = list(_losses(run, due - seconds, _reasons(run, self.now, open_, told, self.outages), self.flow))
        if got < whole:
            lost.append(Loss(Lost.LOW_FLOW, 0, litres(whole - got)))
        return Delivered(run, due, seconds, litres(got), told, tuple(lost), tuple(wet))

    def extra(self, opening: Opening) -> Extra:
        wet = common([self.span(opening)], self.wet(opening.station))
        return Extra(opening, _length(wet), litres(self.share.of(opening.station, wet)), tuple(wet))


def _voices(document: Document, told: Iterable[Entry]) -> Mapping[str, list[int]]:
    """The instants at which each station and each controller said something about its valves or itself."""
    voices: dict[str, list[int]] = defaultdict(list)
    for entry in told:
        station = document.stations.get(entry.station or "")
        if entry.kind in (Kind.OPENED, Kind.CLOSED) and station:
            for name in filter(None, (station.id, station.controller)):
                voices[name].append(entry.at)
        elif entry.kind is Kind.ALIVE and entry.controller:
            voices[entry.controller].append(entry.at)
    return voices


def _assigned(runs: Sequence[Run], found: Iterable[Opening]) -> tuple[Mapping[RunKey, list[Opening]], list[Opening]]:
    """Each opening to the run of its station that it overlaps most, or else to the nearest; the others are extras."""
    by_station: dict[str, list[Run]] = defaultdict(list)
    for run in runs:
        by_station[run.station].append(run)
    of_run: dict[RunKey, list[Opening]] = {_key(run): [] for run in runs}
    extras = []
    for one in found:
        near = [(_apart(one, run), run.start, run) for run in by_station[one.station]]
        best = min(near, key=lambda each: each[:2], default=None)
        if best and best[0] <= NEAR_S:
            of_run[_key(best[2])].append(one)
        else:
            extras.append(one)
    return of_run, extras


def _apart(opening: Opening, run: Run) -> int:
    """Seconds between the two; less than 0 by how much they overlap."""
    return max(opening.start, run.start) - min(FOREVER if opening.end is None else opening.end, run.end)


def _reasons(run: Run, now: int, open_: Sequence[Span], told: bool, why: Outages) -> list[tuple[Lost, int]]:
    """For each reason how many of the planned seconds before `now` it took, the strongest first."""
    dry = common([(run.start, min(run.end, now))], rest_of(open_, FOREVER)) if told else [(run.start, run.end)]
    planned = [(run.start, min(run.end, now))] if run.start < now else []
    out = []
    for reason, spans in (
        (Lost.POWER, why.power.get(run.controller, ())),
        (Lost.SHUT, why.shut.get(run.supply, ())),
        (Lost.STOPPED, why.stopped),
    ):
        out.append((reason, _length(common(planned, spans))))
        planned = common(planned, rest_of(spans, FOREVER))
    dry = common(planned, dry)
    if not open_:
        return [*out, (Lost.NOT_OPENED, _length(dry) if told else 0)]
    late = _length(common(dry, [(0, open_[0][0])]))
    return [*out, (Lost.OPENED_LATE, late), (Lost.CLOSED_EARLY, _length(dry) - late)]


def _losses(run: Run, missing: int, reasons: Iterable[tuple[Lost, int]], flow: Mapping[str, int]) -> Iterable[Loss]:
    """The reasons for the seconds that are missing, no more than are: what was made good later is not lost."""
    for why, seconds in reasons:
        if (taken := min(seconds, missing)) > 0:
            yield Loss(why, taken, litres(millilitres(flow[run.station], taken)))
            missing -= taken


def _key(run: Run) -> RunKey:
    return run.turn, run.cycle


def _length(spans: Iterable[Span]) -> int:
    return sum(end - start for start, end in spans)
