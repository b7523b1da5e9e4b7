"""From when on a difference between expected and measured is worth a person's attention. All of it is data.

Every default is common practice, no source: set each supply's own where its meter or its pipes ask for it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from .expected import SETTLING, Settling


@dataclass(frozen=True, slots=True)
class Thresholds:
    """One supply's limits. A difference counts from the larger of `least_lpm` and a share of the open stations' flow.

    `share_pct` is the share of a station whose own flow is learned, `unlearned_pct` of one known from the document
    alone. A difference is told of once it has brought, beyond that allowance, as much water as the allowance itself
    brings in `hold_s`, in at least `least_readings` readings; and it is over once readings have been right for
    `clear_s`. A meter that tells nothing for `silent_s` is silent.
    """

    least_lpm: float = 2.0
    share_pct: int = 5
    unlearned_pct: int = 12
    hold_s: int = 45
    least_readings: int = 2
    clear_s: int = 300
    silent_s: int = 300


@dataclass(frozen=True, slots=True)
class Silences:
    """A controller that lets itself be heard regularly is silent after `controller_s`.

    Any controller that tells of its valves is silent when a valve's due word is `word_s` late.
    """

    controller_s: int = 1200
    word_s: int = 120


@dataclass(frozen=True, slots=True)
class Limits:
    """The limits of a site: those of each supply that has its own, and what stands for all the others."""

    supplies: Mapping[str, Thresholds] = field(default_factory=dict)
    usual: Thresholds = Thresholds()
    silences: Silences = Silences()
    settling: Settling = SETTLING

    def of(self, supply: str) -> Thresholds:
        return self.supplies.get(supply, self.usual)
