"""One supply's meter through a night: how its readings sit in the band, and what they averaged while nothing changed.

Differences add up as in a CUSUM chart (see `control`), in mL/min times seconds, all in whole numbers.
"""

from __future__ import annotations

from dataclasses import dataclass, field

LONGEST_STEP_S = 120
"""A reading after a gap speaks for no more than so long before it."""
FEW_SAME, MANY_SAME = 5, 20
"""So many equal readings while the draw moved much, or somewhat, mean a stuck meter. Common practice, no source."""
LEAST_ROWS = 3
"""So many rows of equal readings, each ended by itself, tell how long they usually are."""
MOVED_SHARE = 20
"""A draw that moved by more than one in so many has moved."""
OVERFULL = 4
"""A sum grows to no more than so many times what is needed, so that it empties in time."""


@dataclass(frozen=True, slots=True)
class Segment:
    """Readings of one meter between two changes of what is expected of it: instants, count, sum, and the expected."""

    start: int
    end: int
    count: int
    total: int
    likely: int

    @property
    def off(self) -> float:
        """The mean difference from what was expected, in mL/min."""
        return self.total / self.count - self.likely


@dataclass(slots=True)
class Side:
    """One of a meter's two sums: since when (instant) it has been above nothing, and in how many readings.

    `peak_at`: the reading that lay farthest outside, and `peak` how far.
    """

    total: int = 0
    since: int = 0
    count: int = 0
    peak: int = 0
    peak_at: int = 0

    def add(self, beyond: int, step_s: int, span: tuple[int, int], most: int) -> None:
        """`beyond` is how far the reading lies outside what is allowed (negative: within), in mL/min; `span` from when
        to when it speaks."""
        if self.total == 0:
            self.since, self.count, self.peak = span[0], 0, 0
        self.total = min(most, max(0, self.total + beyond * step_s))
        self.count += 1
        if beyond > 2 * self.peak:
            self.peak, self.peak_at = beyond, span[1]

    def clear(self) -> None:
        self.total = self.count = 0


@dataclass(slots=True)
class Gauge:
    """A meter's state. `same`: how often its last value came in a row; `moved`: how far the draw moved meanwhile.

    `rows` are the rows of equal readings that ended by themselves, `usual` the longest of them, and `finest` the
    smallest step between two readings. Flows in mL/min.
    """

    supply: str
    at: int = -1
    flow: int = 0
    same: int = 0
    same_since: int = 0
    same_likely: int = 0
    moved: int = 0
    rows: int = 0
    usual: int = 0
    finest: int = 0
    right_since: int = 0
    over: Side = field(default_factory=Side)
    under: Side = field(default_factory=Side)
    seen_changes: int = -1
    changes: int = -1
    first: int = 0
    last: int = 0
    count: int = 0
    total: int = 0
    likely: int = 0
    segments: list[Segment] = field(default_factory=list)

    def read(self, at: int, flow: int, likely: int, settled: bool, changes: int) -> int:
        """Take a reading in; answers the seconds it speaks for. `changes` tells one settled state from the next."""
        step = min(at - self.at, LONGEST_STEP_S) if self.at >= 0 else 1
        if flow != self.flow or self.same == 0:
            self._end_row(abs(flow - self.flow))
            self.same, self.same_since, self.same_likely, self.moved = 0, at, likely, 0
        self.same += 1
        if settled:
            self.moved = max(self.moved, abs(likely - self.same_likely))
            self._average(at, flow, likely, changes)
        self.at, self.flow, self.seen_changes = at, flow, changes
        return step

    def _end_row(self, step: int) -> None:
        """Learn from a row of equal readings how coarse a meter is. One in which the draw moved may have been stuck."""
        if not self.same or not self.flow:
            return
        self.finest = min(self.finest or step, step)
        if self.moved * MOVED_SHARE <= self.flow:
            self.rows += 1
            self.usual = max(self.usual, self.same)

    def _average(self, at: int, flow: int, likely: int, changes: int) -> None:
        if changes != self.changes or not self.count:
            self.close()
            self.changes, self.first, self.likely = changes, at, likely
        self.last = at
        self.count += 1
        self.total += flow

    def is_stuck(self, allowed: int) -> bool:
        """The same value over and over while the draw clearly moved. Nothing, over and over, may be true.

        `allowed` is the difference that means nothing; for a long row of readings half of it is enough, if the meter
        is fine enough to show it. A coarse meter shows long rows as a rule: only longer ones tell anything.
        """
        if not self.flow or self.rows < LEAST_ROWS or self.same < max(FEW_SAME, 2 * self.usual):
            return False
        return self.moved > allowed or (self.same >= MANY_SAME and self.moved > max(allowed // 2, 2 * self.finest))

    def close(self) -> None:
        """End the running average, as when something changes or the night is over."""
        if self.count:
            self.segments.append(Segment(self.first, self.last, self.count, self.total, self.likely))
        self.count = self.total = 0

    def averages(self) -> list[Segment]:
        """All averages of the night so far, the running one included."""
        running = [Segment(self.first, self.last, self.count, self.total, self.likely)] if self.count else []
        return [*self.segments, *running]
