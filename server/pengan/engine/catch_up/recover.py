"""Recovering what was missed: the best rest of the night that is found, by rank and need.

Two ways are tried, a calm one (`filled`) and a free one (`free`). The calm one is given up only for more water, or for
a clearly earlier end. Whatever is chosen brings no less than keeping to the clock: in all, and at the first rank that
differs. Every rest is put to the independent check before it is taken.
"""

from __future__ import annotations

from collections.abc import Callable

from ..check import violations
from ..plan.solve.search import WORTH_MOVING_S
from .ahead import Ahead, composed, standing, water
from .clock import Kept
from .filled import ORDERS, filled
from .free import free
from .left import Left

Progress = Callable[[int], None]

SOONER_S = 900
"""By how much the free rest has to end sooner, where both bring as much: crews expect runs where the sheet has them."""


def by_the_clock(left: Left, kept: Kept) -> Ahead:
    """Keeping to the clock, as a rest of the night."""
    _, problem, plan = composed(left, kept.rows, kept.missing)
    return Ahead(kept.rows, kept.missing, False, problem, plan)


def recovered(left: Left, clock: Ahead, effort: int, told: Progress) -> tuple[Ahead, int]:
    """The best rest that about `effort` constructions find, and how many it took. `clock` keeps to the clock."""
    calm, spent = clock, 0
    for attempt in filled(left, clock, max(1, min(len(ORDERS), effort // 4))):
        spent += 1
        told(spent)
        if standing(left, attempt) < standing(left, calm) and not violations(attempt.problem, attempt.plan):
            calm = attempt
    if spent >= effort:
        return calm, spent
    found = free(left, effort - spent, lambda count: told(spent + count))
    sound = water(left, found) >= water(left, clock) and not violations(found.problem, found.plan)
    return found if sound and _clearly_better(left, found, calm) else calm, spent + found.plan.constructions


def _clearly_better(left: Left, found: Ahead, calm: Ahead) -> bool:
    """More water; or as much and a clearly earlier end. Until the end that was planned there is no hurry, and an edit
    is judged as any other."""
    (short, end), (calm_short, calm_end) = standing(left, found), standing(left, calm)
    if short != calm_short:
        return short < calm_short
    if left.edited or left.before.finish is None:
        return end < calm_end - WORTH_MOVING_S
    return max(end, left.built.tonight.second(left.before.finish)) < calm_end - SOONER_S
