"""Who waits where during a construction, and how much room every limit has left.

A cycle that is ready waits at its source. Stopped by another limit, it waits there until the limit calls it back to
its source: best ranks first, and no more than the limit has room for. Stopped by an open rival, it waits at that
rival's station.
"""

from __future__ import annotations

from ..network import Network
from .pool import NONE, Pool


class Waiting:
    """`left[i]` is the room of limit `i`; `starts[c]` holds the starts of the chain's cycles so far."""

    def __init__(self, net: Network, ranking: list[int], room: list[int]) -> None:
        self.net = net
        self.chain_at = ranking
        self.ranks = _ranks(net, ranking)
        self.left = room
        self.starts: list[list[int]] = [[] for _ in net.chains]
        self.pools = [Pool([net.chains[c].flow for c in group]) for group in net.members]
        self.stirred = [False] * net.sources
        self._called_from: list[int | None] = [None] * len(net.chains)
        self._called = [0] * len(net.room)
        self._at_source = [False] * len(net.chains)
        self._open = [0] * len(net.problem.stations)
        self._at_station: list[list[int]] = [[] for _ in net.problem.stations]

    def duration(self, chain: int) -> int:
        """Seconds of the chain's next cycle."""
        return self.net.chains[chain].cycles[len(self.starts[chain])]

    def rank(self, chain: int) -> int:
        """The rank of the chain's next cycle."""
        return self.ranks[chain][len(self.starts[chain])]

    def at_source(self, chain: int) -> None:
        """The chain's next cycle waits for the flow of its source."""
        source = self.net.source[chain]
        self.pools[source].put(self.net.places[source][chain], self.rank(chain))
        self._at_source[chain] = True
        self.stirred[source] = True

    def leave(self, chain: int) -> None:
        """It does not wait at its source any longer."""
        source = self.net.source[chain]
        self.pools[source].take(self.net.places[source][chain])
        self._at_source[chain] = False

    def stopped(self, chain: int) -> bool:
        """Whether another limit or an open rival stops the chain; then it waits there from now on."""
        for need in self.net.needs[chain]:
            if self.left[need.limit] < need.amount:
                self.pools[need.limit].put(self.net.places[need.limit][chain], self.rank(chain))
                return True
        for station in self.net.rivals[chain]:
            if self._open[station]:
                self._at_station[station].append(chain)
                return True
        return False

    def answer(self, chain: int) -> None:
        """The chain was tried. If a limit had called it and it is gone from its source, that limit calls the next."""
        caller = self._called_from[chain]
        if caller is None or self._at_source[chain]:
            return
        self._called_from[chain] = None
        self._called[caller] -= self.net.amount(chain, caller)
        self.call(caller)

    def call(self, limit: int) -> None:
        """Send cycles that wait at a limit back to their sources, best first, as far as its room goes."""
        net, pool = self.net, self.pools[limit]
        by_flow = net.kind[limit][0] in ("flow", "program_flow")
        while (room := self.left[limit] - self._called[limit]) > 0:
            rank = pool.best_within(room) if by_flow else pool.best()
            if rank == NONE:
                return
            chain = self.chain_at[rank]
            amount = net.amount(chain, limit)
            if amount > room:
                return
            pool.take(net.places[limit][chain])
            self._called[limit] += amount
            self._called_from[chain] = limit
            self.at_source(chain)

    def take(self, chain: int) -> int:
        """A run of the chain opens; the gap that follows it."""
        self.left[self.net.source[chain]] -= self.net.chains[chain].flow
        self._open[self.net.chains[chain].station] += 1
        gap = 0
        for need in self.net.needs[chain]:
            self.left[need.limit] -= need.amount
            gap = gap or need.gap
        return gap

    def give_back(self, chain: int) -> None:
        """Its run ends: all but what stays taken through the gap is free again."""
        source, station = self.net.source[chain], self.net.chains[chain].station
        self.left[source] += self.net.chains[chain].flow
        self.stirred[source] = True
        self._open[station] -= 1
        for need in self.net.needs[chain]:
            if not need.gap:
                self.left[need.limit] += need.amount
                self.call(need.limit)
        waiting, self._at_station[station] = self._at_station[station], []
        for other in waiting:
            self.at_source(other)

    def end_gap(self, chain: int) -> None:
        """The gap after a run is over: its place at the controller is free."""
        for need in self.net.needs[chain]:
            if need.gap:
                self.left[need.limit] += need.amount
                self.call(need.limit)


def _ranks(net: Network, ranking: list[int]) -> list[list[int]]:
    ranks: list[list[int]] = [[] for _ in net.chains]
    for rank, chain in enumerate(ranking):
        ranks[chain].append(rank)
    return ranks
