"""Runs whose start is fixed beforehand: asked-for times, and late programs placed before the others.

The construction looks at the present only. So every other run that would still be open when a pinned one
starts is counted against it here; where both don't fit, the other one waits until the pinned one has begun.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ..network import Need, Network


@dataclass(frozen=True, slots=True)
class _Pin:
    start: int
    end: int
    chain: int


class Pins:
    """`starts[c]` fixes the first cycles of chain `c`, in seconds of the night. Pins must not clash with each other."""

    def __init__(self, net: Network, starts: Mapping[int, Sequence[int]]) -> None:
        self.net = net
        self.starts = starts
        self.pins = sorted(
            (
                _Pin(start, start + net.chains[c].cycles[k], c)
                for c, row in starts.items()
                for k, start in enumerate(row)
            ),
            key=lambda pin: (pin.start, net.chains[pin.chain].key),
        )
        self._begins = [pin.start for pin in self.pins]
        self._longest_gap = max((need.gap for needs in net.needs for need in needs), default=0)
        self.taken: list[dict[int, int]] = [self._taken_by_pins(index) for index in range(len(self.pins))]

    def sound(self) -> bool:
        """Whether all pinned runs can really be open as pinned, with nothing else placed."""
        for index, taken in enumerate(self.taken):
            if any(amount > self.net.room[limit] for limit, amount in taken.items()):
                return False
            pin = self.pins[index]
            rivals = self.net.rivals[pin.chain]
            for other in self.pins[:index]:
                if other.end > pin.start and self.net.chains[other.chain].station in rivals:
                    return False
        return True

    @property
    def whole(self) -> bool:
        """Whether every pinned chain is pinned to its last cycle."""
        return all(len(row) == len(self.net.chains[c].cycles) for c, row in self.starts.items())

    def fresh(self) -> Pins:
        """The same pins with nothing else placed yet."""
        return Pins(self.net, self.starts)

    def _all_needs(self, chain: int) -> tuple[Need, ...]:
        return (Need(self.net.source[chain], self.net.chains[chain].flow, 0), *self.net.needs[chain])

    def _taken_by_pins(self, index: int) -> dict[int, int]:
        """What pins begun earlier, and this one itself, take of each limit when this one starts."""
        at = self.pins[index].start
        taken: dict[int, int] = {}
        for other in self.pins[: index + 1]:
            for need in self._all_needs(other.chain):
                if other.end + need.gap > at:
                    taken[need.limit] = taken.get(need.limit, 0) + need.amount
        return taken

    def _met(self, start: int, end: int) -> range:
        """The pins that start while a run from `start` to `end`, or the gap after it, lasts."""
        return range(bisect_right(self._begins, start), bisect_right(self._begins, end + self._longest_gap - 1))

    def clash(self, chain: int, start: int, duration: int) -> int | None:
        """When the first pin starts that a run of this chain would leave no room for; None if there is none."""
        end = start + duration
        for index in self._met(start, end):
            pin = self.pins[index]
            if pin.start < end and self.net.chains[pin.chain].station in self.net.rivals[chain]:
                return pin.start
            taken = self.taken[index]
            for need in self._all_needs(chain):
                over = taken.get(need.limit, 0) + need.amount > self.net.room[need.limit]
                if over and need.limit in taken and end + need.gap > pin.start:
                    return pin.start
        return None

    def cross(self, chain: int, start: int, end: int) -> None:
        """A run was placed: count it against the pins it meets."""
        for index in self._met(start, end):
            for need in self._all_needs(chain):
                if end + need.gap > self.pins[index].start:
                    taken = self.taken[index]
                    taken[need.limit] = taken.get(need.limit, 0) + need.amount


def fixed_rows(net: Network) -> dict[int, list[int]]:
    """The first starts of the chains with a fixed time, as far as they fit together; by rank, then key.

    A fixed chain that can't have its time is left out of the night: whoever asked decides what to do instead.
    """
    rows: dict[int, list[int]] = {}
    wanted = [(chain.rank, chain.key, index) for index, chain in enumerate(net.chains) if chain.fixed is not None]
    for _, _, index in sorted(wanted):
        fixed = net.chains[index].fixed or 0
        open_then = any(a <= fixed and fixed + net.chains[index].cycles[0] <= b for a, b in net.calendar[index])
        if open_then and Pins(net, {**rows, index: [fixed]}).sound():
            rows[index] = [fixed]
    return rows
