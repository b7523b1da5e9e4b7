"""Waiting cycles, sorted by flow: "the best-ranked one that fits the flow left" is one prefix minimum.

Ranks stand in blocks with each block's minimum beside them. Python takes the minimum of a slice at C
speed, so that two slices beat a tree of minima up to tens of thousands of members.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence

NONE = 1 << 60
"""The rank of nobody: larger than any rank."""


class Pool:
    """Members are known from the start and sit at fixed places; their ranks come and go."""

    __slots__ = ("flows", "least", "ranks", "shift")

    def __init__(self, flows: Sequence[int]) -> None:
        """`flows` ascending, one a place."""
        self.flows = flows
        self.shift = max(3, (len(flows).bit_length() + 1) // 2)
        self.clear()

    def clear(self) -> None:
        """Nobody waits."""
        self.ranks = [NONE] * len(self.flows)
        self.least = [NONE] * ((len(self.flows) >> self.shift) + 1)

    def put(self, place: int, rank: int) -> None:
        """The member at `place` waits, with this rank."""
        self.ranks[place] = rank
        block = place >> self.shift
        if rank < self.least[block]:
            self.least[block] = rank

    def take(self, place: int) -> None:
        """The member at `place` waits no longer."""
        ranks, shift = self.ranks, self.shift
        rank = ranks[place]
        ranks[place] = NONE
        block = place >> shift
        if self.least[block] == rank:
            self.least[block] = min(ranks[block << shift : (block + 1) << shift])

    def best(self) -> int:
        """The lowest rank of all that wait, or `NONE`."""
        return min(self.least)

    def best_within(self, flow: int) -> int:
        """The lowest rank among those whose flow is at most `flow`, or `NONE`."""
        place = bisect_right(self.flows, flow)
        block = place >> self.shift
        best = min(self.ranks[block << self.shift : place], default=NONE)
        return min(best, min(self.least[:block])) if block else best

    def widest_within(self, flow: int) -> int:
        """The rank of the member with the largest flow up to `flow`, best rank among equals; `NONE` if nobody fits."""
        ranks = self.ranks
        last = bisect_right(self.flows, flow)
        while last and ranks[last - 1] == NONE:
            last -= 1
            if not last & ((1 << self.shift) - 1):
                while last and self.least[(last >> self.shift) - 1] == NONE:
                    last -= 1 << self.shift
        if not last:
            return NONE
        first = bisect_left(self.flows, self.flows[last - 1])
        return min(ranks[first:last])
