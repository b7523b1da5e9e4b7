"""The search: many constructions, the best one kept. Effort is counted in constructions, never in seconds.

First several orders in several manners; then the *squeaky wheel* (D. E. Joslin and D. P. Clements, "Squeaky wheel
optimization", JAIR 10, 1999): what ended too late or was left out comes earlier in the next order; now and then
the night is also justified backwards and forwards again (V. Valls, F. Ballestín and S. Quintanilla,
"Justification and RCPSP: a technique that pays", EJOR 165, 2005).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from random import Random

from .construct import Construction
from .manner import MANNERS, manners_for
from .mirror import mirrored, turned, turned_row
from .network import Network
from .orders import by_start, first_orders, orders_by_rank
from .pins import Pins
from .score import Score, Starts, score, unrest

Progress = Callable[[int], None]

PATIENCE = 12
"""Constructions without a gain after which the search goes back to the best one."""
WORTH_MOVING_S = 300
"""A night that follows an earlier order is given up only for one that ends sooner by more than this, or brings more."""
NEW_MANNER, JUSTIFY = 0.3, 0.3
"""How often another manner is drawn, and how often a construction is justified."""


@dataclass(frozen=True, slots=True)
class Attempt:
    """One construction: what it was made from and what came of it."""

    ranking: list[int]
    manner: str
    starts: Starts
    score: Score


class Search:
    """Looks for the best construction of one network; `spent` counts what it took so far."""

    def __init__(self, net: Network, target: int, pins: Pins | None, on_construction: Progress) -> None:
        """`target`: when the night could end at the soonest; the search stops there. Pinned chains stay as they are."""
        self.net = net
        self.target = target
        self.pins = pins
        self.on_construction = on_construction
        self.spent = 0
        self.random = Random(len(net.chains)).random
        self.manners = manners_for(net.problem)
        self.backwards = Network(mirrored(net.problem), mirrored=not net.mirrored)
        self.backward_pins = self._turned_pins(pins) if pins else None

    def _turned_pins(self, pins: Pins) -> Pins:
        problem = self.net.problem
        return Pins(self.backwards, {c: turned_row(problem, self.net.chains[c], row) for c, row in pins.starts.items()})

    def construct(self, ranking: list[int], manner: str) -> Attempt:
        """One construction, counted."""
        starts = Construction(self.net, ranking, MANNERS[manner], self.pins).run()
        self._count()
        return Attempt(ranking, manner, starts, score(self.net, starts))

    def follow(self, earlier: tuple[list[int], str] | None, effort: int) -> Attempt:
        """The best of `effort` constructions, at least one; the earlier order's unless another is clearly better."""
        if earlier is None:
            return self.improve(self.first_round(effort), effort)
        kept = self.construct(*earlier)
        best = self.improve(self._better(kept, self.first_round(effort)), effort) if self.spent < effort else kept
        return best if self._clearly_better(best, kept) else kept

    @staticmethod
    def _clearly_better(best: Attempt, kept: Attempt) -> bool:
        return best.score[0] < kept.score[0] or best.score[1] < kept.score[1] - WORTH_MOVING_S

    def first_round(self, effort: int) -> Attempt:
        """The best of a few usual orders in every manner; by rank too where not all fits."""
        best = None
        for ranking, manner in self._usual():
            if best and (self.spent >= effort or self._perfect(best)):
                break
            best = self._better(best, self.construct(ranking, manner))
        assert best is not None
        for ranking in orders_by_rank(self.net) if any(best.score[0]) else ():
            for manner in self.manners[:3]:
                if self.spent < effort:
                    best = self._better(best, self.construct(ranking, manner))
        return best

    def _usual(self) -> Iterator[tuple[list[int], str]]:
        orders = list(first_orders(self.net))
        return ((ranking, manner) for manner in self.manners for ranking in orders)

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
        if self.random() < JUSTIFY and self.spent + 2 <= effort:
            justified = self.construct(self._justified(raised), manner)
            return min(raised, justified, key=lambda attempt: attempt.score)
        return raised

    def _raised(self, attempt: Attempt) -> list[int]:
        """The ranking with cycles that ended after the target, or were left out, moved forward by some random part."""
        reach = len(attempt.ranking) * (0.1 + 0.9 * self.random())
        mentioned = [0] * len(self.net.chains)
        entries = []
        for place, chain in enumerate(attempt.ranking):
            cycle, row = mentioned[chain], attempt.starts[chain]
            mentioned[chain] += 1
            squeaks = cycle >= len(row) or row[cycle] + self.net.chains[chain].cycles[cycle] > self.target
            entries.append((place - reach * self.random() if squeaks else place, place, chain))
        entries.sort()
        return [chain for _, _, chain in entries]

    def _justified(self, attempt: Attempt) -> list[int]:
        """The order in which a construction from the end, the last first, would have it."""
        ranking = by_start(self.backwards, turned(self.net.problem, attempt.starts))
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
