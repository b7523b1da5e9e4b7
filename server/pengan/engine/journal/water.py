"""What meters show held against what should flow: cases of too much and too little water, and of meters that err.

One fault shows at its own meter and at every meter above it, and what escapes costs others pressure. So a difference
is told of at the lowest meter that shows it, those above are relieved of it, and lacks with one cause are one case.
Flows are whole mL/min, instants whole seconds.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..plan.water import millilitres_per_minute
from .balance import NOISE_PCT, Balance
from .case import Case, Cases
from .entry import Entry
from .finding import Noticed
from .gauge import FEW_SAME, LONGEST_STEP_S, OVERFULL, Gauge, Side
from .live import Level, Valves
from .neighbours import FRESH_S, SEEN, Neighbours
from .thresholds import Limits
from .tree import Tree

TOGETHER_S = 180
"""Lacks that begin within so long of each other have one cause. Common practice, no source."""
MOVES_S = 900
"""For so long what a supply shows may turn out to be what one below it shows."""
TOLD_BY = 2
"""With so many readings of a steady draw, the meters beside one have told of it too."""
APART_S = 15
"""Readings of two meters so far apart tell twice of the same water. Common practice, no source."""


class Water:
    """All meters of a site through a night."""

    def __init__(self, tree: Tree, valves: Valves, limits: Limits, cases: Cases) -> None:
        self.tree, self.valves, self.limits, self.cases = tree, valves, limits, cases
        self.gauges: dict[str, Gauge] = {}
        self.balance = Balance(tree, self.gauges, valves.levels, limits, cases)
        self.neighbours = Neighbours(tree, self.gauges, valves.levels, self.balance.allowed)

    def read(self, entry: Entry) -> None:
        """Take a meter's reading in. Readings of unknown supplies count nothing."""
        supply = entry.supply
        if supply is None or entry.flow_lpm is None or supply not in self.valves.levels:
            return
        if supply not in self.gauges:
            self.gauges[supply] = Gauge(supply)
        gauge, level = self.gauges[supply], self.valves.levels[supply]
        before = max(gauge.at, entry.at - LONGEST_STEP_S) if gauge.at >= 0 else entry.at
        flow = millilitres_per_minute(entry.flow_lpm)
        step = gauge.read(entry.at, flow, level.likely, level.low == level.high, level.changes)
        self._weigh(gauge, level, step, before)

    def _weigh(self, gauge: Gauge, level: Level, step: int, before: int) -> None:
        """Add a reading's difference to the meter's sums, and raise a case where one runs over."""
        supply, allowed = gauge.supply, self.balance.allowed(gauge.supply)
        flow, lack_allowed = gauge.flow, allowed
        if self.cases.all and (told := self.cases.open()):
            explained = self.balance.explained(supply, gauge.at, told)
            flow -= explained
            allowed += abs(explained) * NOISE_PCT // 100
            lack_allowed = allowed + self.balance.pressure(supply, told)
        most = level.most if level.flows == level.sure else self.balance.most(supply, gauge.at)
        over, under = flow - most - allowed, level.low - flow - lack_allowed
        if gauge.is_stuck(allowed):
            self._stuck(gauge, abs(gauge.flow - level.likely))
        own = self.limits.of(supply)
        needed = allowed * own.hold_s
        adds = over
        if over < 0 < gauge.over.total:  # a reading that a valve's move may account for, or not, takes nothing back
            adds = min(0, flow - self.balance.usual(supply, gauge.at) - allowed)
        gauge.over.add(adds, step, (before, gauge.at), OVERFULL * needed)
        gauge.under.add(under, step, (before, gauge.at), OVERFULL * needed)
        if self.cases.all:
            self._follow(gauge, level, flow, over > 0, under > 0)
        for side, beyond in ((gauge.over, over), (gauge.under, under)):
            if beyond > 0 and side.total > needed and self._is_sure(gauge, side, beyond):
                self._raise(gauge, level, side, side is gauge.over, flow)

    def _is_sure(self, gauge: Gauge, side: Side, beyond: int) -> bool:
        """Whether enough readings tell of a difference, and nothing else is about to account for it."""
        least = self.limits.of(gauge.supply).least_readings
        if side is gauge.under:
            return side.count >= least and not self._escapes_soon(gauge.supply)
        return side.count + self._shows_beside(gauge, beyond) >= least

    def _shows_beside(self, gauge: Gauge, beyond: int) -> bool:
        """Whether a meter right above or below has just shown too much too: that is a second reading of that water."""
        above = self.tree.nearest(gauge.supply, self.gauges)
        beside = [*([above] if above else []), *self.balance.right_below(gauge.supply)]
        return any(
            one.total > 0 and 2 * one.peak >= beyond and APART_S <= gauge.at - one.peak_at <= FRESH_S
            for one in (self.gauges[node].over for node in beside)
        )

    def _escapes_soon(self, supply: str) -> bool:
        """Whether a meter of the same source is about to show too much: what others lack then, they lack for that."""
        source = self.tree.source(supply)
        return any(one.over.total > 0 and self.tree.source(one.supply) == source for one in self.gauges.values())

    def _follow(self, gauge: Gauge, level: Level, flow: int, over: bool, under: bool) -> None:
        """Measure the open cases that this meter shows, and end those that have been right for long enough."""
        wrong = over or under or self._stands_still(gauge)
        gauge.right_since = 0 if wrong else gauge.right_since or gauge.at
        for case in self.cases.all:
            if not case.is_open or gauge.supply not in case.members:
                continue
            if (case.is_excess and over) or (case.is_lack and under):
                size = abs(flow - self.balance.usual(gauge.supply, gauge.at))
                if gauge.supply == case.supply or case.supply is None:
                    case.measured(size)
                if case.is_excess and level.high == 0:
                    case.kind = Noticed.UNASKED
                self._doubt(case, gauge, over, size)
            self._end_if_right(case)

    def _stands_still(self, gauge: Gauge) -> bool:
        """Whether a meter that is known to be stuck has not moved since."""
        stuck = (case for case in self.cases.open() if case.kind is Noticed.METER)
        return gauge.same >= FEW_SAME and any(gauge.supply in case.members for case in stuck)

    def _doubt(self, case: Case, gauge: Gauge, over: bool, size: int) -> None:
        """A young case of one meter that its neighbours come to contradict is about the meter itself."""
        young = gauge.at - case.noticed <= MOVES_S
        if young and case.members == [gauge.supply] and self._contradicted(gauge, over, size, case.noticed):
            case.kind = Noticed.METER

    def is_right(self, case: Case) -> bool:
        """Whether the meters that showed a case are right again."""
        return bool(case.members) and all(self.gauges[node].right_since for node in case.members)

    def _end_if_right(self, case: Case) -> None:
        """Who says nothing may be without power still, though nothing is missing where nothing should run."""
        if case.quiet:
            return
        own = [self.gauges[node] for node in case.members]
        if all(one.right_since and one.at - one.right_since >= self.limits.of(one.supply).clear_s for one in own):
            case.end(max(one.right_since for one in own))

    def _raise(self, gauge: Gauge, level: Level, side: Side, over: bool, flow: int) -> None:
        """One of a meter's sums ran over: it belongs to a case that is there, or begins one."""
        if self._is_told(gauge.supply, over):
            return
        shown = [case for case in self.cases.open() if gauge.supply in case.members]
        if shown and self._swung(gauge, shown[0]):
            return
        size, since, now = abs(flow - self.balance.usual(gauge.supply, gauge.at)), side.since, gauge.at
        _start_anew(gauge, side)
        if self._sound_by_itself(gauge, level, size):
            return
        lower = self.neighbours.lowest_that_shows(gauge, over, size)
        if lower is not gauge and not self._is_told(lower.supply, over):
            gauge, level = lower, self.valves.levels[lower.supply]
            size = abs(gauge.flow - self.balance.usual(gauge.supply, gauge.at))
            side = gauge.over if over else gauge.under
            _start_anew(gauge, side)
        case = self._case_for(_Shown(gauge, level, over, size, since, now, side.peak_at))
        if gauge.supply not in case.members:
            case.members.append(gauge.supply)
        case.measured(size)

    def _is_told(self, supply: str, over: bool) -> bool:
        """Whether an open case already tells of what a supply's meter shows."""
        shown = (case for case in self.cases.open() if supply in case.members)
        return any(case.kind is Noticed.METER or (case.is_excess if over else case.is_lack) for case in shown)

    def _swung(self, gauge: Gauge, case: Case) -> bool:
        """Whether a meter that repeats itself has gone from too little to too much, or back: then it is the meter."""
        if gauge.same < FEW_SAME or case.members != [gauge.supply]:
            return False
        case.kind = Noticed.METER
        return True

    def _sound_by_itself(self, gauge: Gauge, level: Level, size: int) -> bool:
        """Whether a meter is only off by what a case below should have added to it: then that case's meter errs."""
        if abs(gauge.flow - level.likely) > SEEN * size:
            return False
        wrong = [
            case for case in self.cases.open()
            if len(case.members) == 1 and self.tree.is_below(case.members[0], gauge.supply)
            and (case.is_excess or case.kind is Noticed.TOO_LITTLE)
        ]  # fmt: skip
        if not wrong:
            return False
        max(wrong, key=lambda case: (case.size, case.id)).kind = Noticed.METER
        return True

    def _contradicted(self, gauge: Gauge, over: bool, size: int, since: int) -> bool:
        """Whether a meter's neighbours contradict it. While water escapes elsewhere, they cannot tell of a lack."""
        if not over and self.balance.pressure(gauge.supply, self.cases.open()):
            return False
        return self.neighbours.contradict(gauge, over, size, since)

    def _stuck(self, gauge: Gauge, size: int) -> None:
        """A meter that stands still while the draw moves, though what it shows may still pass for right."""
        if (
            gauge.count >= TOLD_BY
            and not self._stands_too(gauge)
            and not any(gauge.supply in case.members for case in self.cases.open())
        ):
            case = self._begin(Noticed.METER, gauge.supply, gauge.same_since, gauge.at)
            case.members = [gauge.supply]
            case.measured(size)

    def _stands_too(self, gauge: Gauge) -> bool:
        """Whether a meter beside this one tells that the draw did not move: no valve did then, and both are right."""
        above = self.tree.nearest(gauge.supply, self.gauges)
        beside = [*([above] if above else []), *self.tree.below(gauge.supply, self.gauges)]
        parts = (part for node in beside for part in self.gauges[node].averages())
        return any(part.start >= gauge.same_since and 2 * abs(part.off) > gauge.moved for part in parts)

    def _case_for(self, shown: _Shown) -> Case:
        supply, since, now = shown.gauge.supply, shown.since, shown.now
        if self._contradicted(shown.gauge, shown.over, shown.size, shown.clear_at - 1):
            return self._begin(Noticed.METER, supply, since, now)
        return (
            self._moved_down(shown)
            or (None if shown.over else self._joined(shown))
            or self._again(shown)
            or self._begin(shown.kind, supply, since, now)
        )

    def _begin(self, kind: Noticed, supply: str, since: int, now: int) -> Case:
        for case in self.cases.all:
            if case.kind is kind and case.supply == supply and not case.is_open:
                return self._reopened(case, since, now)
        case = self.cases.begin(kind, supply, since, now)
        case.supply = supply
        return case

    def _reopened(self, case: Case, since: int, now: int) -> Case:
        """A case that was over and is there again, at those of its meters that no other one tells of by now."""
        told = {node for one in self.cases.open() if one.is_excess == case.is_excess for node in one.members}
        case.members = [node for node in case.members if node not in told]
        case.again(since, now)
        return case

    def _again(self, shown: _Shown) -> Case | None:
        """A case that was over: of the same supply, of one below with about the same water, of all that one feeds."""
        supply = shown.gauge.supply
        for case in self.cases.all:
            if case.is_open or not case.supply or not shown.is_like(case) or self._is_told(case.supply, shown.over):
                continue
            below = self.tree.is_below(case.supply, supply) and case.size <= 2 * shown.size <= 4 * case.size
            above = not shown.over and len(case.members) > 1 and self.tree.is_below(supply, case.supply)
            if case.supply == supply or below or above:
                return self._reopened(case, shown.since, shown.now)
        return None

    def _moved_down(self, shown: _Shown) -> Case | None:
        """A young case of a supply above that is about the same water: it lies lower than was thought."""
        supply = shown.gauge.supply
        for case in self.cases.open():
            young = shown.now - case.noticed <= MOVES_S and 2 * shown.size >= case.size
            if not young or not case.supply or case.members != [case.supply] or not shown.is_like(case):
                continue
            if self.tree.is_below(supply, case.supply):
                self.gauges[case.supply].over.clear()
                self.gauges[case.supply].under.clear()
                case.supply, case.members, case.sizes = supply, [supply], []
                return case
        return None

    def _joined(self, shown: _Shown) -> Case | None:
        """An open lack with the same cause: it began about then, or all that lies between gives as much less."""
        for case in self.cases.open():
            if not case.is_lack:
                continue
            together = self.tree.shared([*case.members, shown.gauge.supply])
            nodes = [together, *case.members] if together else []
            at_once = abs(case.began - shown.since) <= TOGETHER_S
            if at_once or (nodes and self.neighbours.lack_alike(nodes, shown.size, shown.level)):
                self._joins_at(case, together)
                return case
        return None

    def _joins_at(self, case: Case, together: str | None) -> None:
        """A lack of several supplies is one of what feeds them all, and is measured there if there is a meter."""
        case.supply = together
        if together in self.gauges and together not in case.members:
            case.members.append(together)
            case.sizes = []


@dataclass(frozen=True, slots=True)
class _Shown:
    """A difference that a meter shows: how large (mL/min), since when, and now.

    `clear_at`: the reading that first showed it plainly. What another meter showed before that tells nothing of it.
    """

    gauge: Gauge
    level: Level
    over: bool
    size: int
    since: int
    now: int
    clear_at: int

    @property
    def kind(self) -> Noticed:
        if not self.over:
            return Noticed.TOO_LITTLE
        return Noticed.TOO_MUCH if self.level.high else Noticed.UNASKED

    def is_like(self, case: Case) -> bool:
        return case.is_excess if self.over else case.kind is Noticed.TOO_LITTLE


def _start_anew(gauge: Gauge, side: Side) -> None:
    """What a sum told of is told; averages from here on are of the fault."""
    side.clear()
    gauge.close()
    gauge.right_since = 0
