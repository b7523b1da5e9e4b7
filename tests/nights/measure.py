"""What a plan amounts to: when it finishes and how much water it places. Times: seconds since the night's start."""

from __future__ import annotations

from collections import defaultdict

from pengan.engine.plan.problem import Plan, Problem


def finish(problem: Problem, plan: Plan) -> int:
    """When the last run ends; 0 where nothing is placed."""
    return max((end for _, _, end in _placed(problem, plan)), default=0)


def everything_placed(plan: Plan) -> bool:
    return all(start is not None for starts in plan.starts for start in starts)


def placed_by_rank(problem: Problem, plan: Plan) -> dict[int, int]:
    """Flow × seconds placed at each rank that is due, the first served first."""
    placed = dict.fromkeys(sorted({chain.rank for chain in problem.chains}), 0)
    for chain, start, end in _placed(problem, plan):
        placed[problem.chains[chain].rank] += problem.chains[chain].flow * (end - start)
    return placed


def due_by_supply(problem: Problem) -> dict[int, int]:
    """Flow × seconds due from each supply and all that it feeds."""
    due: dict[int, int] = defaultdict(int)
    for chain in problem.chains:
        for node in problem.path(chain.supply):
            due[node] += chain.flow * sum(chain.cycles)
    return due


def volume_bound(problem: Problem) -> int:
    """The most flow × seconds that the sources could give between first release and last deadline, and is due.

    Holds where every chain may lie anywhere between its release and its deadline.
    """
    total = 0
    for node, due in due_by_supply(problem).items():
        supply = problem.supplies[node]
        if supply.parent is None:
            fed = [chain for chain in problem.chains if problem.path(chain.supply)[-1] == node]
            seconds = max(chain.deadline for chain in fed) - min(chain.release for chain in fed)
            total += due if supply.limit is None else min(due, supply.limit * seconds)
    return total


def _placed(problem: Problem, plan: Plan) -> list[tuple[int, int, int]]:
    """Chain, start and end of each placed cycle."""
    return [
        (index, start, start + length)
        for index, (chain, starts) in enumerate(zip(problem.chains, plan.starts, strict=True))
        for start, length in zip(starts, chain.cycles, strict=True)
        if start is not None
    ]
