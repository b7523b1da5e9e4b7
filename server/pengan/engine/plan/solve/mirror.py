"""A night seen backwards: what is late there is early here, so that one construction serves both ways."""

from __future__ import annotations

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
        fixed=None,
    )


def forwards(problem: Problem, starts: list[list[int]]) -> list[list[int]]:
    """Starts found in the mirrored problem, in the time of `problem`. Chains must be placed whole."""
    return [
        [problem.length - start - cycle for start, cycle in zip(reversed(row), chain.cycles, strict=True)]
        for row, chain in zip(starts, problem.chains, strict=True)
    ]
