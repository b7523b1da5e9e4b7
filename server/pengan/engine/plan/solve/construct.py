"""One construction: every cycle placed once, in time order, by rank.

Time jumps from event to event (a run ends, a valve's place is free again, a soak or closure ends). At each event,
cycles that wait at their source start, by the construction's manner, until none fits. `waiting` keeps who waits
where, `choosing` says who is next, and here is what happens when.
"""

from __future__ import annotations

from collections.abc import Sequence
from heapq import heapify, heappop, heappush

from ..network import Network
from .choosing import Choosing
from .manner import Manner
from .pins import Pins
from .waiting import Waiting

END, FREE, READY, PIN = 0, 1, 2, 3
_CHAIN_BITS, _TYPE_BITS = 22, 2
_CHAIN, _TYPE = (1 << _CHAIN_BITS) - 1, (1 << _TYPE_BITS) - 1
_STAMP = _CHAIN_BITS + _TYPE_BITS


class Construction:
    """The state of one construction. `starts[c]` grows by one start a placed cycle.

    `ranking` lists cycles, best first, as chain numbers: the k-th mention of a chain is its k-th cycle.
    `not_before[c][k]` keeps cycles from starting sooner.
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
        self.pins = pins.fresh() if pins else None
        self.not_before = not_before
        self.waiting = Waiting(net, ranking, net.steady_room() if manner.steady else list(net.room))
        self.choosing = Choosing(self.waiting, manner)
        self.starts = self.waiting.starts
        self.events: list[int] = []
        self.now = 0
        self.gone: set[int] = set()
        self.behind: dict[int, int] = {}

    def run(self) -> list[list[int]]:
        """Place all that fits; the starts of each chain's cycles, in seconds of the night."""
        self._open()
        events, stirred = self.events, self.waiting.stirred
        while events:
            self.now = now = events[0] >> _STAMP
            while events and events[0] >> _STAMP == now:
                self._happen(heappop(events))
            for source in range(self.net.sources):
                if stirred[source]:
                    stirred[source] = False
                    self._fill(source)
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

    def _happen(self, event: int) -> None:
        chain, what = event & _CHAIN, event >> _CHAIN_BITS & _TYPE
        if what == READY:
            self._make_ready(chain)
        elif what == END:
            self.choosing.closed(chain, self.now)
            self.waiting.give_back(chain)
        elif what == FREE:
            self.waiting.end_gap(chain)
        else:
            self._start(chain)

    def _make_ready(self, chain: int) -> None:
        """The chain's next cycle may start as far as its own calendar goes: now, later, or never tonight."""
        duration, earliest = self.waiting.duration(chain), self._earliest(chain)
        if earliest is None:
            return
        for first, last in self.net.calendar[chain]:
            if last - duration >= earliest:
                start = max(first, earliest)
                if start > self.now:
                    heappush(self.events, _event(start, READY, chain))
                else:
                    self.choosing.latest[chain] = last - duration
                    self.waiting.at_source(chain)
                return
        self._give_up(chain)

    def _earliest(self, chain: int) -> int | None:
        """From when on the next cycle may start, calendars apart; None while it waits for its leader's last cycle."""
        earliest = self.now
        if self.not_before and (anchor := self.not_before[chain][len(self.starts[chain])]) is not None:
            earliest = max(earliest, anchor)
        leader = self.net.leader[chain] if self.net.mirrored else None
        if leader is None or leader in self.gone or len(self.starts[chain]) + 1 < len(self.net.chains[chain].cycles):
            return earliest
        # Mirrored, a listed order binds the ends of the last cycles: not before the leader's.
        done, cycles = self.starts[leader], self.net.chains[leader].cycles
        if len(done) < len(cycles):
            self.behind[leader] = chain
            return None
        return max(earliest, done[-1] + cycles[-1] - self.waiting.duration(chain))

    def _fill(self, source: int) -> None:
        """Start what fits, by the manner, until nothing more does or the water is kept for a better one."""
        if self.choosing.manner.filled:
            while chosen := self.choosing.filling(source):
                for chain in chosen:
                    self._try(chain)
            return
        passed_over: list[int] = []
        while (next_one := self.choosing.next(source, self.now, passed_over)) is not None:
            self._try(next_one)
        for chain in passed_over:
            self.waiting.at_source(chain)
        self.waiting.stirred[source] = False

    def _try(self, chain: int) -> None:
        """Start the chain's next cycle, or let it wait where it is stopped."""
        self.waiting.leave(chain)
        if self.choosing.latest[chain] < self.now:
            self._make_ready(chain)
        elif not self.waiting.stopped(chain):
            clash = self.pins.clash(chain, self.now, self.waiting.duration(chain)) if self.pins else None
            if clash is None:
                self._start(chain)
            else:
                heappush(self.events, _event(clash, READY, chain))
        self.waiting.answer(chain)

    def _start(self, chain: int) -> None:
        mine, cycle = self.net.chains[chain], len(self.starts[chain])
        end = self.now + mine.cycles[cycle]
        self.starts[chain].append(self.now)
        gap = self.waiting.take(chain)
        self.choosing.opened(chain, end)
        heappush(self.events, _event(end, END, chain))
        if gap:
            heappush(self.events, _event(end + gap, FREE, chain))
        pinned = len(self.pins.starts.get(chain, ())) if self.pins else 0
        if self.pins and cycle >= pinned:
            self.pins.cross(chain, self.now, end)
        if pinned <= cycle + 1 < len(mine.cycles):
            heappush(self.events, _event(end + mine.soak, READY, chain))
        if cycle + 1 == len(mine.cycles) if self.net.mirrored else cycle == 0:
            self._unlock_follower(chain)

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


def _event(at: int, what: int, chain: int) -> int:
    """One whole number that sorts by time: the heap compares it in one step."""
    return at << _STAMP | what << _CHAIN_BITS | chain
