"""Which of those that wait at a source starts next: the construction's manner at work."""

from __future__ import annotations

from bisect import insort

from .manner import Manner
from .pool import NONE
from .waiting import Waiting

MOST_PASSED_OVER = 8
"""How many cycles may be passed over at one moment for the sake of the best-ranked one."""


class Choosing:
    """Chooses by one manner. `latest[c]` is when the chain's next cycle must have started in the span it is in."""

    def __init__(self, waiting: Waiting, manner: Manner) -> None:
        net = waiting.net
        self.net = net
        self.waiting = waiting
        self.manner = manner
        self.latest = [0] * len(net.chains)
        self._hold = [room * manner.hold // 100 for room in net.room[: net.sources]]
        self._running: list[list[tuple[int, int]]] = [[] for _ in range(net.sources)]

    def opened(self, chain: int, end: int) -> None:
        """A run of the chain opened and will end then."""
        if self.manner.backfill:
            insort(self._running[self.net.source[chain]], (end, self.net.chains[chain].flow))

    def closed(self, chain: int, end: int) -> None:
        """It has ended."""
        if self.manner.backfill:
            self._running[self.net.source[chain]].remove((end, self.net.chains[chain].flow))

    def next(self, source: int, now: int, passed_over: list[int]) -> int | None:
        """The chain to start next; None where nothing fits, or the water is kept for a better one."""
        pool, left = self.waiting.pools[source], self.waiting.left[source]
        rank = pool.best_within(left)
        if rank == NONE:
            return None
        chain, best = self.waiting.chain_at[rank], pool.best()
        if best < rank:
            first = self.waiting.chain_at[best]
            if self.latest[first] < now:
                return first
            if self._hold[source] and self.net.chains[first].flow - left <= self._hold[source]:
                return None
            if self.manner.backfill and not self._in_time(chain, first, source, now):
                return self._pass_over(chain, first, source, now, passed_over)
        return self._snuggest(chain, source) if self.manner.snug else chain

    def filling(self, source: int) -> list[int]:
        """Of all that wait, those that together fill what is left best; among equals, the best ranks."""
        left, unit, chains = self.waiting.left[source], self.net.grain[source], self.net.chains
        ranks = sorted(rank for rank in self.waiting.pools[source].ranks if rank != NONE)
        fitting = [c for rank in ranks if chains[c := self.waiting.chain_at[rank]].flow <= left]
        mask, reach = (1 << (left // unit + 1)) - 1, [1]
        for chain in reversed(fitting):
            reach.append((reach[-1] | reach[-1] << (chains[chain].flow // unit)) & mask)
        units, chosen = reach.pop().bit_length() - 1, []
        for chain in fitting:
            rest, flow = reach.pop(), chains[chain].flow // unit
            if flow <= units and rest >> (units - flow) & 1:
                units -= flow
                chosen.append(chain)
        return chosen

    def _snuggest(self, chain: int, source: int) -> int:
        """Where nothing would fit beside this chain, the one that fills what is left best."""
        pool, left = self.waiting.pools[source], self.waiting.left[source]
        rest = left - self.net.chains[chain].flow
        if rest == 0 or pool.best_within(rest) != NONE:
            return chain
        return self.waiting.chain_at[pool.widest_within(left)]

    def _in_time(self, chain: int, first: int, source: int, now: int) -> bool:
        """Whether `first` can still start as early if `chain` starts now: it ends before, or takes what is over."""
        room, flow = self.waiting.left[source], self.net.chains[first].flow
        soonest = now
        for end, freed in self._running[source]:
            room += freed
            soonest = end
            if room >= flow:
                break
        return now + self.waiting.duration(chain) <= soonest or self.net.chains[chain].flow <= room - flow

    def _pass_over(self, chain: int, first: int, source: int, now: int, passed_over: list[int]) -> int | None:
        """Look at the next few instead; those passed over wait again once the source is filled."""
        for _ in range(MOST_PASSED_OVER):
            self.waiting.leave(chain)
            passed_over.append(chain)
            rank = self.waiting.pools[source].best_within(self.waiting.left[source])
            if rank == NONE:
                return None
            chain = self.waiting.chain_at[rank]
            if self._in_time(chain, first, source, now):
                return chain
        return None
