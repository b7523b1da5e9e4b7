"""The search: many constructions, the best one kept. Effort is counted in constructions, never in seconds.

First several orders in several manners; then the *squeaky wheel* (D. E. Joslin and D. P. Clements, "Squeaky wheel
optimization", JAIR 10, 1999): what ended too late or was left out comes earlier in the next order; now and then
the night is also justified backwards and forwards again (V. Valls, F. Ballestín and S. Quintanilla,
"Justification and RCPSP: a technique that pays", EJOR 165, 2005).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from random import Random

from ..bound import bound
from ..network import Network
from .construct import Construction
from .manner import MANNERS, can_go_one_by_one, manners_for
from .mirror import mirrored, turned, turned_row
from .one_by_one import OneByOne
from .orders import by_start, first_orders, orders_by_rank
from .pins import Pins
from .score import RANKS, Score, Starts, score, unrest

Progress = Callable[[int], None]

PATIENCE = 12
"""Constructions without a gain after which the search goes back to the best one."""
WORTH_MOVING_S = 300
"""A plan close to the earlier one is given up only for one that ends sooner by more than this, or brings more water."""
NEW_MANNER, JUSTIFY = 0.3, 0.3
"""How often another manner is drawn, and how often a construction is justified."""
SHAKE, SHAKEN = 0.3, 0.1
"""How often the whole ranking is shaken a little, and by what part of its length at most."""
LESSER = 0.3
"""How often a cycle left out is raised though more important ones were left out too."""


Anchors = Sequence[Sequence[int | None]]
"""For each chain's cycles, a moment before which they stay; None where there is none."""


@dataclass(frozen=True, slots=True)
class Earlier:
    """What is known of an earlier plan: the ranking and manner that made it, and when its cycles started."""

    ranking: tuple[list[int], str] | None = None
    starts: Anchors | None = None


@dataclass(frozen=True, slots=True)
class Attempt:
    """One construction: what it was made from and what came of it."""

    ranking: list[int]
    manner: str
    starts: Starts
    score: Score


class Search:
    """Looks for the best construction of one network; `spent` counts what it took so far."""

    def __init__(self, net: Network, pins: Pins | None, on_construction: Progress) -> None:
        """Pinned chains stay as they are."""
        self.net = net
        self.pins = pins
        self.on_construction = on_construction
        self.spent = 0
        self.random = Random(len(net.chains)).random
        self.manners = manners_for(net)
        self.backwards = Network(mirrored(net.problem), mirrored=not net.mirrored)
        self.backward_pins = self._turned_pins(pins) if pins and pins.whole else None
        self.can_justify = pins is None or pins.whole

    @cached_property
    def target(self) -> int:
        """When the night could end at the soonest; the search stops there."""
        return bound(self.net.problem).at

    def _turned_pins(self, pins: Pins) -> Pins:
        problem = self.net.problem
        return Pins(self.backwards, {c: turned_row(problem, self.net.chains[c], row) for c, row in pins.starts.items()})

    def construct(self, ranking: list[int], manner: str, not_before: Anchors | None = None) -> Attempt:
        """One construction, counted."""
        if MANNERS[manner].one_by_one:
            starts = OneByOne(self.net, ranking, self.pins).run()
        else:
            starts = Construction(self.net, ranking, MANNERS[manner], self.pins, not_before).run()
        self._count()
        return Attempt(ranking, manner, starts, score(self.net, starts))

    def follow(self, earlier: Earlier, effort: int) -> Attempt:
        """The best of `effort` constructions, at least one; those made from the earlier plan unless clearly worse."""
        kept = None
        if earlier.starts:
            kept = self.construct(by_start(self.net, earlier.starts), "~plain", earlier.starts)
        if earlier.ranking and (kept is None or self.spent < effort):
            again = self.construct(*earlier.ranking)
            kept = again if kept is None or self._clearly_better(again, kept) else kept
        if kept and self.spent >= effort:
            return kept
        best = self.improve(self._better(kept, self.first_round(effort)), effort)
        return best if kept is None or self._clearly_better(best, kept) else kept

    @staticmethod
    def _clearly_better(best: Attempt, kept: Attempt) -> bool:
        return best.score[0] < kept.score[0] or best.score[1] < kept.score[1] - WORTH_MOVING_S

    def first_round(self, effort: int) -> Attempt:
        """The best of a few usual orders in every manner, those by rank first where not all fits at once."""
        first = next(first_orders(self.net))
        best = self.construct(first, self.manners[0])
        orders = [*orders_by_rank(self.net)] if any(best.score[0]) and effort > 1 else []
        for manner in self.manners:
            for ranking in orders or first_orders(self.net):
                if self.spent >= effort or self._perfect(best):
                    return best
                if (manner, ranking) != (self.manners[0], first):
                    best = self._better(best, self.construct(ranking, manner))
        return best

    def improve(self, best: Attempt, effort: int) -> Attempt:
        """Raise what squeaks, again and again, until the effort is spent or nothing better is possible."""
        current, stale = best, 0
        while self.spent < effort and not self._perfect(best):
            current = self._next(current, effort)
            found = self._better(best, current)
            stale = 0 if found is not best else stale + 1
            best = found
            if stale > PATIENCE:
                current, stale = best, 0
        return best

    def _next(self, current: Attempt, effort: int) -> Attempt:
        manner = current.manner
        if self.random() < NEW_MANNER:
            manner = self.manners[int(self.random() * len(self.manners))]
        raised = self.construct(self._raised(current), manner)
        if self.can_justify and self.random() < JUSTIFY and self.spent + 2 <= effort:
            justified = self.construct(self._justified(raised), manner)
            return min(raised, justified, key=lambda attempt: attempt.score)
        return raised

    def _raised(self, attempt: Attempt) -> list[int]:
        """The ranking with cycles that ended after the target, or were left out, moved forward by some random part."""
        reach = len(attempt.ranking) * (0.1 + 0.9 * self.random())
        shake = len(attempt.ranking) * SHAKEN * self.random() if self.random() < SHAKE else 0.0
        gravest = next((rank for rank, short in enumerate(attempt.score[0]) if short), RANKS)
        mentioned = [0] * len(self.net.chains)
        entries = []
        for place, number in enumerate(attempt.ranking):
            cycle, chain, row = mentioned[number], self.net.chains[number], attempt.starts[number]
            mentioned[number] += 1
            if cycle >= len(row):
                squeaks = chain.rank <= gravest or self.random() < LESSER
            else:
                squeaks = row[cycle] + chain.cycles[cycle] > self.target
            raised = reach * self.random() if squeaks else 0.0
            entries.append((place - raised + (shake * self.random() if shake else 0.0), place, number))
        entries.sort()
        return [number for _, _, number in entries]

    def _justified(self, attempt: Attempt) -> list[int]:
        """The order in which a construction from the end, the last first, would have it."""
        ranking = by_start(self.backwards, turned(self.net.problem, attempt.starts))
        if MANNERS[attempt.manner].one_by_one and can_go_one_by_one(self.backwards):
            starts = OneByOne(self.backwards, ranking, self.backward_pins).run()
        else:
            starts = Construction(self.backwards, ranking, MANNERS[attempt.manner], self.backward_pins).run()
        self._count()
        return by_start(self.net, turned(self.backwards.problem, starts))

    def _better(self, best: Attempt | None, new: Attempt) -> Attempt:
        """The better of two; the first where they are equal in all that counts."""
        if best is None or new.score < best.score:
            return new
        if new.score == best.score and unrest(self.net, new.starts) < unrest(self.net, best.starts):
            return new
        return best

    def _perfect(self, best: Attempt) -> bool:
        return not any(best.score[0]) and best.score[1] <= self.target

    def _count(self) -> None:
        self.spent += 1
        self.on_construction(self.spent)
