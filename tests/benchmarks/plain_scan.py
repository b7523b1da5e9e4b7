"""The plainest construction there is: at each moment look at every cycle that is ready. Quadratic, one source only.

It stands beside the planner's own first sheet so that speed can be told as a ratio, whatever the machine.
"""

from __future__ import annotations

from heapq import heappop, heappush

from pengan.engine.plan.problem import Plan, Problem


def plain_scan(problem: Problem) -> Plan:
    """Place every cycle at the first moment at which it fits, the chain with most water left first."""
    limit = problem.supplies[0].limit
    if limit is None or len(problem.supplies) > 1:
        raise ValueError("the plain scan knows one limited source only")
    starts: list[list[int | None]] = [[] for _ in problem.chains]
    ready = [chain.release for chain in problem.chains]
    moments = sorted(set(ready))
    draws: list[tuple[int, int]] = []
    free = limit
    while moments:
        now = heappop(moments)
        while draws and draws[0][0] <= now:
            free += heappop(draws)[1]
        order = [c for c, chain in enumerate(problem.chains) if len(starts[c]) < len(chain.cycles) and ready[c] <= now]
        order.sort(key=lambda c: -problem.chains[c].flow * sum(problem.chains[c].cycles[len(starts[c]) :]))
        for c in order:
            chain = problem.chains[c]
            if chain.flow <= free:
                end = now + chain.cycles[len(starts[c])]
                starts[c].append(now)
                free -= chain.flow
                ready[c] = end + chain.soak
                heappush(draws, (end, chain.flow))
                heappush(moments, end)
                heappush(moments, ready[c])
    return Plan(tuple(map(tuple, starts)), (), 1)
