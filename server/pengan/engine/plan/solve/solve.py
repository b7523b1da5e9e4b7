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
from .search import Anchors, Earlier, Progress, Search

LEAST_EFFORT, MOST_EFFORT = 16, 5_000
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
    up only for more water or a clearly earlier end. `on_construction` is told the constructions spent so far.
    """
    net = Network(problem)
    rows: list[Row] = [()] * len(net.chains)
    order: list[str] = []
    spent = 0
    parts = independent(net)
    for group in parts:
        part = replace(problem, chains=tuple(net.chains[c] for c in group))
        plan = _solve_part(part, effort, before, _after(spent, len(parts), on_construction))
        order.extend(plan.order)
        spent += plan.constructions // len(parts)
        for c, row in zip(group, plan.starts, strict=True):
            rows[c] = row
    return Plan(tuple(rows), tuple(order), spent)


def _after(spent: int, parts: int, on_construction: Progress | None) -> Progress:
    """Progress of one part told as progress of the whole."""
    return lambda count: on_construction(spent + count // parts) if on_construction else None


def _solve_part(problem: Problem, effort: int, before: Before | None, told: Progress) -> Plan:
    net = Network(problem)
    rows: dict[int, Sequence[int]] = {**fixed_rows(net)}
    order = before.order if before else None
    only_late = all(chain.late or index in rows for index, chain in enumerate(net.chains))
    late = place_late(net, rows, effort if only_late else effort // 2, order, told)
    rows.update(late.pins)
    effort = 1 if len(rows) == len(net.chains) else effort - late.spent
    search = Search(net, Pins(net, rows) if rows else None, effort, lambda spent: told(late.spent + spent))
    anchors = _anchors(net, before.starts) if before and before.starts else None
    best = search.follow(Earlier(read(REST, net, order), anchors))
    return Plan(
        starts=tuple(
            (*row, *[None] * (len(chain.cycles) - len(row))) for row, chain in zip(best.starts, net.chains, strict=True)
        ),
        order=(*late.order, *written(REST, net, best.ranking, best.manner)),
        constructions=late.spent + search.spent,
    )


def _anchors(net: Network, starts: Mapping[str, Sequence[int | None]]) -> Anchors:
    """The earlier starts for today's chains; where a chain has more cycles than it had, they are free."""
    rows = []
    for chain in net.chains:
        known = tuple(starts.get(chain.key, ()))[: len(chain.cycles)]
        rows.append((*known, *[None] * (len(chain.cycles) - len(known))))
    return rows
