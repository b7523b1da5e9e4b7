"""What a meter's reading is held against: its valves, what the meters below it show, and the cases told of already.

All water through a supply goes to those below it, to its own stations, or escapes. So a cabinet that lost its power,
or is not heard, does not hide what escapes above the meters of its stations: what those show is all that they give.
Flows are whole mL/min, instants whole seconds.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping

from .case import Case, Cases
from .finding import Noticed
from .gauge import Gauge
from .live import Level
from .neighbours import FRESH_S
from .thresholds import Limits
from .tree import Tree

NOISE_PCT = 6
"""What meters below show is only known to within so much of it. Common practice, no source."""
PRESSURE_PCT = 40
"""While water escapes, other stations of the same source may give so much less. Common practice, no source."""


class Balance:
    """All meters of a site, each with what it may show."""

    def __init__(
        self, tree: Tree, gauges: Mapping[str, Gauge], levels: Mapping[str, Level], limits: Limits, cases: Cases
    ) -> None:
        self.tree, self.gauges, self.levels, self.cases = tree, gauges, levels, cases
        self._least = {supply: round(limits.of(supply).least_lpm * 1000) for supply in levels}
        self._below: dict[str, list[str]] = {}
        self._metered = 0

    def allowed(self, supply: str) -> int:
        """The difference that a supply may show right now."""
        return max(self._least[supply], self.levels[supply].slack)

    def most(self, supply: str, now: int) -> int:
        """The most that an honest meter of a supply may show now."""
        level = self.levels[supply]
        return min(level.most, level.high - self.spare(supply, now))

    def usual(self, supply: str, now: int) -> int:
        """What a meter's differences are counted from."""
        level, spare = self.levels[supply], self.spare(supply, now)
        return min(level.most, level.high - spare, max(level.low, level.likely - spare))

    def spare(self, supply: str, now: int) -> int:
        """What valves that say nothing might take through a supply, and do not by the meters below it."""
        level = self.levels[supply]
        if level.flows == level.sure:
            return 0
        err = {node for case in self.cases.open() if case.kind is Noticed.METER for node in case.members}
        return self._spare_below(supply, now, err)

    def explained(self, supply: str, now: int, cases: Iterable[Case]) -> int:
        """What open cases below a supply add to its reading; a meter that errs adds nothing."""
        open_below = {node for case in cases if case.kind is not Noticed.METER for node in case.members}
        if not open_below:
            return 0
        return sum(self._outside(node, now) for node in self.tree.highest(open_below, supply))

    def pressure(self, supply: str, cases: Iterable[Case]) -> int:
        """How much less its stations may give while water escapes from the same source, by open cases."""
        source = self.tree.source(supply)
        escapes = any(case.is_excess and case.supply and self.tree.source(case.supply) == source for case in cases)
        return self.levels[supply].likely * PRESSURE_PCT // 100 if escapes else 0

    def right_below(self, supply: str) -> list[str]:
        """The meters right below one: looked up once for as long as no other meter is heard for the first time."""
        if len(self.gauges) != self._metered:
            self._below, self._metered = {}, len(self.gauges)
        if supply not in self._below:
            self._below[supply] = self.tree.below(supply, self.gauges)
        return self._below[supply]

    def _outside(self, node: str, now: int) -> int:
        """How far a meter is off beyond all that valves which say nothing, or move just then, may account for."""
        flow = self.gauges[node].flow
        return flow - min(max(flow, self.levels[node].low), self.most(node, now))

    def _spare_below(self, supply: str, now: int, err: Collection[str]) -> int:
        return sum(self._spare(node, now, err) for node in self.right_below(supply))

    def _spare(self, supply: str, now: int, err: Collection[str]) -> int:
        """How much less comes through a supply, by its own meter, than its valves that say nothing may take.

        Less than what surely flows is a lack, and told of by itself. `err`: the meters that are known to be wrong.
        """
        gauge, level = self.gauges[supply], self.levels[supply]
        unsure = level.flows - level.sure
        if not unsure or supply in err:
            return 0
        if now - gauge.at > FRESH_S or gauge.seen_changes != level.changes:
            return self._spare_below(supply, now, err)
        comes = max(level.low, gauge.flow)
        spare = level.high - comes - max(self._least[supply], comes * NOISE_PCT // 100)
        return max(0, min(unsure, spare))
