"""How much a sheet differs from the one it takes the place of."""

from __future__ import annotations

from collections.abc import Sequence

from .sheet import NightSheet, Run

MOVED_S = 600
"""A run that starts more than ten minutes earlier or later has moved."""


def moved_pct(before: NightSheet, starts: int, runs: Sequence[Run]) -> float:
    """The share, in percent to one decimal, of the runs in both sheets that moved. 0.0 if none is in both.

    `starts` is the instant at which the new night begins: sheets of two nights are compared by time since noon.
    """
    earlier = {(run.turn, run.cycle): run.start - before.starts for run in before.runs}
    both = [abs(run.start - starts - earlier[run.turn, run.cycle]) for run in runs if (run.turn, run.cycle) in earlier]
    return round(100 * sum(shift > MOVED_S for shift in both) / len(both), 1) if both else 0.0
