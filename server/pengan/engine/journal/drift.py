"""A station's flow that creeps away over the nights: a clogging filter, wearing nozzles, a growing leak.

The first nights are the target; the CUSUM chart of the others tells when they have left it (see `control`, with its
source). k is half a deviation and h five, which the e-Handbook's section names as usual (4 or 5). A night counts as no
further off than `MOST_OFF` deviations, so that no single odd one tells of a drift, and the chart has to tell of it
still.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from .control import cusum
from .learned import NORMAL

BASE_NIGHTS = 7
"""So many nights tell the target. Common practice, no source."""
ALLOWANCE, INTERVAL = 0.5, 5.0
MOST_OFF = 4.0
LEAST_DEVIATION_PCT = 1.0
"""A deviation is taken as no smaller than this share of the flow: meters are no better. Common practice, no source."""
LATEST = 3


@dataclass(frozen=True, slots=True)
class Drift:
    """A flow that left its target: since which night, on which night the chart told, and how far it is now."""

    since: str
    told: str
    from_lpm: float
    to_lpm: float

    @property
    def change_pct(self) -> float:
        return round(100 * (self.to_lpm / self.from_lpm - 1), 1)


def drift(nights: Sequence[tuple[str, float]]) -> Drift | None:
    """Whether a station's nightly flows (see `Learned.nights`) have drifted; None too where there are too few."""
    base, later = nights[:BASE_NIGHTS], nights[BASE_NIGHTS:]
    if len(base) < BASE_NIGHTS or not later:
        return None
    target = median(flow for _, flow in base)
    spread = NORMAL * median(abs(flow - target) for _, flow in base)
    deviation = max(spread, target * LEAST_DEVIATION_PCT / 100)
    reach = MOST_OFF * deviation
    flows = [min(max(flow, target - reach), target + reach) for _, flow in later]
    sums = list(cusum(flows, target, ALLOWANCE * deviation))
    if not sums[-1].outside(INTERVAL * deviation):
        return None
    off = [one.high if sums[-1].high > sums[-1].low else one.low for one in sums]
    since = max((place + 1 for place, one in enumerate(off) if one == 0), default=0)
    told = next(place for place in range(since, len(off)) if off[place] > INTERVAL * deviation)
    return Drift(later[since][0], later[told][0], target, median(flow for _, flow in nights[-LATEST:]))
