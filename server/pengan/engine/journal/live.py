"""The band of every supply as a night goes on: what is known of the valves so far, and how it changes with time.

`expected` looks back on a night; this looks at it from within, one entry at a time. Flows are whole mL/min.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from heapq import heappop, heappush

from ..document.document import Document
from ..plan.problem import Span
from ..plan.sheet import NightSheet, Run
from ..plan.water import millilitres_per_minute
from .entry import Entry, Kind
from .expected import NOTHING, Band, Flowing, band_of, flowing, moments, overdue_from, voice_of
from .openings import Opening, openings_of
from .outages import FOREVER, outages, path_of
from .thresholds import Limits

OF_VALVES = (Kind.OPENED, Kind.CLOSED)
OF_OUTAGES = (Kind.POWER_LOST, Kind.POWER_BACK, Kind.SHUT, Kind.FREED, Kind.STOPPED, Kind.LIFTED)


@dataclass(slots=True)
class Level:
    """The sums of one supply: its band, the allowance of its open stations, and how often any of it changed.

    `flows` are those of all stations that may be open, `sure` those of them that are known to be; `limit`: the most
    that the supply may give, or None.
    """

    limit: int | None = None
    low: int = 0
    likely: int = 0
    high: int = 0
    flows: int = 0
    sure: int = 0
    slack: int = 0
    changes: int = 0

    @property
    def most(self) -> int:
        """The most an honest meter may show. Valves that say nothing keep to the supply's limit, as the sheet does."""
        if self.limit is None:
            return self.high
        return self.high - max(0, self.flows - max(self.limit, self.sure))

    @property
    def usual(self) -> int:
        """What differences are counted from."""
        return min(self.likely, self.most)


class Valves:
    """All stations of a site in one night. `advance` to an instant before asking for a level at it.

    `flows` are learned flows in L/min; `heard` the controllers known to tell of their valves.
    """

    def __init__(
        self, document: Document, sheet: NightSheet | None, limits: Limits, flows: Mapping[str, float],
        heard: Iterable[str],
    ) -> None:  # fmt: skip
        self.document, self.limits = document, limits
        self.heard = set(heard)
        self.levels = {id: Level(_limit(one.limit_lpm)) for id, one in document.supplies.items()}
        self.told: list[Entry] = []
        self.runs: dict[str, list[Run]] = defaultdict(list)
        for run in sheet.runs if sheet else ():
            if run.station in document.stations:
                self.runs[run.station].append(run)
        self.stations = {id: _Station(document, id, limits, flows) for id in document.stations}
        self.openings: dict[str, tuple[Opening, ...]] = {}
        self._by_voice: dict[str, list[str]] = defaultdict(list)
        for station in document.stations:
            self._by_voice[voice_of(document, station)].append(station)
        self._outages = outages(document, ())
        self._dark: set[str | None] = set()
        self._queue: list[tuple[int, str]] = []
        self._due: dict[str, list[int]] = {}
        self._now = -1
        self._look_again(self.runs)

    def advance(self, to: int) -> None:
        """Let time pass: whatever fills, settles or becomes due until then (included) does."""
        while self._queue and self._queue[0][0] <= to:
            at, station = heappop(self._queue)
            if at > self._now or at in self.stations[station].moments:
                self._weigh(station, at)
        self._now = max(self._now, to)

    def tell(self, entry: Entry) -> None:
        """Take in what was told of valves and outages at an instant that was advanced to."""
        if entry.kind in OF_VALVES and entry.station in self.stations:
            self.told.append(entry)
            voice = voice_of(self.document, entry.station)
            again = [entry.station] if voice in self.heard else self._by_voice[voice]
            self.heard.add(voice)
            self.stations[entry.station].told.append(entry)
            self._look_again(again)
        elif entry.kind in OF_OUTAGES:
            self._outage(entry)

    def _outage(self, entry: Entry) -> None:
        self.told.append(entry)
        self._outages = outages(self.document, [one for one in self.told if one.kind in OF_OUTAGES])
        self._dark = {id for id, spans in self._outages.power.items() if spans and spans[-1][1] == FOREVER}
        if entry.kind in (Kind.POWER_LOST, Kind.POWER_BACK):
            for station in self.stations.values():
                if entry.controller in (None, station.controller):
                    station.told.append(entry)
        self._look_again(self.stations)

    def _look_again(self, stations: Iterable[str]) -> None:
        """Read anew when these stations give water, and what they give now."""
        for id in stations:
            station, runs = self.stations[id], self.runs.get(id, [])
            if not station.told and not runs:
                continue
            station.dry = self._outages.of_station(self.document, id)
            self._due.pop(voice_of(self.document, id), None)
            self.openings[id] = found = openings_of(id, station.told, runs)
            heard = voice_of(self.document, id) in self.heard
            station.spans = flowing(found, runs, station.voices(), station.dry, heard, self.limits.settling)
            station.moments = set(moments(station.spans, self.limits.settling))
            for at in station.moments:
                if at > self._now:
                    heappush(self._queue, (at, id))
            self._weigh(id, self._now)

    def _weigh(self, id: str, at: int) -> None:
        station = self.stations[id]
        now, before = band_of(station.spans, station.flow, at, self.limits.settling), station.band
        sure = station.flow * any(one.sure and one.lasts(at, self.limits.settling) for one in station.spans)
        if now == before and sure == station.sure:
            return
        comes = (now.high > 0) - (before.high > 0)
        more_sure = sure - station.sure
        station.band, station.sure = now, sure
        for supply in station.path:
            level = self.levels[supply]
            level.low += now.low - before.low
            level.likely += now.likely - before.likely
            level.high += now.high - before.high
            level.flows += station.flow * comes
            level.sure += more_sure
            level.slack += station.allowance * comes
            level.changes += 1

    def dark(self) -> set[str | None]:
        """The controllers that are known to have no power now; None stands for the whole site."""
        return self._dark

    def untold_since(self, voice: str, heard_at: int, now: int) -> int | None:
        """The first instant after `heard_at` and until `now` at which this voice should have told of a valve."""
        if voice not in self._due:
            self._due[voice] = sorted(at for id in self._by_voice[voice] for at in self._due_words(id))
        due = self._due[voice]
        place = bisect_right(due, heard_at)
        return due[place] if place < len(due) and due[place] <= now else None

    def _due_words(self, id: str) -> Iterable[int]:
        """When openings and closings of one station were due that nothing was told of."""
        station, runs = self.stations[id], self.runs.get(id, [])
        for span in station.spans:
            if not span.sure and not any(start <= span.start <= end for start, end in station.dry):
                yield span.start
        for one in self.openings.get(id, ()):
            if (due := overdue_from(one, runs)) is not None:
                yield due


def _limit(limit_lpm: float | None) -> int | None:
    return None if limit_lpm is None else millilitres_per_minute(limit_lpm)


class _Station:
    """What is known of one station."""

    def __init__(self, document: Document, id: str, limits: Limits, flows: Mapping[str, float]) -> None:
        record = document.stations[id]
        own = limits.of(record.supply)
        self.id, self.controller = id, record.controller
        self.path = path_of(document, record.supply)
        self.flow = millilitres_per_minute(flows.get(id, record.flow_lpm))
        self.allowance = self.flow * (own.share_pct if id in flows else own.unlearned_pct) // 100
        self.told: list[Entry] = []
        self.dry: list[Span] = []
        self.spans: list[Flowing] = []
        self.moments: set[int] = set()
        self.band: Band = NOTHING
        self.sure = 0

    def voices(self) -> list[int]:
        return [entry.at for entry in self.told if entry.kind in OF_VALVES]
