"""The rest of a night solved as any night is: from the sheet's order, and near its starts where that costs nothing."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from ..plan.asked_first import asked_first
from ..plan.solve import Before, solve
from ..plan.spans import holding
from .ahead import Ahead
from .left import Left, Row
from .served import fitting
from .sound import sound


def free(left: Left, effort: int, told: Callable[[int], None]) -> Ahead:
    """The best plan that about `effort` constructions find for every cycle that is left."""
    fixed = _still_fixed(left)
    fits = {c: _fitting(left, c, fixed.get(c)) for c, turn in enumerate(left.turns) if turn.left}
    going, chosen = left.going(whole=True), [c for c, fit in fits.items() if fit]
    chains = [left.chain(c, left.turns[c].left[: fits[c]], fixed.get(c, left.ready[c]), fixed.get(c)) for c in chosen]
    anchors = {chain.key: _anchors(left, c, fits[c]) for c, chain in zip(chosen, chains, strict=True)}
    problem = left.problem([*going, *chains])
    plan = solve(asked_first(problem), effort, Before(left.before.order, anchors), told)
    rows: dict[int, Row] = {}
    missing = [turn.left for turn in left.turns]
    for c, starts in zip(chosen, plan.starts[len(going) :], strict=True):
        placed = [start for start in starts if start is not None]
        rows[c] = tuple(zip(placed, left.turns[c].left, strict=False))
        missing[c] = left.turns[c].left[len(placed) :]
    return Ahead(rows, missing, True, problem, plan, solved=True)


def _still_fixed(left: Left) -> dict[int, int]:
    """The times that were asked for and can still be had, by chain; those that were missed run when they can."""
    wanted: dict[int, Row] = {}
    for c, (chain, turn) in enumerate(zip(left.chains, left.turns, strict=True)):
        if chain.fixed is not None and turn.left and not turn.begun and chain.fixed >= left.ready[c]:
            span = holding(left.calendars[c].spans, chain.fixed)
            if span is not None and chain.fixed + turn.left[0] <= min(span[1], chain.deadline):
                wanted[c] = ((chain.fixed, turn.left[0]),)
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
