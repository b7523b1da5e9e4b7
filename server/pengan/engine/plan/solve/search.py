"""The search: many constructions, the best one kept. Effort is counted in constructions, never in seconds.

First several orders in several manners; then the *squeaky wheel* (D. E. Joslin and D. P. Clements, "Squeaky wheel
optimization", JAIR 10, 1999): what ended too late or was left out comes earlier in the next order. In between go
small steps from the best so far, kept where they are no worse. Now and then the night is also justified backwards
and forwards again (V. Valls, F. Ballestín and S. Quintanilla, "Justification and RCPSP: a technique that pays",
EJOR 165, 2005).
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
from .moves import nudged, raised, shuffled
from .one_by_one import OneByOne
from .orders import by_start, first_orders, orders_by_rank
from .pins import Pins
from .score import Score, Starts, score, unrest

Progress = Callable[[int], None]

PATIENCE = 12
"""Constructions without a gain after which the search goes back to the best one."""
FRESH_START = 200
"""Constructions without a gain after which it starts from a shuffled ranking."""
NUDGE, NUDGE_MANNER = 0.6, 0.1
"""How often a step is a small one, and how often it changes the manner too."""
NEW_MANNER, JUSTIFY = 0.3, 0.3
"""How often a raised ranking is constructed in another manner, and how often the outcome is justified."""
WORTH_MOVING_S = 300
"""A plan close to the earlier one is given up only for one that ends sooner by more than this, or brings more water."""

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

    @property
    def short(self) -> tuple[int, ...]:
        """Water left out, by rank."""
        return self.score[0]

    @property
    def end(self) -> int:
        """When its last run ends."""
        return self.score[1]


class Search:
    """Looks for the best construction of one network; `spent` counts what it took so far.

    `kept` is the one that keeps the earlier starts wherever it can, if there were any.
    """

    def __init__(self, net: Network, pins: Pins | None, effort: int, on_construction: Progress) -> None:
        """At most `effort` constructions, but at least one. Pinned chains stay as they are."""
        self.net = net
        self.effort = max(1, effort)
        self.pins = pins
        self.on_construction = on_construction
        self.spent = 0
        self.kept: Attempt | None = None
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
        starts = constructed(self.net, ranking, manner, self.pins, not_before)
        self._count()
        return Attempt(ranking, manner, starts, score(self.net, starts, self.target if self.effort > 1 else None))

    def follow(self, earlier: Earlier) -> Attempt:
        """The best of all constructions; those made from the earlier plan unless clearly worse."""
        kept = None
        if earlier.starts:
            kept = self.kept = self.construct(by_start(self.net, earlier.starts), "~plain", earlier.starts)
        if earlier.ranking and (kept is None or self.spent < self.effort):
            again = self.construct(*earlier.ranking)
            kept = again if kept is None or self._clearly_better(again, kept) else kept
        if kept and self.spent >= self.effort:
            return kept
        best = self.improve(self._better(kept, self.first_round()))
        return best if kept is None or self._clearly_better(best, kept) else kept

    @staticmethod
    def _clearly_better(best: Attempt, kept: Attempt) -> bool:
        return best.score[0] < kept.score[0] or best.score[1] < kept.score[1] - WORTH_MOVING_S

    def first_round(self) -> Attempt:
        """The best of a few usual orders in every manner, those by rank first where not all fits at once."""
        first = next(first_orders(self.net))
        best = self.construct(first, self.manners[0])
        orders = [*orders_by_rank(self.net)] if any(best.score[0]) and self.effort > 1 else []
        for manner in self.manners:
            for ranking in orders or first_orders(self.net):
                if self.spent >= self.effort or self._perfect(best):
                    return best
                if (manner, ranking) != (self.manners[0], first):
                    best = self._better(best, self.construct(ranking, manner))
        return best

    def improve(self, best: Attempt) -> Attempt:
        """Small steps from the best so far and raised rankings in turn, by chance, until the effort is spent."""
        near, wandering, stale = best, best, 0
        while self.spent < self.effort and not self._perfect(best):
            if self.random() < NUDGE:
                attempt = self.construct(nudged(near.ranking, self.random), self._manner(near, NUDGE_MANNER))
            else:
                attempt = wandering = self._raise(wandering)
            near = attempt if attempt.score <= near.score else near
            better = self._better(best, attempt)
            stale = stale + 1 if better is best else 0
            best = better
            if stale % PATIENCE == PATIENCE - 1:
                wandering = best
            if stale % FRESH_START == FRESH_START - 1:
                near = wandering = self.construct(shuffled(best.ranking, self.random), self._manner(best, 1))
        return best

    def _raise(self, attempt: Attempt) -> Attempt:
        """Raise what squeaks; now and then justify what comes of it."""
        ranking = raised(self.net, attempt.ranking, attempt.starts, attempt.score, self.target, self.random)
        found = self.construct(ranking, self._manner(attempt, NEW_MANNER))
        if self.can_justify and self.random() < JUSTIFY and self.spent + 2 <= self.effort:
            justified = self.construct(self._justified(found), found.manner)
            return min(found, justified, key=lambda one: one.score)
        return found

    def _manner(self, attempt: Attempt, how_often: float) -> str:
        """The manner of an attempt, or now and then another one."""
        return self.manners[int(self.random() * len(self.manners))] if self.random() < how_often else attempt.manner

    def _justified(self, attempt: Attempt) -> list[int]:
        """The order in which a construction from the end, the last first, would have it."""
        ranking = by_start(self.backwards, turned(self.net.problem, attempt.starts))
        starts = constructed(self.backwards, ranking, attempt.manner, self.backward_pins)
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


def constructed(
    net: Network, ranking: list[int], manner: str, pins: Pins | None = None, not_before: Anchors | None = None
) -> Starts:
    """One construction in this manner; in time order where an earlier order asks for one by one and it cannot be."""
    if MANNERS[manner].one_by_one and can_go_one_by_one(net):
        return OneByOne(net, ranking, pins.starts if pins else None).run()
    return Construction(net, ranking, MANNERS[manner], pins, not_before).run()
