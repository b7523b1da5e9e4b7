"""What does not fit whole goes in parts: half a cycle now is better than none tonight."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import groupby

from ..check import violations
from .ahead import Ahead, standing
from .filled import filled
from .left import Left

LEAST_PART_S = 180
"""No cycle is cut into parts shorter than this. Common practice, no source."""
ROUNDS = 3
"""How often what is still missing is cut in two and tried again; each is one construction."""


def in_parts(left: Left, ahead: Ahead) -> tuple[Left, Ahead, int]:
    """The same rest with parts of what it misses where they find room, and the constructions that took."""
    left, best = by_end(left, ahead)
    for spent in range(ROUNDS):
        cut = [_halved(missing) for missing in best.missing]
        if all(len(parts) == len(missing) for parts, missing in zip(cut, best.missing, strict=True)):
            return left, best, spent
        tried = tuple(tuple(seconds for seconds, _ in parts) for parts in cut)
        attempt = next(filled(left, replace(best, missing=tried), 1))
        if violations(attempt.problem, attempt.plan) or standing(left, attempt) >= standing(left, best):
            return left, best, spent + 1
        missing = [
            _joined(parts[-len(rest) :] if rest else []) for parts, rest in zip(cut, attempt.missing, strict=True)
        ]
        best = replace(attempt, missing=missing, plan=replace(attempt.plan, order=ahead.plan.order))
    return left, best, ROUNDS


def by_end(left: Left, ahead: Ahead) -> tuple[Left, Ahead]:
    """The same, with open runs that go on until they are whole said as those that the clock ends then."""
    if not ahead.whole:
        return left, ahead
    turns = (
        replace(turn, going=replace(turn.going, clock=turn.going.whole)) if turn.going else turn for turn in left.turns
    )
    return replace(left, turns=tuple(turns)), replace(ahead, whole=False)


def _halved(missing: Sequence[int]) -> list[tuple[int, int]]:
    """Each cycle in two where that is not too short; the parts, and the number of the cycle that each is of."""
    parts: list[tuple[int, int]] = []
    for number, seconds in enumerate(missing):
        halves = [seconds] if seconds < 2 * LEAST_PART_S else [seconds - seconds // 2, seconds // 2]
        parts.extend((half, number) for half in halves)
    return parts


def _joined(parts: Sequence[tuple[int, int]]) -> tuple[int, ...]:
    """Parts of one cycle that are both missing are one cycle again."""
    return tuple(sum(seconds for seconds, _ in same) for _, same in groupby(parts, key=lambda part: part[1]))
