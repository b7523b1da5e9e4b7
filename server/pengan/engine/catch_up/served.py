"""How far a turn has come: what ran of it, what is open now, and what is left of its cycles. Seconds of the night."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..plan.problem import Chain, Span
from ..plan.spans import holding

WORTH_S = 30
"""What is left of a cycle that ran is not made up for below this: a valve is not opened for it. Common practice."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch in which the turn got water, and the planned run that it was. `going`: its valve is open now."""

    start: int
    end: int
    run: Span
    going: bool = False


@dataclass(frozen=True, slots=True)
class Going:
    """An open run: since when, until when so that it is whole, and until when by the clock (no later than that)."""

    start: int
    whole: int
    clock: int


@dataclass(frozen=True, slots=True)
class Served:
    """`left`: the cycles still to run once what is going is whole; `planned`: the sheet's runs of it still to come,
    of one that should be open and is not what is left of it."""

    past: tuple[Span, ...]
    going: Going | None
    left: tuple[int, ...]
    planned: tuple[Span, ...]

    @property
    def begun(self) -> bool:
        """Whether any of it ran."""
        return bool(self.past) or self.going is not None

    @property
    def seconds(self) -> int:
        """What ran until now and what is going, when it is whole."""
        return sum(end - start for start, end in self.past) + (self.going.whole - self.going.start if self.going else 0)

    def closed(self, now: int) -> Served:
        """The same turn if its open valve is closed now; what that leaves over is a cycle of its own."""
        if self.going is None:
            return self
        over = self.going.whole - now
        left = ((over,) if over >= WORTH_S else ()) + self.left
        return replace(self, past=(*self.past, (self.going.start, now)), going=None, left=left)


def served(
    chain: Chain,
    ran: Sequence[Stretch],
    planned: Sequence[Span],
    spans: Sequence[Span],
    now: int,
    edited: Edited | None = None,
) -> Served:
    """Read one turn's stretches until now. `spans`: when it may run from now on; `edited`: what ran, ran as planned."""
    past = [one for one in ran if not one.going]
    open_now = next((one for one in reversed(ran) if one.going), None)
    length = edited.length(chain) if edited else None
    going = _going(chain, past, open_now, spans, now, length) if open_now else None
    done = sorted((one.start, one.end) for one in past)
    if open_now and going is None:
        done.append((open_now.start, now))
    given = [end - start for start, end in done] + ([going.whole - going.start] if going else [])
    open_run = open_now.run if open_now else None
    later = sorted((max(start, now), end) for start, end in planned if (start, end) != open_run)
    later = [(start, end) for start, end in later if end - start >= WORTH_S or ((start, end) in planned and end > now)]
    left = edited.left_of(chain, given) if edited else left_of(chain.cycles, given)
    return Served(tuple(done), going, left, tuple(later))


@dataclass(frozen=True, slots=True)
class Edited:
    """How far the sheet in force had come with a turn when somebody changed the site.

    A cycle that ran has run: an edit changes those that are open or to come, and a turn that is over is over, so that
    ten per cent more at three in the morning does not open every valve again for two minutes. `ended`, `to_come` (with
    the open one) and `short` count cycles.
    """

    ended: int
    to_come: int
    short: int

    def length(self, chain: Chain) -> int | None:
        """How long the open cycle is now, in s; None where cycles cannot be told apart, as their number has changed."""
        return chain.cycles[self.ended] if self._alike(chain) and self.to_come else None

    def left_of(self, chain: Chain, given: Sequence[int]) -> tuple[int, ...]:
        """What is left of the cycles after stretches of so many seconds, an open one among them whole."""
        if self.ended and not self.to_come + self.short:
            return ()
        if not self._alike(chain):
            return left_of(chain.cycles, given)
        left = [*[0] * self.ended, *chain.cycles[self.ended :]]
        if len(given) > self.ended:
            over = left[self.ended] - given[self.ended]
            left[self.ended] = over if over >= WORTH_S else 0
        return _no_more_than(left, chain.cycles, max(0, sum(chain.cycles) - sum(given)))

    def _alike(self, chain: Chain) -> bool:
        return self.ended + self.to_come + self.short == len(chain.cycles)


def left_of(cycles: Sequence[int], given: Sequence[int]) -> tuple[int, ...]:
    """What is left of the cycles after stretches of so many seconds, never more than all of them together lack.

    A stretch goes to the first cycle that is not whole, and what it has over to the next; scraps count for nothing.
    """
    left, place = list(cycles), 0
    for seconds in given:
        while place < len(left) and seconds >= WORTH_S:
            taken = min(seconds, left[place])
            left[place] -= taken
            seconds -= taken
            if left[place] >= WORTH_S:
                break
            left[place], place, seconds = 0, place + 1, seconds if seconds >= WORTH_S else 0
    return _no_more_than(left, cycles, max(0, sum(cycles) - sum(given)))


def _no_more_than(left: Sequence[int], cycles: Sequence[int], lacking: int) -> tuple[int, ...]:
    """The cycles cut from the last on, without scraps."""
    out = []
    for seconds, whole in zip(left, cycles, strict=True):
        cut = min(seconds, lacking)
        if cut and (cut == whole or cut >= WORTH_S):
            out.append(cut)
            lacking -= cut
    return tuple(out)


def _going(
    chain: Chain, past: Sequence[Stretch], open_now: Stretch, spans: Sequence[Span], now: int, edited: int | None
) -> Going | None:
    """Until when the open run goes: to its full length (`edited`: in s, as it is now), unless its calendar or what the
    turn is due ends it before."""
    length = open_now.run[1] - open_now.run[0] if edited is None else edited
    same = sum(one.end - one.start for one in past if one.run == open_now.run)
    whole, clock = now + length - same - (now - open_now.start), open_now.run[1]
    if edited is None and 0 < whole - clock < WORTH_S:
        whole = clock
    lacking = sum(chain.cycles) - sum(one.end - one.start for one in past)
    span = holding(spans, now)
    whole = min(whole, open_now.start + lacking, span[1] if span else now, chain.deadline)
    return Going(open_now.start, whole, max(now, min(whole, clock))) if whole > now else None


def fitting(cycles: Sequence[int], ready: int, chain: Chain, spans: Sequence[Span]) -> int:
    """How many of the cycles could run from `ready` on with nothing else open."""
    fit = 0
    for seconds in cycles:
        starts = (max(start, ready) for start, end in spans if max(start, ready) + seconds <= min(end, chain.deadline))
        start = next(starts, None)
        if start is None:
            break
        ready, fit = start + seconds + chain.soak, fit + 1
    return fit
