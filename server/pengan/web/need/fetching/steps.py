"""A forecast as steps of time: what every service's answer is read into."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

HOUR_S = 3600
LONGEST_STEP_S = 6 * HOUR_S
"""A longer step is a hole: too much can happen in it."""
MOST_STEPS = 1000
"""More than any service tells at once: an answer with more is not read."""


class Malformed(ValueError):
    """An answer that is not what the service's documentation says. Nothing of it is used."""


@dataclass(frozen=True, slots=True)
class Step:
    """From an instant to an instant: what holds `at` its start, and what falls or is reached `over` it.

    `at` has `temp_degc`, `dew_degc`, `humidity_pct`, `wind_mps`; `over` has `rain_mm`, `solar_mj` (sums), and
    `high_degc`, `low_degc`. What a service does not tell is left out.
    """

    starts: int
    ends: int
    at: Mapping[str, float] = field(default_factory=dict)
    over: Mapping[str, float] = field(default_factory=dict)


def in_order(steps: list[Step]) -> tuple[Step, ...]:
    """The steps, once it is sure that they follow one another. Raises `Malformed`."""
    if len(steps) > MOST_STEPS:
        raise Malformed("more steps than can be")
    if any(one.starts >= one.ends for one in steps):
        raise Malformed("a step that ends before it starts")
    if any(one.ends > other.starts for one, other in zip(steps, steps[1:], strict=False)):
        raise Malformed("steps that lie in one another")
    return tuple(steps)
