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
from .finding import Cause, Culprit, Finding, Noticed
from .in_order import in_order
from .live import OF_OUTAGES, OF_VALVES, Valves
from .silence import Silence
from .thresholds import Limits
from .tree import Tree
from .water import TOGETHER_S, Water

PROBABLE = 0.3
"""A culprit that sure is taken for the one once something else speaks for it. Common practice, no source."""
POWER_OR_LINE = 0.5
"""Where nobody says anything at all, the site's power and its line are as likely. No source."""


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
                before = len(self.cases.all)
                self.water.read(entry)
                for case in self.cases.all[before:]:
                    self._began(case)
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
        """Power was lost: what was just noticed to be missing is missing for that."""
        if any(case.kind is Noticed.POWER and case.controller == entry.controller for case in self.cases.open()):
            return
        case = next((one for one in self.cases.open() if self._is_for_power(one, entry.controller, entry.at)), None)
        if case is None:
            case = self.cases.begin(Noticed.POWER, entry.controller or "site", entry.at, entry.at)
        case.kind, case.controller, case.supply = Noticed.POWER, entry.controller, None
        case.members, case.sizes = [], []

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
        """A lack since this controller was last heard that its valves account for: it has no power."""
        if voice not in self.document.controllers:
            return None
        heard = self.silence.last.get(voice, -1)
        for case in reversed(self.cases.all):
            if case.began >= heard - TOGETHER_S and self._is_for_power(case, voice, since):
                case.kind, case.controller = Noticed.POWER, None if case.voices else voice
                case.spells[-1][2] = None
                return case
        return None

    def _is_for_power(self, case: Case, controller: str | None, since: int) -> bool:
        """Whether a lack, open or just over, is probably for want of power at a controller, or at the site."""
        end = case.spells[-1][2]
        if not case.is_lack or (end is not None and end < since - TOGETHER_S):
            return False
        dark = (one for one in culprits_of(self, case) if one.cause is Cause.NO_POWER)
        return any(
            one.sure >= PROBABLE and (controller in (None, one.controller) or not one.controller) for one in dark
        )

    def _began(self, case: Case) -> None:
        """What begins to be missing at a controller that is silent is one fault with its silence: it has no power."""
        for silent in self.cases.open():
            mute = [voice for voice in silent.voices if voice in self.document.controllers]
            if silent.kind is Noticed.SILENT and any(self._is_for_power(case, one, case.began) for one in mute):
                self.cases.all.remove(case)
                silent.kind, silent.controller = Noticed.POWER, mute[0] if len(mute) == 1 else None
                silent.supply, silent.members, silent.sizes = case.supply, case.members, case.sizes
                return

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
                if not case.quiet and case.is_open and (case.kind is Noticed.SILENT or self.water.is_right(case)):
                    case.end(at)

    # --- what it says

    def _with_culprits(self, case: Case) -> Finding:
        found = case.finding()
        if case.kind is Noticed.POWER and not case.members:
            return replace(found, reaches=self._reached(case.controller))
        if case.kind is Noticed.SILENT and self._says_nothing_at_all(case):
            return replace(found, culprits=(Culprit(Cause.NO_POWER, POWER_OR_LINE, 0.0),))
        if not (case.is_excess or case.is_lack):
            return found
        suspects = culprits_of(self, case)
        return replace(found, culprits=suspects, trial=trial(suspects))

    def _reached(self, controller: str | None) -> tuple[str, ...]:
        """The supplies that a controller's stations, or all stations, draw from."""
        stations = (one for one in self.valves.stations.values() if controller in (None, one.controller))
        return tuple(sorted({node for one in stations for node in one.path}))

    def _says_nothing_at_all(self, case: Case) -> bool:
        """Whether a meter fell silent and nobody has said anything since: no other meter, and no controller."""
        controllers = (at for voice, at in self.silence.last.items() if voice in self.document.controllers)
        last = max([*controllers, *(gauge.at for gauge in self.gauges.values())], default=-1)
        return len(self.gauges) > 1 and case.supply is not None and last <= case.since + TOGETHER_S
