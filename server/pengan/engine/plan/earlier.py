"""The sheet that a new one takes the place of: what the solver starts from, and how much the new one differs."""

from __future__ import annotations

from collections.abc import Sequence

from .sheet import NightSheet, Run
from .solve import MOVED_S, Before


def before_of(sheet: NightSheet) -> Before:
    """The sheet as the solver knows a plan: its order, and each turn's starts in seconds of its night."""
    starts: dict[str, list[int | None]] = {}
    for run in sheet.runs:
        row = starts.setdefault(run.turn, [])
        row.extend([None] * (run.cycle - len(row)))
        row[run.cycle - 1] = run.start - sheet.starts
    return Before(sheet.order, starts)


def moved_pct(before: NightSheet, starts: int, runs: Sequence[Run]) -> float:
    """The share, in percent to one decimal, of the runs in both sheets that moved. 0.0 if none is in both.

    `starts` is the instant at which the new night begins: sheets of two nights are compared by time since noon.
    """
    earlier = {(run.turn, run.cycle): run.start - before.starts for run in before.runs}
    both = [abs(run.start - starts - earlier[run.turn, run.cycle]) for run in runs if (run.turn, run.cycle) in earlier]
    return round(100 * sum(shift > MOVED_S for shift in both) / len(both), 1) if both else 0.0
