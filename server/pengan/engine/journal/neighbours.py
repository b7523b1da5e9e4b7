"""What the meters beside a meter say of its differences: whether they see them too, and whether all give alike."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from .gauge import FEW_SAME, Gauge
from .live import Level
from .tree import Tree

SEEN = 0.35
"""A meter above that shows less than this share of a difference has not seen it. Common practice, no source."""
FRESH_S = 180
NOISE_PCT = 4
"""Two sound meters may differ by so much of what they show. Common practice, no source."""


class Neighbours:
    """All meters of a site beside each other."""

    def __init__(
        self, tree: Tree, gauges: Mapping[str, Gauge], levels: Mapping[str, Level], allowed: Callable[[str], int]
    ) -> None:
        self.tree, self.gauges, self.levels, self.allowed = tree, gauges, levels, allowed

    def contradict(self, gauge: Gauge, over: bool, size: int, since: int) -> bool:
        """Whether a meter's difference is not in the water but in the meter."""
        above = self._above(gauge, over, size, since)
        if above is not None:
            return not above
        return self._below_give_more(gauge, over, size) or self.is_stuck(gauge)

    def is_stuck(self, gauge: Gauge) -> bool:
        return gauge.is_stuck(self.allowed(gauge.supply))

    def _is_steady(self, gauge: Gauge, now: int) -> bool:
        """Whether a meter's last reading is of the draw as it still is."""
        return now - gauge.at <= FRESH_S and gauge.changes == self.levels[gauge.supply].changes

    def _above(self, gauge: Gauge, over: bool, size: int, since: int) -> bool | None:
        """Whether the meter above sees it too; None where it cannot tell."""
        supply = self.tree.nearest(gauge.supply, self.gauges)
        if supply is None:
            return None
        above, level = self.gauges[supply], self.levels[supply]
        steady = self._is_steady(gauge, gauge.at) and self._is_steady(above, gauge.at)
        clear = size >= 2 * (self.allowed(supply) + above.flow * NOISE_PCT // 100)
        if not steady or not clear or above.at <= since or above.same >= FEW_SAME:
            return None
        most = above.flow - level.low if over else level.high - above.flow
        return most >= SEEN * size

    def _below_give_more(self, gauge: Gauge, over: bool, size: int) -> bool:
        """Whether the meters below tell of more water than came through: that cannot be."""
        if over or not self._is_steady(gauge, gauge.at):
            return False
        below = [self.gauges[node] for node in self.tree.below(gauge.supply, self.gauges)]
        steady = [one.flow for one in below if self._is_steady(one, gauge.at) and not self.is_stuck(one)]
        noise = gauge.flow * NOISE_PCT // 100
        return sum(steady) - gauge.flow > noise + max(self.allowed(gauge.supply), round(SEEN * size))

    def lowest_that_shows(self, gauge: Gauge, over: bool, size: int) -> Gauge:
        """The lowest meter below this one that already shows most of its difference; it itself if none does."""
        for node in self.tree.below(gauge.supply, self.gauges):
            one = self.gauges[node]
            side = one.over if over else one.under
            fresh = gauge.at - one.at <= FRESH_S and side.total > 0
            if fresh and 2 * abs(one.flow - self.levels[node].likely) >= size:
                return self.lowest_that_shows(one, over, size)
        return gauge

    def lack_alike(self, supplies: Iterable[str], size: int, level: Level) -> bool:
        """Whether these supplies all give less by about the share that one does which lacks `size`."""
        known = [node for node in supplies if node in self.gauges]
        if not level.likely or not known:
            return False
        share = size / level.likely
        return all(share / 2 <= self._lack(node) <= 2 * share for node in known)

    def _lack(self, supply: str) -> float:
        likely = self.levels[supply].likely
        return (likely - self.gauges[supply].flow) / likely if likely else 0.0
