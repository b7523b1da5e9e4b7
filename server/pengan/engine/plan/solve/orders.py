"""First orders to construct in: what is usually hard to place comes first.

A ranking lists chain numbers, best first; the k-th mention of a chain is its k-th cycle.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from ..network import NO_LIMIT, Network

Key = Callable[[int, int], float]
"""From chain and cycle to how early it should come: larger is earlier."""


def first_orders(net: Network) -> Iterator[list[int]]:
    """Orders that suit most nights, the best first."""
    tails = remaining(net)
    flows = [chain.flow for chain in net.chains]
    yield ranked(net, lambda c, k: tails[c][k] * flows[c])
    yield ranked(net, lambda c, k: tails[c][k])
    loads = busiest(net)
    yield ranked(net, lambda c, k: loads[c] + tails[c][k])
    yield ranked(net, lambda c, k: loads[c] * tails[c][k] * flows[c])


def orders_by_rank(net: Network) -> Iterator[list[int]]:
    """For nights on which not all fits: by rank, and within it by remaining chain, flow, volume, or shortest time."""
    tails = remaining(net)
    for key in (
        lambda c, k: tails[c][k] * net.chains[c].flow,
        lambda c, k: tails[c][k],
        lambda c, k: net.chains[c].flow,
        lambda c, k: net.chains[c].flow * net.chains[c].cycles[k],
        lambda c, k: -tails[c][k],
    ):
        yield ranked(net, key, by_rank=True)


def ranked(net: Network, key: Key, *, by_rank: bool = False) -> list[int]:
    """All cycles by falling key, ties by chain number; later cycles of a chain never before earlier ones.

    Where a program has a listed order, a chain comes no later than the one that waits for it.
    """
    entries = []
    waiting_for: dict[int, float] = {}
    for c in reversed(range(len(net.chains))):
        chain = net.chains[c]
        lowest = float("inf")
        for k in range(len(chain.cycles)):
            lowest = min(lowest, key(c, k))
            urgent = max(lowest, waiting_for.get(c, lowest)) if k == 0 else lowest
            entries.append((chain.rank if by_rank else 0, -urgent, c, k))
        if (leader := net.leader[c]) is not None:
            waiting_for[leader] = max(key(c, 0), waiting_for.get(c, 0.0))
    entries.sort()
    return [c for _, _, c, _ in entries]


def by_start(net: Network, starts: Sequence[Sequence[int | None]]) -> list[int]:
    """All cycles by their start, those that have none last: the order that a finished construction stands for."""
    never = net.problem.length + 1
    entries = []
    for c, row in enumerate(starts):
        latest = 0
        for start in row:
            latest = max(latest, never if start is None else start)
            entries.append((latest, c))
    entries.sort()
    return [c for _, c in entries]


def remaining(net: Network) -> list[list[int]]:
    """Seconds from the start of each cycle to the end of its chain at the soonest."""
    rows = []
    for chain in net.chains:
        row, rest = [], -chain.soak
        for duration in reversed(chain.cycles):
            rest += duration + chain.soak
            row.append(rest)
        rows.append(row[::-1])
    return rows


def busiest(net: Network) -> list[float]:
    """For each chain, the seconds that the busiest limit it counts against is busy at full room."""
    work = [0] * len(net.room)
    for c, chain in enumerate(net.chains):
        time = sum(chain.cycles)
        work[net.source[c]] += chain.flow * time
        for need in net.needs[c]:
            work[need.limit] += need.amount * (time + need.gap * len(chain.cycles))
    load = [0.0 if room == NO_LIMIT else amount / room for amount, room in zip(work, net.room, strict=True)]
    return [max([load[net.source[c]], *(load[need.limit] for need in net.needs[c])]) for c in range(len(net.chains))]
