"""The one place where wall time becomes instants, always under a policy that is named.

An instant is whole seconds since 1970-01-01T00:00Z. A wall time is a naive `datetime`: what the clock on the
site's wall reads. Where the wall leaps forward, times are missing (a gap); where it goes back, times come twice
(an overlap).
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import Enum
from typing import NewType

from ..message import saying
from .fault import ClockFault
from .rules import Change, Rule

Instant = NewType("Instant", int)

EPOCH = datetime(1970, 1, 1)
SECOND = timedelta(seconds=1)
REACH_S = 26 * 3600
"""No offset is further from UTC than this (RFC 9636 section 3.2 asks for less than 26 hours)."""

ALWAYS = -(10**12)
"""Earlier than any instant there can be."""

MISSING = saying("clock.time_missing", "{wall} does not exist on the site's clock: it leaps over that time.")
TWICE = saying("clock.time_twice", "{wall} comes twice on the site's clock: it goes back over that time.")


class Policy(Enum):
    """What a wall time that does not exist, or comes twice, is taken to mean.

    The names and meanings are those of ECMAScript Temporal's `disambiguation`; RFC 5545 section 3.3.5 asks for
    COMPATIBLE.
    """

    COMPATIBLE = "compatible"
    """Missing: forward by the length of the gap. Twice: the first."""
    EARLIER = "earlier"
    """Missing: back by the length of the gap. Twice: the first."""
    LATER = "later"
    """Missing: forward by the length of the gap. Twice: the second."""
    REJECT = "reject"
    """Either is a `ClockFault`."""


@dataclass(frozen=True, slots=True)
class Timeline:
    """Every offset a clock has ever had and will have: `first_s`, then dated changes, from `rule_at` on a yearly rule.

    `rule_at` may be later than the last dated change: a rule can go silent for years before it speaks again.
    """

    first_s: int
    dated: tuple[Change, ...] = ()
    rule: Rule | None = None
    rule_at: int = ALWAYS

    def offset(self, instant: int) -> int:
        """Seconds east of UTC in force at an instant."""
        if self.rule is not None and instant >= self.rule_at:
            return self.rule.offset(instant)
        passed = bisect_left(self.dated, (instant + 1,))
        return self.dated[passed - 1].after_s if passed else self.first_s

    def changes(self, start: int, end: int) -> tuple[Change, ...]:
        """The changes from `start` up to and without `end`, in order."""
        dated = self.dated[bisect_left(self.dated, (start,)) : bisect_left(self.dated, (end,))]
        if self.rule is None or end <= self.rule_at:
            return dated
        return dated + tuple(self.rule.changes(max(start, self.rule_at + 1), end))

    def wall(self, instant: int) -> datetime:
        """What the wall reads at an instant."""
        return EPOCH + timedelta(seconds=instant + self.offset(instant))


def wall_seconds(wall: datetime) -> int:
    """A wall time as seconds since 1970-01-01T00:00 of the same wall."""
    return (wall - EPOCH) // SECOND


def instant_of(timeline: Timeline, wall: datetime, policy: Policy) -> Instant:
    """The instant a wall time means. Raises `ClockFault` only under `Policy.REJECT`."""
    local = wall_seconds(wall)
    around = timeline.changes(local - REACH_S, local + REACH_S)
    if not around:
        return Instant(local - timeline.offset(local))
    offsets = {around[0].before_s, *(change.after_s for change in around)}
    found = sorted(local - offset for offset in offsets if timeline.offset(local - offset) == offset)
    if not found:
        return _in_gap(local, around, wall, policy)
    if len(found) > 1 and policy is Policy.REJECT:
        raise ClockFault(TWICE(wall=wall.isoformat()))
    return Instant(found[-1] if policy is Policy.LATER else found[0])


def _in_gap(local: int, around: tuple[Change, ...], wall: datetime, policy: Policy) -> Instant:
    if policy is Policy.REJECT:
        raise ClockFault(MISSING(wall=wall.isoformat()))
    gap = next(change for change in around if change.at + change.before_s <= local < change.at + change.after_s)
    return Instant(local - (gap.after_s if policy is Policy.EARLIER else gap.before_s))


@dataclass(frozen=True, slots=True)
class Edge:
    """One end of a span: a wall time in seconds (`wall_seconds`), or an instant such as a sunset."""

    seconds: int
    is_wall: bool

    def under(self, offset_s: int) -> int:
        """The instant it would be if `offset_s` were always in force."""
        return self.seconds - offset_s if self.is_wall else self.seconds


def instants_between(timeline: Timeline, opens: Edge, closes: Edge) -> Iterator[tuple[Instant, Instant]]:
    """The stretches of real time in which the wall reads at least `opens` and less than `closes`, in order.

    No policy is needed: each instant is in or out by what the wall reads then. An edge in a gap falls on the change
    itself; a span that ends inside an overlap comes in two stretches.
    """
    begin, end = opens.seconds - REACH_S, closes.seconds + REACH_S
    changes = timeline.changes(begin, end)
    offset = timeline.offset(begin)
    for since, until, after in zip(
        [begin, *(c.at for c in changes)],
        [*(c.at for c in changes), end],
        [*(c.after_s for c in changes), 0],
        strict=True,
    ):
        first, last = max(since, opens.under(offset)), min(until, closes.under(offset))
        if first < last:
            yield Instant(first), Instant(last)
        offset = after
