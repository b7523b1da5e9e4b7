"""The other construction: cycle by cycle, each as early as it can be among those already placed.

Here a cycle may go in front of others placed before it, and one that must wait keeps its water though others could
use it meanwhile. It is slower than construction in time order, but some best plans can be made in no other way, and
on nights on which not all fits it gives the important ones their place before any other.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..network import Need, Network
from .timeline import Timeline


class OneByOne:
    """Places cycles in the order of a ranking. Not for mirrored nights with listed orders.

    `pinned` are the starts of chains' first cycles that are given, in seconds of the night.
    """

    def __init__(self, net: Network, ranking: list[int], pinned: Mapping[int, Sequence[int]] | None = None) -> None:
        self.net = net
        self.ranking = ranking
        self.starts: list[list[int]] = [[] for _ in net.chains]
        self.limits = [Timeline(room) for room in net.room]
        self.stations = [Timeline(1) for _ in net.problem.stations]
        self.needs = [(Need(net.source[c], chain.flow, 0), *net.needs[c]) for c, chain in enumerate(net.chains)]
        self.gone: set[int] = set()
        self.behind: dict[int, int] = {}
        self.pinned = pinned or {}
        for c, row in self.pinned.items():
            for start in row:
                self.place(c, start)

    def run(self) -> list[list[int]]:
        """The starts of each chain's cycles, in seconds of the night."""
        skip = {c: len(row) for c, row in self.pinned.items()}
        for chain in self.ranking:
            if skip.get(chain, 0):
                skip[chain] -= 1
            else:
                self._next(chain)
        return self.starts

    def _next(self, chain: int) -> None:
        """Place the chain's next cycle, or keep it until the turn listed above it has begun."""
        leader = self.net.leader[chain]
        if chain in self.gone or (self.net.chains[chain].fixed is not None and not self.starts[chain]):
            return
        if leader is not None and not self.starts[leader] and leader not in self.gone:
            self.behind[chain] = self.behind.get(chain, 0) + 1
            return
        start = self._earliest(chain)
        if start is None:
            self.gone.add(chain)
        else:
            self.place(chain, start)
        follower = self.net.follower[chain]
        if follower is not None:
            for _ in range(self.behind.pop(follower, 0)):
                self._next(follower)

    def _earliest(self, chain: int) -> int | None:
        """The first moment at which the next cycle can run; None if there is none tonight."""
        mine, done = self.net.chains[chain], self.starts[chain]
        duration = mine.cycles[len(done)]
        start = done[-1] + mine.cycles[len(done) - 1] + mine.soak if done else mine.release
        leader = self.net.leader[chain]
        if not done and leader is not None and self.starts[leader]:
            start = max(start, self.starts[leader][0])
        for first, last in self.net.calendar[chain]:
            start = max(start, first)
            while start + duration <= last:
                later = self.stopped_until(chain, start, start + duration)
                if later is None:
                    return start
                start = later
        return None

    def stopped_until(self, chain: int, start: int, end: int) -> int | None:
        """When the last of those is over that leave a run no room in this span; None if there is room."""
        for need in self.needs[chain]:
            later = self.limits[need.limit].stopped_until(start, end + need.gap, need.amount)
            if later is not None:
                return later
        for station in self.net.rivals[chain]:
            later = self.stations[station].stopped_until(start, end, 1)
            if later is not None:
                return later
        return None

    def place(self, chain: int, start: int) -> None:
        """The chain's next cycle starts then."""
        end = start + self.net.chains[chain].cycles[len(self.starts[chain])]
        self.starts[chain].append(start)
        for need in self.needs[chain]:
            self.limits[need.limit].add(start, end + need.gap, need.amount)
        self.stations[self.net.chains[chain].station].add(start, end, 1)
