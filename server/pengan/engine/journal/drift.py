"""A station's flow that creeps away over the nights: a clogging filter, wearing nozzles, a growing leak.

The first nights are the target; the CUSUM chart of the others tells when they have left it (see `control`, with its
source). k is half a deviation and h five, which the e-Handbook's section names as usual (4 or 5).
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
    sums = list(cusum([flow for _, flow in later], target, ALLOWANCE * deviation))
    told = next((place for place, one in enumerate(sums) if one.outside(INTERVAL * deviation)), None)
    if told is None:
        return None
    up = sums[told].high > sums[told].low
    quiet = [place for place, one in enumerate(sums[: told + 1]) if (one.high if up else one.low) == 0]
    since = quiet[-1] + 1 if quiet else 0
    return Drift(later[since][0], later[told][0], target, median(flow for _, flow in nights[-LATEST:]))
