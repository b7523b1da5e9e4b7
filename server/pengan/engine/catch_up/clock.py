"""Keeping to the clock: what the sheet plans from now on runs as planned, and what was missed is lost."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from ..plan.spans import common
from .left import Left, Row
from .served import WORTH_S
from .sound import Rows, sound


@dataclass(frozen=True, slots=True)
class Kept:
    """What of the sheet still holds: its runs to come by chain, and what of each turn's cycles they leave over."""

    rows: Rows
    over: tuple[tuple[int, ...], ...]

    def missing(self, left: Left) -> tuple[tuple[int, ...], ...]:
        """What does not run then of each turn: what is left over, and what the clock cuts off an open run."""
        cut = (_scraped(turn.going.whole - turn.going.clock) if turn.going else 0 for turn in left.turns)
        return tuple((seconds, *over) if seconds else over for seconds, over in zip(cut, self.over, strict=True))


def keep(left: Left, *, parts: bool = True) -> Kept:
    """The sheet's runs to come, as far as windows, closures and outages leave them.

    A run that begins in an outage keeps what comes after it; none brings a turn more than it is due. Without `parts`
    only those stay that run a cycle to its end.
    """
    wanted = [_pieces(left, c, parts=parts) for c in range(len(left.turns))]
    rows = sound(left, {c: tuple(one.run for one in pieces) for c, pieces in enumerate(wanted)}, whole=False)
    return Kept(rows, tuple(_over(left, c, pieces, rows.get(c, ())) for c, pieces in enumerate(wanted)))


def nothing_missed(left: Left, kept: Kept) -> bool:
    """Whether the sheet's runs to come all stay, and no turn lacks more than the sheet said it would."""
    short: dict[str, int] = defaultdict(int)
    for one in left.before.shortfalls:
        short[one.turn] += one.run_s
    pairs = zip(left.chains, left.turns, kept.missing(left), strict=True)
    return all(
        tuple((start, start + seconds) for start, seconds in kept.rows.get(c, ())) == turn.planned
        and sum(missing) <= short[chain.key]
        for c, (chain, turn, missing) in enumerate(pairs)
    )


@dataclass(frozen=True, slots=True)
class _Piece:
    """A planned run, or what is left of it: start and seconds, and which of the turn's cycles it is."""

    run: tuple[int, int]
    cycle: int


def _pieces(left: Left, c: int, *, parts: bool) -> list[_Piece]:
    chain, turn = left.chains[c], left.turns[c]
    cycles, ready, pieces = list(turn.left), left.ready_by_clock(c), list[_Piece]()
    spans = left.calendars[c].spans
    for start, end in turn.planned:
        place = _meant(cycles, end - start, left.edited)
        if place is None:
            continue
        open_then = common(spans, [(max(start, ready), min(end, chain.deadline))])
        first, last = max(open_then, key=lambda span: span[1] - span[0], default=(start, start))
        seconds = min(last - first, cycles[place])
        if seconds >= (min(WORTH_S, cycles[place]) if parts else cycles[place] - WORTH_S + 1):
            pieces.append(_Piece((first, seconds), place))
            ready = first + seconds + chain.soak
            cycles[place] = _scraped(cycles[place] - seconds)
    return pieces


def _meant(cycles: Sequence[int], seconds: int, edited: bool) -> int | None:
    """Which of the cycles a planned run is: one of its length, else the longest below it.

    Else part of the shortest above it, but only where the site is as it was: an edit made that cycle longer.
    """
    exact = [(0, place) for place, cycle in enumerate(cycles) if cycle == seconds]
    below = [(-cycle, place) for place, cycle in enumerate(cycles) if 0 < cycle < seconds]
    above = [] if edited else [(cycle, place) for place, cycle in enumerate(cycles) if cycle > seconds]
    return min(exact or below or above, default=(0, None))[1]


def _scraped(seconds: int) -> int:
    return seconds if seconds >= WORTH_S else 0


def _over(left: Left, c: int, pieces: Sequence[_Piece], row: Row) -> tuple[int, ...]:
    """What of the turn's cycles the row leaves over, without scraps."""
    cycles = list(left.turns[c].left)
    for piece in pieces:
        if piece.run in row:
            cycles[piece.cycle] = _scraped(cycles[piece.cycle] - piece.run[1])
    return tuple(seconds for seconds in cycles if seconds)
