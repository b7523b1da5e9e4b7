"""One night solved: what is fixed first, then what should be late, then all the rest around it."""

from __future__ import annotations

from collections.abc import Sequence
from math import isqrt

from ..bound import bound
from ..problem import Plan, Problem
from .kept_order import REST, read, written
from .late import place_late
from .network import Network
from .pins import Pins, fixed_rows
from .search import Progress, Search

MOST_EFFORT, EFFORT_ROOT, EFFORT_CYCLES, LEAST_EFFORT = 600, 7_400, 650_000, 16


def default_effort(problem: Problem) -> int:
    """Constructions that give a good sheet: natively about 1 s for 50 stations and 10 s for 5,000."""
    cycles = max(1, sum(len(chain.cycles) for chain in problem.chains))
    return max(LEAST_EFFORT, min(MOST_EFFORT, EFFORT_ROOT // isqrt(cycles), EFFORT_CYCLES // cycles))


def solve(
    problem: Problem,
    effort: int,
    start_from: Sequence[str] | None = None,
    on_construction: Progress | None = None,
) -> Plan:
    """The best plan that about `effort` constructions find; where there are late chains, half of it goes to them.

    `start_from` is an earlier plan's `order`: the first construction follows it, and its result is given up only
    for more water or a clearly earlier end. `on_construction` is told the constructions spent so far.
    """
    told = on_construction or (lambda spent: None)
    net = Network(problem)
    rows: dict[int, Sequence[int]] = {**fixed_rows(net)}
    only_late = all(chain.late or index in rows for index, chain in enumerate(net.chains))
    late = place_late(net, rows, effort if only_late else effort // 2, start_from, told)
    rows.update(late.pins)
    search = Search(net, bound(problem).at, Pins(net, rows) if rows else None, lambda spent: told(late.spent + spent))
    best = search.follow(read(REST, net, start_from), 1 if len(rows) == len(net.chains) else effort - late.spent)
    return Plan(
        starts=tuple(
            (*row, *[None] * (len(chain.cycles) - len(row))) for row, chain in zip(best.starts, net.chains, strict=True)
        ),
        order=(*late.order, *written(REST, net, best.ranking, best.manner)),
        constructions=late.spent + search.spent,
    )
