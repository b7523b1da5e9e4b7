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
from ..plan.water import millilitres_per_minute
from .case import Case, open_ones
from .culprits import culprits_of, trial
from .entry import Entry, Kind
from .expected import voice_of
from .finding import EXCESS, Finding, Noticed
from .gauge import FEW_SAME, OVERFULL, Gauge, Side
from .in_order import in_order
from .live import OF_OUTAGES, OF_VALVES, Level, Valves
from .neighbours import Neighbours
from .silence import Silence
from .thresholds import Limits
from .tree import Tree

TOGETHER_S = 180
"""Lacks that begin within so long of each other have one cause. Common practice, no source."""
MOVES_S = 900
"""For so long what a supply shows may turn out to be what one below it shows."""
NOISE_PCT = 6
"""What open cases below explain is only known to within so much of it. Common practice, no source."""
PRESSURE_PCT = 40
"""While water escapes, other stations of the same source may give so much less. Common practice, no source."""


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
        self.gauges: dict[str, Gauge] = {}
        self.cases: list[Case] = []
        self.silence = Silence(document, sheet.starts if sheet else None, self.limits, self.known.metered)
        self.neighbours = Neighbours(self.tree, self.gauges, self.valves.levels, self.allowed)
        self.done = -1
        self.waiting: list[Entry] = []
        self._least = {supply: round(self.limits.of(supply).least_lpm * 1000) for supply in document.supplies}

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
        found = [self._with_culprits(case) for case in self.cases]
        return tuple(sorted(found, key=lambda one: (one.since, one.id)))

    # --- inside

    def _take_waiting(self) -> None:
        together, self.waiting = in_order(self.waiting), []
        self._until(together[0].at)
        self.done = together[0].at + 1
        for entry in together:
            if entry.kind is Kind.FLOW:
                self._flow(entry)
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

    def _flow(self, entry: Entry) -> None:
        supply = entry.supply
        if supply is None or entry.flow_lpm is None or supply not in self.valves.levels:
            return
        if supply not in self.gauges:
            self.gauges[supply] = Gauge(supply)
        gauge, level = self.gauges[supply], self.valves.levels[supply]
        before = gauge.at if gauge.at >= 0 else entry.at
        flow = millilitres_per_minute(entry.flow_lpm)
        settled = level.low == level.high
        step = gauge.read(entry.at, flow, level.likely, settled, level.changes)
        if self.silence.quiet:
            self._heard(f"meter:{supply}", entry.at)
        self._weigh(gauge, level, step, before)

    def _weigh(self, gauge: Gauge, level: Level, step: int, before: int) -> None:
        """Add a reading's difference to the meter's sums, and raise a case where one runs over."""
        supply, allowed = gauge.supply, self.allowed(gauge.supply)
        flow, lack_allowed = gauge.flow, allowed
        if self.cases:
            explained = self._explained(supply)
            flow -= explained
            allowed += abs(explained) * NOISE_PCT // 100
            lack_allowed = allowed + self._pressure(supply, level)
        over, under = flow - level.high - allowed, level.low - flow - lack_allowed
        if gauge.is_stuck(allowed):
            self._stuck(gauge, abs(gauge.flow - level.likely))
        own = self.limits.of(supply)
        needed = allowed * own.hold_s
        gauge.over.add(over, step, before, OVERFULL * needed)
        gauge.under.add(under, step, before, OVERFULL * needed)
        if self.cases:
            self._follow(gauge, level, flow, over > 0, under > 0)
        for side, beyond in ((gauge.over, over), (gauge.under, under)):
            full = beyond > 0 and side.total > needed and side.count >= own.least_readings
            if full and (side is gauge.over or not self._escapes_soon(supply)):
                self._raise(gauge, level, side, side is gauge.over, flow)

    def allowed(self, supply: str) -> int:
        """The difference that a supply may show right now, in mL/min."""
        return max(self._least[supply], self.valves.levels[supply].slack)

    def _explained(self, supply: str) -> int:
        """What open cases below a supply add to its reading, in mL/min; a meter that errs adds nothing."""
        open_below = {
            node for case in self.cases if case.is_open and case.kind is not Noticed.METER for node in case.members
        }
        return sum(
            self.gauges[node].flow - self.valves.levels[node].likely for node in self.tree.highest(open_below, supply)
        )

    def _pressure(self, supply: str, level: Level) -> int:
        source = self.tree.source(supply)
        escapes = any(
            case.is_open and case.is_excess and case.supply and self.tree.source(case.supply) == source
            for case in self.cases
        )
        return level.likely * PRESSURE_PCT // 100 if escapes else 0

    def _escapes_soon(self, supply: str) -> bool:
        """Whether a meter of the same source is about to show too much: what others lack then, they lack for that."""
        source = self.tree.source(supply)
        return any(one.over.total > 0 and self.tree.source(one.supply) == source for one in self.gauges.values())

    def _follow(self, gauge: Gauge, level: Level, flow: int, over: bool, under: bool) -> None:
        """Measure the open cases that this meter shows, and end those that have been right for long enough."""
        wrong = over or under or self._stands_still(gauge)
        gauge.right_since = 0 if wrong else gauge.right_since or gauge.at
        for case in self.cases:
            if not case.is_open or gauge.supply not in case.members:
                continue
            if (case.is_excess and over) or (case.is_lack and under):
                if gauge.supply == case.supply or case.supply is None:
                    case.measured(abs(flow - level.likely))
                if case.is_excess and level.high == 0:
                    case.kind = Noticed.UNASKED
                self._doubt(case, gauge, over, abs(flow - level.likely))
            self._end_if_right(case)

    def _stands_still(self, gauge: Gauge) -> bool:
        """Whether a meter that is known to be stuck has not moved since."""
        stuck = (case for case in open_ones(self.cases) if case.kind is Noticed.METER)
        return gauge.same >= FEW_SAME and any(gauge.supply in case.members for case in stuck)

    def _doubt(self, case: Case, gauge: Gauge, over: bool, size: int) -> None:
        """A young case of one meter that its neighbours come to contradict is about the meter itself."""
        young = gauge.at - case.noticed <= MOVES_S
        if young and case.members == [gauge.supply] and self._contradicted(gauge, over, size, case.began):
            case.kind = Noticed.METER

    def _end_if_right(self, case: Case) -> None:
        own = [self.gauges[node] for node in case.members]
        if all(one.right_since and one.at - one.right_since >= self.limits.of(one.supply).clear_s for one in own):
            case.end(max(one.right_since for one in own))

    # --- cases about water

    def _raise(self, gauge: Gauge, level: Level, side: Side, over: bool, flow: int) -> None:
        """One of a meter's sums ran over: it belongs to a case that is there, or begins one."""
        size, since = abs(flow - level.likely), side.since
        shown = [case for case in open_ones(self.cases) if gauge.supply in case.members]
        if any(case.kind is Noticed.METER or (case.is_excess if over else case.is_lack) for case in shown):
            return
        side.clear()
        gauge.close()
        gauge.right_since = 0
        now = gauge.at
        lower = self.neighbours.lowest_that_shows(gauge, over, size)
        if lower is not gauge:
            gauge, level = lower, self.valves.levels[lower.supply]
            size = abs(gauge.flow - level.likely)
            (gauge.over if over else gauge.under).clear()
            gauge.close()
            gauge.right_since = 0
        case = self._case_for(gauge, level, since, over, size)
        case.spells[-1][1] = max(case.noticed, now) if case.noticed == gauge.at else case.noticed
        if gauge.supply not in case.members:
            case.members.append(gauge.supply)
        case.measured(size)

    def _contradicted(self, gauge: Gauge, over: bool, size: int, since: int) -> bool:
        """Whether a meter's neighbours contradict it. While water escapes elsewhere, they cannot tell of a lack."""
        if not over and self._pressure(gauge.supply, self.valves.levels[gauge.supply]):
            return False
        return self.neighbours.contradict(gauge, over, size, since)

    def _stuck(self, gauge: Gauge, size: int) -> None:
        """A meter that stands still while the draw moves, though what it shows may still pass for right."""
        if not any(gauge.supply in case.members for case in open_ones(self.cases)):
            case = self._begin(Noticed.METER, gauge, gauge.same_since)
            case.members = [gauge.supply]
            case.measured(size)

    def _case_for(self, gauge: Gauge, level: Level, since: int, over: bool, size: int) -> Case:
        if self._contradicted(gauge, over, size, since):
            return self._begin(Noticed.METER, gauge, since)
        return (
            self._moved_down(gauge, over, size)
            or (None if over else self._joined(gauge, level, since, size))
            or self._again(gauge, over, since, size)
            or self._begin(_kind(over, level), gauge, since)
        )

    def _begin(self, kind: Noticed, gauge: Gauge, since: int) -> Case:
        for case in self.cases:
            if case.kind is kind and case.supply == gauge.supply and not case.is_open:
                case.again(since, gauge.at)
                return case
        case = self._opened(kind, gauge.supply, since, gauge.at)
        case.supply = gauge.supply
        return case

    def _opened(self, kind: Noticed, where: str, since: int, now: int) -> Case:
        """A new case, with the same id whenever the night is watched anew: the first, second, … of its kind there."""
        name = "excess" if kind in EXCESS else str(kind)
        stem = f"{name}:{where}"
        number = 1 + sum(case.id.rpartition(":")[0] == stem for case in self.cases)
        case = Case(f"{stem}:{number}", kind, spells=[[since, now, None]])
        self.cases.append(case)
        return case

    def _again(self, gauge: Gauge, over: bool, since: int, size: int) -> Case | None:
        """A case that was over, of the same supply, or of one below with about the same water."""
        for case in self.cases:
            same = case.is_excess if over else case.kind is Noticed.TOO_LITTLE
            if not same or case.is_open or not case.supply:
                continue
            below = self.tree.is_below(case.supply, gauge.supply) and case.size <= 2 * size <= 4 * case.size
            if case.supply == gauge.supply or below:
                case.again(since, gauge.at)
                return case
        return None

    def _moved_down(self, gauge: Gauge, over: bool, size: int) -> Case | None:
        """A young case of a supply above that is about the same water: it lies lower than was thought."""
        for case in open_ones(self.cases):
            alike = case.is_excess if over else case.kind is Noticed.TOO_LITTLE
            if (
                alike
                and case.supply
                and case.members == [case.supply]
                and self.tree.is_below(gauge.supply, case.supply)
            ):
                above = self.gauges[case.supply]
                if gauge.at - case.noticed <= MOVES_S and 2 * size >= case.size:
                    above.over.clear()
                    above.under.clear()
                    case.supply, case.members, case.sizes = gauge.supply, [gauge.supply], []
                    return case
        return None

    def _joined(self, gauge: Gauge, level: Level, since: int, size: int) -> Case | None:
        """An open lack with the same cause: it began about then, or all that lies between gives as much less."""
        for case in open_ones(self.cases):
            if not case.is_lack:
                continue
            together = self.tree.shared([*case.members, gauge.supply])
            at_once = abs(case.began - since) <= TOGETHER_S
            if at_once or (together and self.neighbours.lack_alike([together, *case.members], size, level)):
                self._joins_at(case, together)
                return case
        return None

    def _joins_at(self, case: Case, together: str | None) -> None:
        """A lack of several supplies is one of what feeds them all, and is measured there if there is a meter."""
        case.supply = together
        if together in self.gauges and together not in case.members:
            case.members.append(together)
            case.sizes = []

    # --- cases about power and words

    def _dark(self, entry: Entry) -> None:
        where = entry.controller or "site"
        if not any(
            case.kind is Noticed.POWER and case.controller == entry.controller for case in open_ones(self.cases)
        ):
            self._opened(Noticed.POWER, where, entry.at, entry.at).controller = entry.controller

    def _light(self, entry: Entry) -> None:
        if entry.controller is None:
            self.silence.excuse(entry.at)
        for case in open_ones(self.cases):
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
        for case in open_ones(self.cases):
            if case.kind is Noticed.TOO_LITTLE and case.began >= since - TOGETHER_S:
                flows = [one.band.likely for one in self.valves.stations.values() if one.controller == voice]
                if 2 * sum(flows) >= case.size:
                    case.kind, case.controller = Noticed.POWER, voice
                    return case
        return None

    def _silent_case(self, voice: str, since: int, noticed: int) -> Case:
        for case in open_ones(self.cases):
            about_then = abs(case.began - since) <= self.limits.silences.controller_s
            if case.kind is Noticed.SILENT and (about_then or len(case.quiet) > 1):
                case.spells[-1][0] = min(case.began, since)
                return case
        for case in self.cases:
            if case.kind is Noticed.SILENT and case.voices == [voice]:
                case.again(since, noticed)
                return case
        case = self._opened(Noticed.SILENT, voice, since, noticed)
        case.controller = voice if voice in self.document.controllers else None
        case.supply = voice.removeprefix("meter:") if voice.startswith("meter:") else None
        return case

    def _heard(self, voice: str, at: int) -> None:
        self.silence.heard(voice, at)
        for case in self.cases:
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


def _kind(over: bool, level: Level) -> Noticed:
    if not over:
        return Noticed.TOO_LITTLE
    return Noticed.TOO_MUCH if level.high else Noticed.UNASKED
