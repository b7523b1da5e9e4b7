"""How the time to the first sheet grows with the night, beside a plain scan on the same nights."""

from __future__ import annotations

from math import log

from nights.families import FAMILIES, night
from pengan.engine.plan.solve import solve

from .clockwork import timed
from .plain_scan import plain_scan
from .table import Table, note, seconds

SIZES = (50, 200, 1000, 5000, 10_000)
MOST_EXPONENT = 1.2


def show() -> None:
    table = Table(
        "First sheet: processor time by size, and its growth from 200 to 5,000",
        ("family", *(f"{size:,}" for size in SIZES), "exponent", "reached"),
    )
    for family in FAMILIES:
        times = [_first(family, size) for size in SIZES]
        exponent = _exponent(times[1], times[3])
        reached = "yes" if exponent <= MOST_EXPONENT else "NO"
        table.row(family, *map(seconds, times), f"{exponent:.2f}", reached)
    scans = [timed(lambda size=size: plain_scan(night("tight", size, 1)))[1] for size in SIZES[1:3]]  # type: ignore[misc]
    mine = [_first("tight", size) for size in SIZES[1:3]]
    ratios = ", ".join(f"{b / a:.1f} times at {n:,}" for a, b, n in zip(mine, scans, SIZES[1:3], strict=True))
    note(f"A plain scan of all ready cycles takes {ratios} as long; exponent {_exponent(scans[0], scans[1], 5):.2f}.")


def _first(family: str, size: int) -> float:
    problem = night(family, size, 1)
    return timed(lambda: solve(problem, 1), 5 if size <= 1000 else 2)[1]


def _exponent(small: float, large: float, ratio: float = 25) -> float:
    return log(large / small) / log(ratio)
