"""A night seen backwards: what is late there is early here, so that one construction serves both ways."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..problem import Chain, Problem


def mirrored(problem: Problem) -> Problem:
    """The same night with time running backwards. The gap after a run and the gap before it bind alike."""
    length = problem.length
    return replace(
        problem,
        chains=tuple(_backwards(chain, length) for chain in problem.chains),
        calendars=tuple(
            tuple((length - last, length - first) for first, last in reversed(spans)) for spans in problem.calendars
        ),
    )


def _backwards(chain: Chain, length: int) -> Chain:
    return replace(
        chain,
        cycles=chain.cycles[::-1],
        release=length - chain.deadline,
        deadline=length - chain.release,
        fixed=None if chain.fixed is None else length - chain.fixed,
    )


def turned(problem: Problem, starts: Sequence[Sequence[int]]) -> list[list[int | None]]:
    """The same starts seen from the other end of the night, a row a chain; None for cycles that have none."""
    rows: list[list[int | None]] = []
    for chain, row in zip(problem.chains, starts, strict=True):
        placed = turned_row(problem, chain, row)
        rows.append([*[None] * (len(chain.cycles) - len(row)), *placed])
    return rows


def turned_row(problem: Problem, chain: Chain, row: Sequence[int]) -> tuple[int, ...]:
    """One chain's starts seen from the other end."""
    return tuple(problem.length - start - cycle for start, cycle in zip(row, chain.cycles, strict=False))[::-1]
