"""The watch: holds a night's readings against what should flow, and notices breaks, leaks, dead valves and silence.

One entry at a time, in order of occurrence, with a state that is small and can be put away as JSON. What it has
noticed depends on the night's entries alone: when one comes late, `take` says so, and the night is watched anew with
`watch_night`, which takes them in any order.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from ..document.document import Document
from ..plan.sheet import NightSheet
from .case import Case, Cases
from .culprits import culprits_of, trial
from .entry import Entry, Kind
from .expected import voice_of
from .finding import Finding, Noticed
from .in_order import in_order
from .live import OF_OUTAGES, OF_VALVES, Valves
from .silence import Silence
from .thresholds import Limits
from .tree import Tree
from .water import TOGETHER_S, Water


@dataclass(frozen=True, slots=True)
class Known:
    """What earlier nights taught: stations' flows in L/min, who tells of valves, and which supplies have a meter."""

    flows: Mapping[str, float] = field(default_factory=dict)
    heard: frozenset[str] = frozenset()
    metered: frozenset[str] = frozenset()


def watch_night(
    document: Document, sheet: NightSheet | None, entries: Iterable[Entry], until: int | None = None,
    limits: Limits | None = None, known: Known | None = None,
) -> Watch:  # fmt: skip
    """The watch after a night's entries, in whatever order they came; `until` is now, or None: the last entry's."""
    watch = Watch(document, sheet, limits, known)
    for entry in in_order(entries):
        watch.take(entry)
    last = watch.waiting[0].at + 1 if watch.waiting else watch.done
    watch.tick(last if until is None else max(until, last))
    return watch


class Watch:
    """The watch of one night of one site. `sheet` None: nothing was planned, and only what is told counts."""

    def __init__(
        self, document: Document, sheet: NightSheet | None, limits: Limits | None = None, known: Known | None = None
    ) -> None:
        self.document, self.limits, self.known = document, limits or Limits(), known or Known()
        self.tree = Tree(document)
        self.valves = Valves(document, sheet, self.limits, self.known.flows, self.known.heard)
        self.cases = Cases()
        self.water = Water(self.tree, self.valves, self.limits, self.cases)
        self.gauges = self.water.gauges
        self.silence = Silence(document, sheet.starts if sheet else None, self.limits, self.known.metered)
        self.done = -1
        self.waiting: list[Entry] = []

    # --- what comes in

    def take(self, entry: Entry) -> bool:
        """Take an entry in; False: it is from before what was watched, so that the night has to be watched anew.

        Entries of one second may come in any order: they wait until time has moved on, by an entry or a `tick`.
        """
        if entry.at < self.done:
            return False
        if self.waiting and entry.at != self.waiting[0].at:
            if entry.at < self.waiting[0].at:
                return False
            self._take_waiting()
        self.waiting.append(entry)
        return True

    def tick(self, now: int) -> None:
        """It is `now`: nothing more will be told of what was before."""
        if self.waiting and self.waiting[0].at < now:
            self._take_waiting()
        if now > self.done:
            self._until(now)
            self.done = now

    def findings(self) -> tuple[Finding, ...]:
        """What has been noticed so far, by when it began, with culprits."""
        found = [self._with_culprits(case) for case in self.cases.all]
        return tuple(sorted(found, key=lambda one: (one.since, one.id)))

    # --- inside

    def _take_waiting(self) -> None:
        together, self.waiting = in_order(self.waiting), []
        self._until(together[0].at)
        self.done = together[0].at + 1
        for entry in together:
            if entry.kind is Kind.FLOW:
                self.water.read(entry)
                if self.silence.quiet and entry.supply:
                    self._heard(f"meter:{entry.supply}", entry.at)
            else:
                self._word(entry)

    def _until(self, now: int) -> None:
        self.valves.advance(now)
        for silent, since, noticed in self.silence.until(now, self.valves, self.gauges):
            self._silent(silent, since, noticed)

    def _word(self, entry: Entry) -> None:
        if entry.kind in OF_VALVES or entry.kind in OF_OUTAGES:
            self.valves.tell(entry)
        if entry.kind in OF_VALVES and entry.station and entry.station in self.document.stations:
            self._heard(voice_of(self.document, entry.station), entry.at)
        if entry.kind in (Kind.ALIVE, Kind.POWER_LOST, Kind.POWER_BACK) and entry.controller is not None:
            self.silence.alive |= {entry.controller} if entry.kind is Kind.ALIVE else set()
            self._heard(entry.controller, entry.at)
        if entry.kind is Kind.POWER_LOST:
            self._dark(entry)
        elif entry.kind is Kind.POWER_BACK:
            self._light(entry)

    # --- cases about power and words

    def _dark(self, entry: Entry) -> None:
        where = entry.controller or "site"
        if not any(case.kind is Noticed.POWER and case.controller == entry.controller for case in self.cases.open()):
            self.cases.begin(Noticed.POWER, where, entry.at, entry.at).controller = entry.controller

    def _light(self, entry: Entry) -> None:
        if entry.controller is None:
            self.silence.excuse(entry.at)
        for case in self.cases.open():
            if case.kind is Noticed.POWER and entry.controller in (None, case.controller):
                case.end(entry.at)

    def _silent(self, voice: str, since: int, noticed: int) -> None:
        case = self._lack_of(voice, since) or self._silent_case(voice, since, noticed)
        case.quiet.append(voice)
        if voice not in case.voices:
            case.voices.append(voice)

    def _lack_of(self, voice: str, since: int) -> Case | None:
        """An open lack that this controller's valves account for: it has no power."""
        if voice not in self.document.controllers:
            return None
        for case in self.cases.open():
            if case.kind is Noticed.TOO_LITTLE and case.began >= since - TOGETHER_S:
                flows = [one.band.likely for one in self.valves.stations.values() if one.controller == voice]
                if 2 * sum(flows) >= case.size:
                    case.kind, case.controller = Noticed.POWER, voice
                    return case
        return None

    def _silent_case(self, voice: str, since: int, noticed: int) -> Case:
        for case in self.cases.open():
            about_then = abs(case.began - since) <= self.limits.silences.controller_s
            if case.kind is Noticed.SILENT and (about_then or len(case.quiet) > 1):
                case.spells[-1][0] = min(case.began, since)
                return case
        for case in self.cases.all:
            if case.kind is Noticed.SILENT and case.voices == [voice]:
                case.again(since, noticed)
                return case
        case = self.cases.begin(Noticed.SILENT, voice, since, noticed)
        case.controller = voice if voice in self.document.controllers else None
        case.supply = voice.removeprefix("meter:") if voice.startswith("meter:") else None
        return case

    def _heard(self, voice: str, at: int) -> None:
        self.silence.heard(voice, at)
        for case in self.cases.all:
            if voice in case.quiet:
                case.quiet.remove(voice)
                if not case.quiet and case.is_open and case.kind is Noticed.SILENT:
                    case.end(at)

    # --- what it says

    def _with_culprits(self, case: Case) -> Finding:
        found = case.finding()
        if not (case.is_excess or case.is_lack):
            return found
        suspects = culprits_of(self, case)
        return replace(found, culprits=suspects, trial=trial(suspects))
