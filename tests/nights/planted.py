"""Planted nights: a source's strip (flow × time) cut without waste into runs, so that the best finish is known.

The strip's width is the source's limit and its length the open time up to the finish. Every litre the source
can give until then is due, so no plan can finish sooner; the cuts themselves are a plan that finishes then.
Cuts go right through (guillotine) or round a middle piece (a pinwheel, which no guillotine can make).
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from random import Random
from typing import NamedTuple

from pengan.engine.plan.problem import Plan, Problem, Span

from .sketch import DUSK_S, NIGHT_S, Sketch, open_spans

THIN_FLOW, WIDE_FLOW = 15_000, 120_000
"""A run's least and largest flow, mL/min."""
SHORT_S, LONG_S = 180, 1200
"""A run's shortest and longest time."""
TICK_S = 10
LEAST_SOAK_S, MOST_SOAK_S = 300, 2400
AREA_A_STATION = 45_000_000
"""Flow × seconds that a station takes on average under the cuts below, counted over many seeds."""


class Piece(NamedTuple):
    """A rectangle of the strip: so much flow above `low`, so many seconds from `start`."""

    low: int
    flow: int
    start: int
    length: int


@dataclass(frozen=True, slots=True)
class Planted:
    """A night, when its best plan finishes (seconds since noon), and that plan."""

    problem: Problem
    finish: int
    plan: Plan


def planted(stations: int, seed: int, *, closures: bool = False, sources: int = 1) -> Planted:
    """A planted night of about so many stations with about three cycles each."""
    random = Random(f"planted-{stations}-{seed}-{closures}-{sources}")
    saw = Saw(random, THIN_FLOW if stations < 300 * sources else THIN_FLOW // 3)
    spans = _spans(random, 3 * 3600 if stations < 100 * sources else 8 * 3600, closures)
    width = saw.width(stations / sources, sum(end - start for start, end in spans))
    sketch = Sketch()
    starts: list[tuple[int, ...]] = []
    for _ in range(sources):
        supply = sketch.supply(width)
        pieces = [piece for span in spans for piece in saw.cut(Piece(0, width, span[0], span[1] - span[0]))]
        for turn in _turns(random, pieces):
            _add(sketch, random, supply, turn, spans if closures else None)
            starts.append(tuple(piece.start for piece in turn))
    problem = sketch.freeze()
    return Planted(problem, spans[-1][1], Plan(tuple(starts), tuple(chain.key for chain in problem.chains), 0))


def _spans(random: Random, seconds: int, closures: bool) -> list[Span]:
    """The open spans of the strip: one, or three with two closures between them."""
    if not closures:
        return [(DUSK_S, DUSK_S + seconds)]
    parts = [seconds * share // 100 // 60 * 60 for share in (random.randrange(25, 40), random.randrange(25, 40))]
    spans, at = [], DUSK_S
    for part in (*parts, seconds - sum(parts)):
        spans.append((at, at + part))
        at += part + random.randrange(1200, 4200, 60)
    return spans


@dataclass(frozen=True, slots=True)
class Saw:
    """Cuts a strip into runs. All flows are multiples of `grain`: a coarse one lets small nights share flows too."""

    random: Random
    grain: int

    def width(self, stations: float, seconds: int) -> int:
        """The strip's width that gives about so many stations."""
        wide = max(WIDE_FLOW * 3 // 2, round(stations * AREA_A_STATION / seconds))
        return wide // THIN_FLOW * THIN_FLOW

    def cut(self, whole: Piece) -> list[Piece]:
        """Cut a piece up until every part is a run of usual size."""
        done: list[Piece] = []
        todo = [whole]
        while todo:
            piece = todo.pop()
            if parts := self._parts(piece):
                todo.extend(parts)
            else:
                done.append(piece)
        return done

    def _parts(self, piece: Piece) -> list[Piece]:
        """The piece cut in two, or in five round a pinwheel; nothing where it stays whole."""
        if piece.flow <= WIDE_FLOW and piece.length <= LONG_S and self.random.random() < 0.6:
            return []
        if piece.flow >= 3 * THIN_FLOW and piece.length >= 3 * SHORT_S and self.random.random() < 0.2:
            return self._pinwheel(piece)
        across, along = piece.flow >= 2 * THIN_FLOW, piece.length >= 2 * SHORT_S
        if across and along:
            across = piece.flow * LONG_S > self.random.uniform(0.3, 3.0) * piece.length * WIDE_FLOW
        if across:
            return self._across(piece)
        return self._along(piece) if along else []

    def _flow(self, least: int, most: int) -> int:
        return self.random.randrange(least, most + 1, self.grain)

    def _time(self, least: int, most: int) -> int:
        return self.random.randrange(least, most + 1, TICK_S)

    def _across(self, piece: Piece) -> list[Piece]:
        cut = self._flow(THIN_FLOW, piece.flow - THIN_FLOW)
        return [piece._replace(flow=cut), piece._replace(low=piece.low + cut, flow=piece.flow - cut)]

    def _along(self, piece: Piece) -> list[Piece]:
        cut = self._time(SHORT_S, piece.length - SHORT_S)
        return [piece._replace(length=cut), piece._replace(start=piece.start + cut, length=piece.length - cut)]

    def _pinwheel(self, piece: Piece) -> list[Piece]:
        """Four arms round a middle."""
        low = self._flow(THIN_FLOW, piece.flow - 2 * THIN_FLOW)
        high = self._flow(low + THIN_FLOW, piece.flow - THIN_FLOW)
        soon = self._time(SHORT_S, piece.length - 2 * SHORT_S)
        late = self._time(soon + SHORT_S, piece.length - SHORT_S)
        parts = (
            (0, low, 0, late),
            (0, high, late, piece.length - late),
            (high, piece.flow - high, soon, piece.length - soon),
            (low, piece.flow - low, 0, soon),
            (low, high - low, soon, late - soon),
        )
        return [Piece(piece.low + below, flow, piece.start + after, length) for below, flow, after, length in parts]


def _turns(random: Random, pieces: list[Piece]) -> list[list[Piece]]:
    """Pieces of one flow strung together, two to four with a soak between them; what is left over stands alone."""
    turns: list[list[Piece]] = []
    for flow in sorted({piece.flow for piece in pieces}):
        left = sorted((piece for piece in pieces if piece.flow == flow), key=lambda piece: (piece.start, piece.low))
        while left:
            turn = [left.pop(0)]
            for _ in range(random.choice((1, 2, 2, 3))):
                after = turn[-1].start + turn[-1].length + LEAST_SOAK_S
                fits = [at for at, piece in enumerate(left) if piece.start >= after][:8]
                if fits:
                    turn.append(left.pop(random.choice(fits)))
            turns.append(turn)
    random.shuffle(turns)
    return turns


def _add(sketch: Sketch, random: Random, supply: int, turn: list[Piece], spans: list[Span] | None) -> None:
    rests = [late.start - soon.start - soon.length for soon, late in pairwise(turn)]
    soak = min([MOST_SOAK_S, *rests]) if rests else 0
    sketch.chain(
        supply=supply,
        flow=turn[0].flow,
        cycles=tuple(piece.length for piece in turn),
        soak=soak if random.random() < 0.5 else soak * 3 // 4,
        calendar=0 if spans is None else sketch.calendar(_calendar(random, turn, spans)),
    )


def _calendar(random: Random, turn: list[Piece], spans: list[Span]) -> tuple[Span, ...]:
    """The strip's closures, and for every fourth turn another span in which the planted plan leaves it shut."""
    holes = [(soon[1], late[0]) for soon, late in pairwise(spans)]
    if random.random() < 0.25:
        start = DUSK_S + random.randrange(0, 8) * 3600
        if all(piece.start + piece.length <= start or piece.start >= start + 1800 for piece in turn):
            holes.append((start, start + 1800))
    return open_spans(DUSK_S, NIGHT_S, tuple(holes))
