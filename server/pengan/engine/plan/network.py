"""What never changes while one night is constructed over and over: who needs what, and where each waits."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from math import gcd

from .problem import Chain, Problem, Span

NO_LIMIT = 1 << 50


@dataclass(frozen=True, slots=True)
class Need:
    """What a chain's run takes of one limit, and how long after its end it gives that back."""

    limit: int
    amount: int
    gap: int


class Network:
    """A `Problem` with its limits in one list: sources first, then mains, controllers and programs.

    `room[i]` is what limit `i` offers; `kind[i]` its `(what, index)` in the problem. `source[c]` is the limit of
    the source of chain `c`; `needs[c]` what it takes of the others. `places[i][c]` is its place
    in the pool of those that wait at limit `i`. All flows of a source are multiples of its `grain`.
    """

    def __init__(self, problem: Problem, *, mirrored: bool = False) -> None:
        self.problem = problem
        self.mirrored = mirrored
        self.chains = problem.chains
        self.room: list[int] = []
        self.kind: list[tuple[str, int]] = []
        self._find: dict[tuple[str, int], int] = {}
        self.source = [self._source(chain) for chain in self.chains]
        self.sources = len(self.room)
        self.needs = [self._needs(chain) for chain in self.chains]
        self.calendar: list[tuple[Span, ...]] = [_inside(problem, chain) for chain in self.chains]
        self.rivals = self._rivals()
        self.follower = self._followers()
        self.leader = self._leaders()
        self.members, self.places = self._pools()
        self.grain = [gcd(*(self.chains[c].flow for c in self.members[source])) for source in range(self.sources)]

    def amount(self, chain: int, limit: int) -> int:
        """What a run of this chain takes of a limit it counts against, other than its source."""
        return next(need.amount for need in self.needs[chain] if need.limit == limit)

    def steady_room(self) -> list[int]:
        """The room of each limit, sources cut to the flow they should hold but wide enough for each of their runs."""
        room = list(self.room)
        for source in range(self.sources):
            steady = self.problem.supplies[self.kind[source][1]].steady
            if steady:
                room[source] = min(room[source], max(steady, *(self.chains[c].flow for c in self.members[source])))
        return room

    def _limit(self, what: str, index: int, room: int) -> int:
        """The number of this limit in the list, entered there if it is new."""
        known = self._find.setdefault((what, index), len(self.room))
        if known == len(self.room):
            self.room.append(room)
            self.kind.append((what, index))
        return known

    def _source(self, chain: Chain) -> int:
        root = self.problem.path(chain.supply)[-1]
        limit = self.problem.supplies[root].limit
        return self._limit("flow", root, NO_LIMIT if limit is None else limit)

    def _needs(self, chain: Chain) -> tuple[Need, ...]:
        """Every limit but the source's that this chain's runs count against."""
        problem = self.problem
        needs = []
        for node in problem.path(chain.supply)[:-1]:
            if (limit := problem.supplies[node].limit) is not None:
                needs.append(Need(self._limit("flow", node, limit), chain.flow, 0))
        if chain.controller is not None:
            cabinet = problem.controllers[chain.controller]
            if cabinet.max_open is not None:
                needs.append(Need(self._limit("open", chain.controller, cabinet.max_open), 1, cabinet.gap))
            if cabinet.max_current is not None and chain.current:
                needs.append(Need(self._limit("current", chain.controller, cabinet.max_current), chain.current, 0))
        program = problem.programs[chain.program]
        if program.limit is not None:
            needs.append(Need(self._limit("program_flow", chain.program, program.limit), chain.flow, 0))
        if program.max_open is not None:
            needs.append(Need(self._limit("program_open", chain.program, program.max_open), 1, 0))
        return tuple(needs)

    def _rivals(self) -> list[tuple[int, ...]]:
        """The stations that must be shut while a chain's station is open; its own if it has several chains."""
        turns: dict[int, int] = defaultdict(int)
        for chain in self.chains:
            turns[chain.station] += 1
        apart = self.problem.apart
        return [
            tuple(sorted(apart[chain.station])) + ((chain.station,) if turns[chain.station] > 1 else ())
            for chain in self.chains
        ]

    def _followers(self) -> list[int | None]:
        """The chain that may start once this one has, in programs with a listed order."""
        last: dict[int, int] = {}
        follower: list[int | None] = [None] * len(self.chains)
        for index, chain in enumerate(self.chains):
            if self.problem.programs[chain.program].ordered and chain.in_order:
                if chain.program in last:
                    follower[last[chain.program]] = index
                last[chain.program] = index
        return follower

    def _leaders(self) -> list[int | None]:
        """The other way round: whom a chain waits for. Backwards in time, it is the one listed below."""
        if self.mirrored:
            return self.follower
        leader: list[int | None] = [None] * len(self.chains)
        for first, second in enumerate(self.follower):
            if second is not None:
                leader[second] = first
        return leader

    def _pools(self) -> tuple[list[list[int]], list[dict[int, int]]]:
        """For each limit the chains that can wait at it, by flow, and where each of them stands."""
        members: list[list[int]] = [[] for _ in self.room]
        for index in sorted(range(len(self.chains)), key=lambda c: (self.chains[c].flow, self.chains[c].key)):
            members[self.source[index]].append(index)
            for need in self.needs[index]:
                members[need.limit].append(index)
        return members, [{chain: place for place, chain in enumerate(group)} for group in members]


def _inside(problem: Problem, chain: Chain) -> tuple[Span, ...]:
    """The spans of a chain's calendar between its release and its deadline."""
    return tuple(
        (max(first, chain.release), min(last, chain.deadline))
        for first, last in problem.calendars[chain.calendar]
        if max(first, chain.release) < min(last, chain.deadline)
    )
