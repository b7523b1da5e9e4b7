"""How much of a limit is taken, second by second, with runs put in at any time and in any order."""

from __future__ import annotations

from bisect import bisect_left, bisect_right


class Timeline:
    """A step function over the night: `taken[i]` from `times[i]` until the next time."""

    __slots__ = ("room", "taken", "times")

    def __init__(self, room: int) -> None:
        self.room = room
        self.times = [-(1 << 40), 1 << 40]
        self.taken = [0, 0]

    def stopped_until(self, start: int, end: int, amount: int) -> int | None:
        """When the last step in [start, end) ends that leaves no room for `amount`; None if all do."""
        times, taken, most = self.times, self.taken, self.room - amount
        for step in range(bisect_left(times, end) - 1, bisect_right(times, start) - 2, -1):
            if taken[step] > most:
                return times[step + 1]
        return None

    def add(self, start: int, end: int, amount: int) -> None:
        """Take `amount` from `start` to `end`."""
        first, last = self._cut(start), self._cut(end)
        for step in range(first, last):
            self.taken[step] += amount

    def _cut(self, at: int) -> int:
        """The step that begins at this time, made if there is none."""
        step = bisect_left(self.times, at)
        if self.times[step] != at:
            self.times.insert(step, at)
            self.taken.insert(step, self.taken[step - 1])
        return step
