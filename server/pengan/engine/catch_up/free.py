"""The rest of a night solved as any night is: from the sheet's order, and near its starts where that costs nothing."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import accumulate, chain, combinations
from types import MappingProxyType

from ..plan.asked_first import asked_first
from ..plan.problem import Problem
from ..plan.solve import Before, solve
from ..plan.spans import holding
from .ahead import Ahead, standing, water
from .left import Left, Row
from .served import fitting
from .sound import sound

Progress = Callable[[int], None]
Most = Mapping[int, int]
"""Of some chains, how many of their cycles may be placed at most."""
_ALL: Most = MappingProxyType({})

TRY, TRY_UP_TO = 24, 40
"""Constructions to try the night without a cycle, and up to how many chains that is tried."""
NEED_SHARE = 200
"""Serving the needy first may cost the night one part in so many of its water."""


def everything_left(left: Left, most: Most = _ALL) -> tuple[list[int], Problem]:
    """All cycles that could run alone, as a night's problem; and the chains that it has behind its open runs."""
    fixed = _still_fixed(left)
    found = ((c, _fitting(left, c, fixed.get(c))) for c, turn in enumerate(left.turns) if turn.left)
    fits = {c: min(fit, most.get(c, fit)) for c, fit in found}
    chosen = [c for c, fit in fits.items() if fit]
    chains = [left.chain(c, left.turns[c].left[: fits[c]], fixed.get(c, left.ready[c]), fixed.get(c)) for c in chosen]
    return chosen, left.problem([*left.going(whole=True), *chains])


def free(left: Left, effort: int, told: Progress) -> Ahead:
    """The best rest that about `effort` constructions find.

    Where not all fits, a quarter of the effort asks for the needy turns first, which is taken unless it costs much
    water, in all or at a rank and those above it; and a quarter tries what is gained without one cycle or another.
    """
    found = solved(left, max(1, effort // 2), told)
    spent = found.plan.constructions
    if not any(found.missing) or spent >= effort:
        return found
    by_need = solved(replace(left, by_need=True), max(1, effort // 4), lambda count: told(spent + count))
    spent += by_need.plan.constructions
    found, tried = _without(left, found, effort - spent, lambda count: told(spent + count))
    found = by_need if _costs_little(left, by_need, found) else found
    return replace(found, plan=replace(found.plan, constructions=spent + tried))


def _without(left: Left, found: Ahead, effort: int, told: Progress) -> tuple[Ahead, int]:
    """The best of the nights without one cycle, or two, and then without others: small ones can keep large ones out."""
    spent, most = 0, dict[int, int]()
    if len(found.rows) > TRY_UP_TO:
        return found, spent
    choices = _choices(left, found)
    while spent + TRY <= effort and (chosen := next(choices, None)) is not None:
        fewer = {**most, **{c: len(found.rows[c]) - 1 for c in chosen}}
        attempt = solved(left, TRY, told, fewer, found.plan.order)
        spent += attempt.plan.constructions
        if standing(left, attempt)[:2] < standing(left, found)[:2]:
            found, most = attempt, fewer
            choices = _choices(left, found)
    return found, spent


def _choices(left: Left, found: Ahead) -> Iterator[tuple[int, ...]]:
    """Turns to go without their last cycle: each alone, then each two, the least important and smallest first."""
    placed = [c for c, row in found.rows.items() if row]
    order = sorted(placed, key=lambda c: (-left.chains[c].rank, left.chains[c].flow, c))
    return chain(combinations(order, 1), combinations(order, 2))


def _costs_little(left: Left, by_need: Ahead, by_rank: Ahead) -> bool:
    worth = water(left, by_rank) // NEED_SHARE
    mine, other = accumulate(standing(left, by_need)[0]), accumulate(standing(left, by_rank)[0])
    return all(one <= another + worth for one, another in zip(mine, other, strict=True))


def solved(left: Left, effort: int, told: Progress, most: Most = _ALL, order: Sequence[str] | None = None) -> Ahead:
    """The best plan that about `effort` constructions find for the cycles left, by the ranks of `left`.

    `order` is what the search starts from, if not the sheet's own.
    """
    chosen, problem = everything_left(left, most)
    behind = len(problem.chains) - len(chosen)
    anchors = {
        chain.key: _anchors(left, c, len(chain.cycles))
        for c, chain in zip(chosen, problem.chains[behind:], strict=True)
    }
    before = Before(left.before.order, anchors) if order is None else Before(order)
    plan = solve(asked_first(problem), effort, before, told)
    rows: dict[int, Row] = {}
    missing = [turn.left for turn in left.turns]
    for c, starts in zip(chosen, plan.starts[behind:], strict=True):
        placed = [start for start in starts if start is not None]
        rows[c] = tuple(zip(placed, left.turns[c].left, strict=False))
        missing[c] = left.turns[c].left[len(placed) :]
    return Ahead(rows, missing, True, problem, plan, solved=True)


def _still_fixed(left: Left) -> dict[int, int]:
    """The times that were asked for and can still be had, by chain; those that were missed run when they can."""
    wanted: dict[int, Row] = {}
    for c, (due, turn) in enumerate(zip(left.chains, left.turns, strict=True)):
        if due.fixed is not None and turn.left and not turn.begun and due.fixed >= left.ready[c]:
            span = holding(left.calendars[c].spans, due.fixed)
            if span is not None and due.fixed + turn.left[0] <= min(span[1], due.deadline):
                wanted[c] = ((due.fixed, turn.left[0]),)
    return {c: row[0][0] for c, row in sound(left, wanted, whole=True).items() if row}


def _fitting(left: Left, c: int, fixed: int | None) -> int:
    """How many of its cycles could run if nothing else did."""
    return fitting(
        left.turns[c].left, left.ready[c] if fixed is None else fixed, left.chains[c], left.calendars[c].spans
    )


def _anchors(left: Left, c: int, fit: int) -> Sequence[int]:
    """Moments before which its cycles stay: what is planned last is last, and what was missed comes when it can."""
    starts, ready = [start for start, _ in left.turns[c].planned], left.ready[c]
    missed = len(left.turns[c].left) - len(starts)
    row = [ready] * missed + starts[max(0, -missed) :]
    return [max(ready, start) for start in row[:fit]]
