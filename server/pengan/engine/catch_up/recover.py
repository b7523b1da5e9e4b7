"""Recovering what was missed: the best rest of the night that is found, by rank and need.

Two ways are tried, a calm one (`filled`) and a free one (`free`). The calm one is given up only for more water, or for
a clearly earlier end. Whatever is chosen brings no less than keeping to the clock: in all, and at the first rank that
differs. Every rest is put to the independent check before it is taken.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from ..check import violations
from ..plan.solve.search import WORTH_MOVING_S
from .ahead import Ahead, Standing, composed, standing, water
from .clock import Kept, keep
from .filled import ORDERS, filled
from .free import free
from .left import Left
from .parts import in_parts
from .sound import stretched

Progress = Callable[[int], None]

SOONER_S = 900
"""By how much the free rest has to end sooner, where both bring as much: crews expect runs where the sheet has them."""


@dataclass(frozen=True, slots=True)
class Recovered:
    """The rest that was found, in a night whose open runs may go on for longer, and the constructions it took."""

    left: Left
    ahead: Ahead
    constructions: int


def by_the_clock(left: Left, kept: Kept) -> Ahead:
    """Keeping to the clock, as a rest of the night."""
    missing = kept.missing(left)
    _, problem, plan = composed(left, kept.rows, missing)
    return Ahead(kept.rows, missing, False, problem, plan)


def recovered(left: Left, kept: Kept, effort: int, told: Progress) -> Recovered:
    """The best rest that about `effort` constructions find. `kept` is what keeping to the clock keeps.

    What then is missing goes in parts where it can, but after an interruption alone: an edit cuts no cycles.
    """
    found = _whole_cycles(left, kept, effort, told)
    if left.edited or not any(found.ahead.missing):
        return found
    night, ahead, spent = in_parts(found.left, found.ahead)
    return Recovered(night, ahead, found.constructions + spent)


def _whole_cycles(left: Left, kept: Kept, effort: int, told: Progress) -> Recovered:
    least = water(left, by_the_clock(left, kept))
    calm = _calm(left, kept, least, effort, told)
    if calm.constructions >= effort or _good_enough(calm):
        return calm
    spent = calm.constructions
    found = free(calm.left, effort - spent, lambda count: told(spent + count))
    spent += found.plan.constructions
    sound = water(left, found) >= least and not violations(found.problem, found.plan)
    if sound and _clearly_better(calm.left, found, calm.ahead):
        return Recovered(calm.left, found, spent)
    return replace(calm, constructions=spent)


def _calm(left: Left, kept: Kept, least: int, effort: int, told: Progress) -> Recovered:
    """The best of those rests in which what is planned stays: whole cycles alone, or every part that the clock keeps.

    Parts are kept only where that brings more: a cycle that was cut is better made up for as one.
    """
    best = Recovered(left, by_the_clock(left, kept), 0)
    judged: Standing | None = None
    spent = 0
    for base in (keep(left, parts=False), kept):
        stretching = stretched(left, base.rows)
        clock = by_the_clock(stretching, base)
        attempts = filled(stretching, clock, max(1, min(len(ORDERS), effort // 8)))
        for number, attempt in enumerate((clock, *attempts)):
            spent += number > 0
            told(spent)
            its = standing(stretching, attempt)
            enough = water(stretching, attempt) >= least and not violations(attempt.problem, attempt.plan)
            if enough and (judged is None or its < judged):
                best, judged = Recovered(stretching, attempt, spent), its
        if spent >= effort or (judged is not None and not any(judged[0])):
            break
    return replace(best, constructions=spent)


def _good_enough(calm: Recovered) -> bool:
    """Whether nothing is missing and the night ends no later than planned; an edit is looked at more closely."""
    left, (short, _, end) = calm.left, standing(calm.left, calm.ahead)
    return not left.edited and not any(short) and end <= _planned_end(left)


def _planned_end(left: Left) -> int:
    return left.now if left.before.finish is None else left.built.tonight.second(left.before.finish)


def _clearly_better(left: Left, found: Ahead, calm: Ahead) -> bool:
    """More water; or as much and a clearly earlier end. Until the end that was planned there is no hurry, and an edit
    is judged as any other."""
    (short, needy, end), (calm_short, calm_needy, calm_end) = standing(left, found), standing(left, calm)
    if (short, needy) != (calm_short, calm_needy):
        return (short, needy) < (calm_short, calm_needy)
    if left.edited:
        return end < calm_end - WORTH_MOVING_S
    return max(end, _planned_end(left)) < calm_end - SOONER_S
