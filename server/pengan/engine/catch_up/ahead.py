"""A rest of the night that could be, and what it is judged by. Seconds of the night."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..plan.problem import Plan, Problem
from ..plan.solve.score import RANKS
from .left import Left, Row
from .sound import Rows

Standing = tuple[tuple[int, ...], int, int]
"""Water missing by rank, the most important first, in mL/min × s; then what of it turns miss that are less than half
watered; then when it ends. Less is better."""


@dataclass(frozen=True, slots=True)
class Ahead:
    """`rows` and `missing`: runs to come and cycles left out, by chain of the night, open runs apart.

    `whole`: open runs go on until they are whole, else until the clock ends them. `problem` and `plan` say the same to
    the solver and the check, open runs first. `solved`: the plan's order is what it was made from.
    """

    rows: Rows
    missing: Sequence[tuple[int, ...]]
    whole: bool
    problem: Problem
    plan: Plan
    solved: bool = False


def standing(left: Left, ahead: Ahead) -> Standing:
    """What a rest of the night is judged by."""
    short, needy = [0] * (RANKS + 1), 0
    for c, missing in enumerate(ahead.missing):
        volume = left.chains[c].flow * sum(missing)
        short[left.chains[c].rank] += volume
        needy += volume if left.needy(c) else 0
    return tuple(short), needy, end_of(left, ahead)


def end_of(left: Left, ahead: Ahead) -> int:
    """When the last run ends; now, where there is none."""
    ends = [start + seconds for row in ahead.rows.values() for start, seconds in row]
    return max([left.now, *ends, *(left.now + chain.cycles[0] for chain in left.going(whole=ahead.whole))])


def water(left: Left, ahead: Ahead) -> int:
    """What it brings from now on, in mL/min × s."""
    going = sum(chain.flow * chain.cycles[0] for chain in left.going(whole=ahead.whole))
    return going + sum(left.chains[c].flow * seconds for c, row in ahead.rows.items() for _, seconds in row)


def runs_of(left: Left, ahead: Ahead, c: int) -> Row:
    """Every run of a turn in this night: what ran, what is open now, what is to come."""
    turn = left.turns[c]
    runs = [(start, end - start) for start, end in turn.past]
    if turn.going:
        runs.append((turn.going.start, (turn.going.whole if ahead.whole else turn.going.clock) - turn.going.start))
    return tuple(sorted(run for run in (*runs, *ahead.rows.get(c, ())) if run[1] > 0))


def composed(left: Left, rows: Rows, missing: Sequence[tuple[int, ...]]) -> tuple[list[int], Problem, Plan]:
    """Runs by the clock, and after them what is missing, as a problem and a plan that leaves the missing out.

    First the numbers of the chains that the problem has behind its open runs.
    """
    going = left.going(whole=False)
    chosen = [c for c in range(len(left.chains)) if rows.get(c) or missing[c]]
    chains = [
        left.chain(c, (*(seconds for _, seconds in rows.get(c, ())), *missing[c]), left.ready_by_clock(c))
        for c in chosen
    ]
    starts = [(*(start for start, _ in rows.get(c, ())), *[None] * len(missing[c])) for c in chosen]
    plan = Plan((*[(left.now,)] * len(going), *starts), left.before.order, 0)
    return chosen, left.problem([*going, *chains]), plan
