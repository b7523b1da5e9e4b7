"""What the watch notices of faults that are known to be there, how soon, and how often it cries without cause.

Each field is a made-up one of its own (`pengan.field`); it is learned over a week of sound nights, and then watched in
50 sound nights and in 50 with faults. The table is printed for the fields that the watch's limits were chosen by, and
for fields that had no part in that: `--seed` asks for others, `--nights` for fewer or more of each field.
"""

from __future__ import annotations

import os
from collections import defaultdict
from collections.abc import Iterable, Sequence
from concurrent.futures import ProcessPoolExecutor
from statistics import median

from . import drifting
from .field_nights import FIELDS, Field
from .table import Table, note, percent
from .watched_nights import FITS, FieldOutcome, Guess, Outcome, field_outcome

NIGHTS, SOON_S, FEW = 50, 180, 3
CHOSEN_BY, HELD_OUT = 0, 97
"""The seed of the fields that limits were chosen by, and one of which nothing was looked at before it was measured."""
AIMS = {"break at a station": 0.99, "break in a pipe": 0.99, "leak of 5 L/min and more": 0.95}
SURES = ((0.8, 1.01), (0.6, 0.8), (0.4, 0.6), (0.2, 0.4), (0.01, 0.2))
HEADS = (
    "fault", "faults", "found", "in 3 min", "median s", "worst s", "alarms each", "named first", f"first {FEW}",
    "named last", f"last {FEW}", "aim",
)  # fmt: skip


def show(seed: int | None = None, nights: int | None = None, *, every: bool = False) -> None:
    for one in (CHOSEN_BY, HELD_OUT) if seed is None else (seed,):
        _show_seed(one, nights or NIGHTS, every)
    drifting.show()


def outcomes(seed: int, nights: int) -> list[FieldOutcome]:
    with ProcessPoolExecutor(os.cpu_count()) as pool:
        return list(pool.map(_outcome_of, [seed] * FIELDS, range(1, FIELDS + 1), [nights] * FIELDS))


def _outcome_of(seed: int, number: int, nights: int) -> FieldOutcome:
    return field_outcome(Field(seed, number), nights)


def _show_seed(seed: int, nights: int, every: bool) -> None:
    whose = {CHOSEN_BY: "which the limits were chosen by", HELD_OUT: "held out"}.get(seed, "asked for")
    print_outcomes(f"seed {seed}, {whose}", FIELDS * nights, outcomes(seed, nights), every)


def print_outcomes(label: str, nights: int, results: Sequence[FieldOutcome], every: bool = False) -> None:
    rows: dict[str, list[Outcome]] = defaultdict(list)
    for one in (one for result in results for one in result.outcomes):
        rows[one.row].append(one)
    table = Table(f"Faults in {nights} nights ({label}): found, how soon, and the culprit named", HEADS, first=26)
    for row in FITS:
        if found := rows.get(row):
            table.row(row, *_cells(row, found))
    _print_sure(label, [one for found in rows.values() for one in found])
    _print_cries(nights, results)
    if every:
        late = [one for found in rows.values() for one in found if one.after_s is None or one.after_s > SOON_S]
        print(*(cry for one in results for cry in (*one.cries, *one.cries_beside)), *late, sep="\n")


def _print_cries(nights: int, results: Sequence[FieldOutcome]) -> None:
    cries, beside = sum(len(one.cries) for one in results), sum(len(one.cries_beside) for one in results)
    hundred = 100 * cries / nights
    note(f"Sound nights: {cries} alarms in {nights}, {hundred:.2f} in a hundred; aim: 1. "
         f"{'reached' if hundred <= 1 else 'NOT REACHED'}")  # fmt: skip
    note(f"Nights with faults: {beside} alarms about none of them.")


def _cells(row: str, found: Sequence[Outcome]) -> list[str]:
    times = [one.after_s for one in found if one.after_s is not None]
    soon = sum(time <= SOON_S for time in times) / len(found)
    share = len(times) / len(found)
    reached = share if row.startswith("leak") else soon
    return [
        str(len(found)), percent(share), percent(soon), str(round(median(times))) if times else "-",
        str(max(times)) if times else "-", f"{sum(one.alarms for one in found) / max(1, len(times)):.2f}",
        *_named([one.first for one in found]), *_named([one.last for one in found]),
        ("reached" if reached >= AIMS[row] else "NOT") if row in AIMS else "",
    ]  # fmt: skip


def _named(guesses: Iterable[Sequence[Guess] | None]) -> tuple[str, str]:
    """In how many cases the place is the surest culprit's, and in how many it is among the surest few."""
    told = [guess for guess in guesses if guess is not None]
    if not told:
        return "-", "-"
    few = [[one.place for one in guess[:FEW]] for guess in told]
    return percent(sum(any(one[:1]) for one in few) / len(told)), percent(sum(map(any, few)) / len(told))


def _print_sure(label: str, found: Sequence[Outcome]) -> None:
    """How often a culprit that was said to be so sure was the one: as first told, and in the end."""
    heads = ("said to be sure", "first", "meant", "were right", "last", "meant", "were right")
    table = Table(f"How sure the culprits were said to be, and how many of them were right ({label})", heads, first=26)
    first = [one for each in found for one in each.first or ()]
    last = [one for each in found for one in each.last or ()]
    for least, most in SURES:
        table.row(f"{least:.0%} to {min(1, most):.0%}", *_right(first, least, most), *_right(last, least, most))


def _right(guesses: Sequence[Guess], least: float, most: float) -> tuple[str, str, str]:
    said = [one for one in guesses if least <= one.sure < most]
    if not said:
        return "0", "-", "-"
    meant = sum(one.sure for one in said) / len(said)
    return str(len(said)), percent(meant), percent(sum(one.true for one in said) / len(said))
