"""One night solved, part by part: what is fixed first, then what should be late, then all the rest around it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from math import isqrt

from ..network import Network
from ..problem import Plan, Problem
from .kept_order import REST, read, written
from .late import place_late
from .parts import independent
from .pins import Pins, fixed_rows
from .search import Anchors, Attempt, Earlier, Progress, Search

LEAST_EFFORT, MOST_EFFORT = 16, 5_000
MOVED_S = 600
"""A run that starts more than ten minutes earlier or later has moved."""
Row = tuple[int | None, ...]


def default_effort(problem: Problem) -> int:
    """Constructions that give a good sheet: natively about 1 s for 50 stations and 10 s for 5,000."""
    cycles = max(1, sum(len(chain.cycles) for chain in problem.chains))
    few, many = max(80_000 // cycles, 6_000_000 // cycles**2), min(6_000 // isqrt(cycles), 220_000 // cycles)
    return max(LEAST_EFFORT, min(MOST_EFFORT, max(few, many)))


@dataclass(frozen=True, slots=True)
class Before:
    """An earlier plan of the same night: its `order`, and the starts of each chain's cycles by the chain's key."""

    order: Sequence[str]
    starts: Mapping[str, Sequence[int | None]] = field(default_factory=dict)


def solve(
    problem: Problem,
    effort: int,
    before: Before | None = None,
    on_construction: Progress | None = None,
) -> Plan:
    """The best plan that about `effort` constructions find.

    Each independent part of the night gets that many constructions of its own; where a part has late chains, half of
    it goes to them. With `before` the first constructions keep the earlier starts and the earlier order, and are given
    up only for more water or a clearly earlier end of the whole night. `on_construction` is told the constructions
    spent so far.
    """
    net = Network(problem)
    rows: list[Row] = [()] * len(net.chains)
    spent = 0
    groups = independent(net)
    parts: list[_Part] = []
    for group in groups:
        part = replace(problem, chains=tuple(net.chains[c] for c in group))
        parts.append(_solve_part(part, effort, before, _after(spent, len(groups), on_construction)))
        spent += parts[-1].spent // len(groups)
    latest = max((part.found.end for part in parts), default=0)
    attempts = [part.calmest(latest) for part in parts]
    order: list[str] = []
    for group, one, attempt in zip(groups, parts, attempts, strict=True):
        order.extend(one.order(attempt))
        for c, row in zip(group, one.rows(attempt), strict=True):
            rows[c] = row
    return Plan(tuple(rows), tuple(order), spent)


def _after(spent: int, parts: int, on_construction: Progress | None) -> Progress:
    """Progress of one part told as progress of the whole."""
    return lambda count: on_construction(spent + count // parts) if on_construction else None


@dataclass(frozen=True, slots=True)
class _Part:
    """What was found for one part of the night, and what keeps the earlier starts as far as that can be."""

    net: Network
    late_order: Sequence[str]
    found: Attempt
    kept: Attempt | None
    anchors: Anchors
    spent: int

    def calmest(self, latest: int) -> Attempt:
        """What moves the fewest runs, with as much water for each rank, and no later than the night ends anyway."""
        kept, found = self.kept, self.found
        if kept is None or kept.short > found.short or kept.end > latest:
            return found
        return kept if self._moved(kept) < self._moved(found) else found

    def _moved(self, attempt: Attempt) -> int:
        pairs = zip(self.anchors, attempt.starts, strict=True)
        known = ((old, new) for olds, news in pairs for old, new in zip(olds, news, strict=False) if old is not None)
        return sum(abs(new - old) > MOVED_S for old, new in known)

    def rows(self, attempt: Attempt) -> list[Row]:
        rows = zip(attempt.starts, self.net.chains, strict=True)
        return [(*row, *[None] * (len(chain.cycles) - len(row))) for row, chain in rows]

    def order(self, attempt: Attempt) -> tuple[str, ...]:
        return (*self.late_order, *written(REST, self.net, attempt.ranking, attempt.manner))


def _solve_part(problem: Problem, effort: int, before: Before | None, told: Progress) -> _Part:
    net = Network(problem)
    rows: dict[int, Sequence[int]] = {**fixed_rows(net)}
    order = before.order if before else None
    only_late = all(chain.late or index in rows for index, chain in enumerate(net.chains))
    late = place_late(net, rows, effort if only_late else effort // 2, order, told)
    rows.update(late.pins)
    effort = 1 if len(rows) == len(net.chains) else effort - late.spent
    search = Search(net, Pins(net, rows) if rows else None, effort, lambda spent: told(late.spent + spent))
    anchors = _anchors(net, before.starts) if before and before.starts else None
    found = search.follow(Earlier(read(REST, net, order), anchors))
    return _Part(net, late.order, found, search.kept, anchors or (), late.spent + search.spent)


def _anchors(net: Network, starts: Mapping[str, Sequence[int | None]]) -> Anchors:
    """The earlier starts for today's chains; where a chain has more cycles than it had, they are free."""
    rows = []
    for chain in net.chains:
        known = tuple(starts.get(chain.key, ()))[: len(chain.cycles)]
        rows.append((*known, *[None] * (len(chain.cycles) - len(known))))
    return rows
