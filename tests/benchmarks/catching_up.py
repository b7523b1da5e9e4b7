"""Recovering what an interruption missed, beside CP-SAT; and how long the rest of a large night takes."""

from __future__ import annotations

from random import Random
from statistics import mean

from nights.as_document import NIGHT, as_document
from nights.catching_up import Share, interrupted, share_of
from nights.families import FAMILIES, night
from nights.happening import power_cut, valves
from pengan.engine.catch_up.happened import as_told
from pengan.engine.catch_up.rest import Way, rest_of_night
from pengan.engine.check.rest_of_sheet import rest_violations
from pengan.engine.plan.night import plan_night

from .clockwork import timed
from .table import Table, note, percent, seconds

SIZES, SEEDS = (8, 14), 6
SECONDS, WORKERS = 10.0, 2
LEAST = 0.98
LARGE = (200, 1000)
CUT_S = 2700


def show() -> None:
    small()
    large()


def small(seeds: int = SEEDS, time_s: float = SECONDS) -> None:
    table = Table(
        f"Water recovered, of what CP-SAT could recover ({time_s:.0f} s a night)",
        ("family", "nights", "missed", "mean", "worst", "of all", "proved"),
    )
    every: list[Share] = []
    for family in FAMILIES:
        shares = [
            share_of(interrupted(family, size, seed), time_s, WORKERS) for size in SIZES for seed in range(1, seeds + 1)
        ]
        with_loss = [share for share in shares if share.most > share.clock]
        every.extend(with_loss)
        _row(table, family, shares, with_loss)
    most = sum(share.most - share.clock for share in every)
    capped = sum(min(share.ours, share.most) - share.clock for share in every) / most
    worst = min(share.of_recoverable for share in every)
    note("missed: nights on which keeping to the clock misses water that could come; mean and worst of those. CP-SAT")
    note(
        "places whole cycles; parts of cycles, which the catch-up runs where no whole one fits, make a share above 100."
    )
    note("Here no night counts above CP-SAT's. Where turns have ranks, CP-SAT serves by rank as well.")
    reached = f"{percent(capped)} (at least 98 %), reached: {_yes(capped >= LEAST)}"
    note(f"all together {reached}; worst night {percent(worst)}")


def _row(table: Table, family: str, shares: list[Share], with_loss: list[Share]) -> None:
    parts = [share.of_recoverable for share in with_loss] or [1.0]
    table.row(
        family,
        str(len(shares)),
        str(len(with_loss)),
        percent(mean(parts)),
        percent(min(parts)),
        percent(mean(share.of_all for share in shares)),
        f"{sum(share.proved for share in shares)}",
    )


def large() -> None:
    table = Table(
        f"The rest of a large night after a power cut of {CUT_S // 60} minutes",
        ("family, stations", "clock", "quick", "full", "missed m3", "recovered", "moved"),
    )
    for family in ("tight", "deep_tree", "electrical", "mixed"):
        for stations in LARGE:
            _large_row(table, family, stations)
    note("clock: keeping to the clock. quick: four constructions, as on a phone. full: the default effort, natively.")


def _large_row(table: Table, family: str, stations: int) -> None:
    document = as_document(night(family, stations, 1))
    sheet = plan_night(document, NIGHT, effort=20)
    now = (sheet.runs[0].start + max(run.end for run in sheet.runs)) // 2
    outages = power_cut(document, now - CUT_S, now)
    happened = as_told(document, sheet, valves(Random(stations), sheet, now, odd=0.02), outages, now)
    _, clock_s = timed(lambda: rest_of_night(document, sheet, now, happened, way=Way.KEEP))
    _, quick_s = timed(lambda: rest_of_night(document, sheet, now, happened, effort=4))
    full, full_s = timed(lambda: rest_of_night(document, sheet, now, happened))
    if rest_violations(document, full.sheet, now, outages):
        raise AssertionError("the rest breaks a limit")
    effect = full.effect
    recovered = effect.recovered_l / effect.missed_l if effect.missed_l else 1.0
    moved = effect.moved_count / effect.later_count if effect.later_count else 0.0
    table.row(
        f"{family}, {stations:,}",
        seconds(clock_s),
        seconds(quick_s),
        seconds(full_s),
        f"{effect.missed_l / 1000:.1f}",
        percent(recovered),
        percent(moved),
    )


def _yes(reached: bool) -> str:
    return "yes" if reached else "NO"
