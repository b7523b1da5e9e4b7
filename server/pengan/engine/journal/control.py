"""Control charts: whether a row of numbers still hovers around its target, or has moved off it.

Source of both: NIST/SEMATECH e-Handbook of Statistical Methods, sections 6.3.2.3 (CUSUM) and 6.3.2.4 (EWMA).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import sqrt


@dataclass(frozen=True, slots=True)
class Sums:
    """The two one-sided sums of a CUSUM chart: how far above and how far below the target it has gone in all."""

    high: float
    low: float

    def outside(self, interval: float) -> bool:
        """Whether either is beyond the decision interval h."""
        return self.high > interval or self.low > interval


def cusum(values: Iterable[float], target: float, allowance: float) -> Iterator[Sums]:
    """The sums after each value. `allowance` is k: half the shift to be noticed, in the values' unit."""
    high = low = 0.0
    for value in values:
        high = raised(high, value - target - allowance)
        low = raised(low, target - allowance - value)
        yield Sums(high, low)


def raised(total: float, by: float) -> float:
    """One step of a one-sided sum: it never falls below nothing."""
    return max(0.0, total + by)


def ewma(values: Iterable[float], target: float, weight: float) -> Iterator[float]:
    """The weighted average after each value; `weight` is lambda, the share of the newest value."""
    average = target
    for value in values:
        average = weight * value + (1 - weight) * average
        yield average


def ewma_limits(target: float, deviation: float, weight: float, width: float = 3.0) -> tuple[float, float]:
    """The lower and upper limit of a chart that has run for a while; `width` is how many deviations wide."""
    reach = width * sqrt(weight / (2 - weight)) * deviation
    return target - reach, target + reach
