"""One construction: every cycle placed once, in time order, by rank.

Time jumps from event to event (a run ends, a valve's place is free again, a soak or closure ends). At each
event the best-ranked waiting cycle that fits the flow left in its source starts, and so on until none fits.
A cycle stopped by another limit waits there and comes back when that limit has room again.
"""

from __future__ import annotations

from bisect import insort
from collections.abc import Sequence
from heapq import heapify, heappop, heappush

from ..network import Network
from .manner import Manner
from .pins import Pins
from .pool import NONE, Pool

_TYPE_BITS = 2
END, FREE, READY, PIN = 0, 1, 2, 3
CHAIN_BITS = 22
_CHAIN = (1 << CHAIN_BITS) - 1
_STAMP = CHAIN_BITS + _TYPE_BITS
MOST_PASSED_OVER = 8


class Construction:
    """The state of one construction. `starts[c]` grows by one start a placed cycle.

    `ranking` lists cycles, best first, as chain numbers: the k-th mention of a chain is its k-th cycle.
    `manner` says which of those that fit is chosen. `not_before[c][k]` keeps cycles from starting sooner.
    """

    def __init__(
        self,
        net: Network,
        ranking: list[int],
        manner: Manner,
        pins: Pins | None = None,
        not_before: Sequence[Sequence[int | None]] | None = None,
    ) -> None:
        self.net = net
        self.not_before = not_before
        self.manner = manner
        self.pins = pins.fresh() if pins else None
        self.chain_at = ranking
        self.ranks = _ranks(net, ranking)
        self.starts: list[list[int]] = [[] for _ in net.chains]
        self.left = net.steady_room() if manner.steady else list(net.room)
        self.hold = [room * manner.hold // 100 for room in net.room[: net.sources]]
        self.running: list[list[tuple[int, int]]] = [[] for _ in range(net.sources)]
        self.waiting = [Pool([net.chains[c].flow for c in group]) for group in net.members]
        self.waits_at: list[int | None] = [None] * len(net.chains)
        self.called_from: list[int | None] = [None] * len(net.chains)
        self.called = [0] * len(net.room)
        self.latest = [0] * len(net.chains)
        self.open_rivals = [0] * len(net.problem.stations)
        self.behind: dict[int, int] = {}
        self.gone: set[int] = set()
        self.at_station: list[list[int]] = [[] for _ in net.problem.stations]
        self.stirred = [False] * net.sources
        self.events: list[int] = []
        self.now = 0

    def run(self) -> list[list[int]]:
        """Place all that fits; the starts of each chain's cycles, in seconds of the night."""
        self._open()
        events = self.events
        while events:
            self.now = now = events[0] >> _STAMP
            while events and events[0] >> _STAMP == now:
                self._happen(now, heappop(events))
            for source in range(self.net.sources):
                if self.stirred[source]:
                    self.stirred[source] = False
                    self._fill(source, now)
        return self.starts

    def _open(self) -> None:
        """Enter the first events: pinned starts, and every chain that waits for nobody."""
        net = self.net
        follows = set() if net.mirrored else {f for f in net.follower if f is not None}
        for index, chain in enumerate(net.chains):
            if self.pins and (pinned := self.pins.starts.get(index)):
                self.events.extend(_event(start, PIN, index) for start in pinned)
            elif index not in follows and chain.fixed is None:
                self.events.append(_event(chain.release, READY, index))
        heapify(self.events)

    def _happen(self, now: int, event: int) -> None:
        chain = event & _CHAIN
        what = (event >> CHAIN_BITS) & 3
        if what == READY:
            self._make_ready(chain, now)
        elif what == END:
            self._end(chain)
        elif what == FREE:
            self._free(chain)
        else:
            self._start(chain, now)

    def _make_ready(self, chain: int, now: int) -> None:
        """The chain's next cycle may start as far as its own calendar goes: now, later, or never tonight."""
        net = self.net
        duration = self._duration(chain)
        if net.mirrored and (leader := net.leader[chain]) is not None:
            if (earliest := self._not_before(chain, leader, duration)) is None:
                return
            now = max(now, earliest)
        if self.not_before and (anchor := self.not_before[chain][len(self.starts[chain])]) is not None:
            now = max(now, anchor)
        for first, last in net.calendar[chain]:
            if last - duration >= now:
                if first > self.now or now > self.now:
                    heappush(self.events, _event(max(first, now), READY, chain))
                else:
                    self.latest[chain] = last - duration
                    self._wait_at_source(chain)
                return
        self._give_up(chain)

    def _wait_at_source(self, chain: int) -> None:
        source = self.net.source[chain]
        self.waiting[source].put(self.net.places[source][chain], self.ranks[chain][len(self.starts[chain])])
        self.waits_at[chain] = source
        self.stirred[source] = True

    def _fill(self, source: int, now: int) -> None:
        """Start what fits, best rank first, until nothing more fits or the water is kept for a better one."""
        passed_over: list[int] = []
        while (chain := self._choose(source, now, passed_over)) is not None:
            self._try(chain, source, now)
        for chain in passed_over:
            self._wait_at_source(chain)
            self.stirred[source] = False

    def _choose(self, source: int, now: int, passed_over: list[int]) -> int | None:
        """The chain to start next, by the construction's manner."""
        pool, left = self.waiting[source], self.left[source]
        rank = pool.best_within(left)
        if rank == NONE:
            return None
        chains, chain = self.net.chains, self.chain_at[rank]
        best = pool.best()
        if best < rank:
            first = self.chain_at[best]
            if self.latest[first] < now:
                return first
            if self.hold[source] and chains[first].flow - left <= self.hold[source]:
                return None
            if self.manner.backfill and not self._ends_in_time(chain, first, source, now):
                return self._pass_over(chain, first, source, now, passed_over)
        if self.manner.snug:
            return self._snuggest(chain, source)
        return chain

    def _snuggest(self, chain: int, source: int) -> int:
        """Where nothing would fit beside this chain, the one that fills what is left best."""
        pool, left = self.waiting[source], self.left[source]
        rest = left - self.net.chains[chain].flow
        if rest == 0 or pool.best_within(rest) != NONE:
            return chain
        return self.chain_at[pool.widest_within(left)]

    def _ends_in_time(self, chain: int, first: int, source: int, now: int) -> bool:
        """Whether `first` can still start as early if `chain` starts now: it ends before, or takes what is over."""
        room, flow = self.left[source], self.net.chains[first].flow
        soonest = now
        for end, freed in self.running[source]:
            room += freed
            soonest = end
            if room >= flow:
                break
        return now + self._duration(chain) <= soonest or self.net.chains[chain].flow <= room - flow

    def _pass_over(self, chain: int, first: int, source: int, now: int, passed_over: list[int]) -> int | None:
        """Look at the next few instead; those passed over wait again once the source is filled."""
        pool = self.waiting[source]
        for _ in range(MOST_PASSED_OVER):
            pool.take(self.net.places[source][chain])
            passed_over.append(chain)
            rank = pool.best_within(self.left[source])
            if rank == NONE:
                return None
            chain = self.chain_at[rank]
            if self._ends_in_time(chain, first, source, now):
                return chain
        return None

    def _try(self, chain: int, source: int, now: int) -> None:
        """Start the chain's next cycle, or move it to where it is stopped."""
        self.waiting[source].take(self.net.places[source][chain])
        self.waits_at[chain] = None
        caller = self.called_from[chain]
        if self.latest[chain] < now:
            self._make_ready(chain, now)
        elif (limit := self._stopped_by(chain)) is not None:
            self._park(chain, limit)
        elif (rival := self._rival_open(chain)) is not None:
            self.at_station[rival].append(chain)
        elif self.pins and (until := self.pins.clash(chain, now, self._duration(chain))) is not None:
            heappush(self.events, _event(until, READY, chain))
        else:
            self._start(chain, now)
        if caller is not None:
            self._answer(chain, caller)

    def _answer(self, chain: int, caller: int) -> None:
        """A cycle that was called from a limit has started or moved on: the limit may call the next."""
        if self.waits_at[chain] == self.net.source[chain]:
            return
        self.called_from[chain] = None
        self.called[caller] -= next(need.amount for need in self.net.needs[chain] if need.limit == caller)
        self._call(caller)

    def _stopped_by(self, chain: int) -> int | None:
        left = self.left
        for need in self.net.needs[chain]:
            if left[need.limit] < need.amount:
                return need.limit
        return None

    def _rival_open(self, chain: int) -> int | None:
        for station in self.net.rivals[chain]:
            if self.open_rivals[station]:
                return station
        return None

    def _park(self, chain: int, limit: int) -> None:
        self.waiting[limit].put(self.net.places[limit][chain], self.ranks[chain][len(self.starts[chain])])
        self.waits_at[chain] = limit

    def _call(self, limit: int) -> None:
        """Send cycles that wait at a limit back to their sources, best first, as far as its room goes."""
        net, pool = self.net, self.waiting[limit]
        by_flow = net.kind[limit][0] in ("flow", "program_flow")
        while (room := self.left[limit] - self.called[limit]) > 0:
            rank = pool.best_within(room) if by_flow else pool.best()
            if rank == NONE:
                return
            chain = self.chain_at[rank]
            amount = next(need.amount for need in net.needs[chain] if need.limit == limit)
            if amount > room:
                return
            pool.take(net.places[limit][chain])
            self.called[limit] += amount
            self.called_from[chain] = limit
            self._wait_at_source(chain)

    def _start(self, chain: int, now: int) -> None:
        net, mine = self.net, self.net.chains[chain]
        cycle = len(self.starts[chain])
        end = now + mine.cycles[cycle]
        self.starts[chain].append(now)
        self.left[net.source[chain]] -= mine.flow
        if self.manner.backfill:
            insort(self.running[net.source[chain]], (end, mine.flow))
        gap = 0
        for need in net.needs[chain]:
            self.left[need.limit] -= need.amount
            gap = gap or need.gap
        self.open_rivals[mine.station] += 1
        heappush(self.events, _event(end, END, chain))
        if gap:
            heappush(self.events, _event(end + gap, FREE, chain))
        pinned = len(self.pins.starts.get(chain, ())) if self.pins else 0
        if self.pins and cycle >= pinned:
            self.pins.cross(chain, now, end)
        if pinned <= cycle + 1 < len(mine.cycles):
            heappush(self.events, _event(end + mine.soak, READY, chain))
        if cycle + 1 == len(mine.cycles) if net.mirrored else cycle == 0:
            self._unlock_follower(chain)

    def _not_before(self, chain: int, leader: int, duration: int) -> int | None:
        """Mirrored, a listed order binds the ends of the last cycles: not before the leader's. None: wait for it."""
        if len(self.starts[chain]) + 1 < len(self.net.chains[chain].cycles):
            return 0
        done, cycles = self.starts[leader], self.net.chains[leader].cycles
        if leader in self.gone:
            return 0
        if len(done) < len(cycles):
            self.behind[leader] = chain
            return None
        return done[-1] + cycles[-1] - duration

    def _give_up(self, chain: int) -> None:
        """The rest of the chain does not fit tonight; whoever waits for it in a listed order need not."""
        self.gone.add(chain)
        if not self.starts[chain] or self.net.mirrored:
            self._unlock_follower(chain)

    def _unlock_follower(self, chain: int) -> None:
        """In a listed order, the next chain may start from now on."""
        follower = self.behind.pop(chain, None) if self.net.mirrored else self.net.follower[chain]
        if follower is not None and not (self.pins and follower in self.pins.starts):
            heappush(self.events, _event(max(self.now, self.net.chains[follower].release), READY, follower))

    def _duration(self, chain: int) -> int:
        """Seconds of the chain's next cycle."""
        return self.net.chains[chain].cycles[len(self.starts[chain])]

    def _end(self, chain: int) -> None:
        net, mine = self.net, self.net.chains[chain]
        source = net.source[chain]
        self.left[source] += mine.flow
        if self.manner.backfill:
            self.running[source].remove((self.now, mine.flow))
        self.stirred[source] = True
        self.open_rivals[mine.station] -= 1
        for need in net.needs[chain]:
            if not need.gap:
                self.left[need.limit] += need.amount
                self._call(need.limit)
        if waiting := self.at_station[mine.station]:
            self.at_station[mine.station] = []
            for other in waiting:
                self._wait_at_source(other)

    def _free(self, chain: int) -> None:
        """The gap after a run is over: its place at the controller is free."""
        for need in self.net.needs[chain]:
            if need.gap:
                self.left[need.limit] += need.amount
                self._call(need.limit)


def _event(at: int, what: int, chain: int) -> int:
    """One whole number that sorts by time: the heap compares it in one step."""
    return at << _STAMP | what << CHAIN_BITS | chain


def _ranks(net: Network, ranking: list[int]) -> list[list[int]]:
    ranks: list[list[int]] = [[] for _ in net.chains]
    for rank, chain in enumerate(ranking):
        ranks[chain].append(rank)
    return ranks
