"""What the sheet still plans stays where it is; what was missed goes where there is room, one cycle after the other."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from ..plan.network import Network
from ..plan.problem import Chain, Plan, Problem
from ..plan.solve.one_by_one import OneByOne
from .ahead import Ahead, composed
from .left import Left, Row

Key = Callable[[Chain, int], tuple[int, ...]]
"""From a chain and the seconds of one of its cycles to its place; less is earlier."""

ORDERS: tuple[Key, ...] = (
    lambda chain, seconds: (chain.rank, -chain.flow * seconds),
    lambda chain, seconds: (chain.rank, -seconds),
    lambda chain, seconds: (chain.rank, -chain.flow),
    lambda chain, seconds: (chain.rank, seconds),
)


def filled(left: Left, clock: Ahead, orders: int) -> Iterator[Ahead]:
    """One construction for each of the first orders, around what keeping to the clock keeps."""
    chosen, problem, plan = composed(left, clock.rows, clock.missing)
    net, first = Network(problem), len(problem.chains) - len(chosen)
    rows = (tuple(start for start in row if start is not None) for row in plan.starts)
    pinned = {number: row for number, row in enumerate(rows) if row}
    barred = _barred(left, clock)
    late = [
        (number, cycle)
        for number, c in enumerate(chosen, first)
        for cycle in range(len(pinned.get(number, ())), len(problem.chains[number].cycles))
        if c not in barred
    ]
    for key in ORDERS[:orders]:
        ranking = [number for number, row in pinned.items() for _ in row] + _ranked(problem, late, key)
        yield _read(left, chosen, problem, OneByOne(net, ranking, pinned).run())


def _ranked(problem: Problem, late: Sequence[tuple[int, int]], key: Key) -> list[int]:
    """Chain numbers for these cycles, in order of the key."""
    placed = sorted((key(problem.chains[c], problem.chains[c].cycles[cycle]), c, cycle) for c, cycle in late)
    return [c for _, c, _ in placed]


def _read(left: Left, chosen: Sequence[int], problem: Problem, starts: Sequence[Sequence[int]]) -> Ahead:
    """A construction, as runs of the night's chains."""
    rows: dict[int, Row] = {}
    missing: list[tuple[int, ...]] = [()] * len(left.chains)
    for number, c in enumerate(chosen, len(problem.chains) - len(chosen)):
        cycles, row = problem.chains[number].cycles, starts[number]
        rows[c], missing[c] = tuple(zip(row, cycles, strict=False)), cycles[len(row) :]
    pairs = zip(starts, problem.chains, strict=True)
    plan = tuple((*row, *[None] * (len(chain.cycles) - len(row))) for row, chain in pairs)
    return Ahead(rows, missing, False, problem, Plan(plan, left.before.order, 0))


def _barred(left: Left, clock: Ahead) -> set[int]:
    """Turns of listed programs that have not begun, while a turn listed below keeps its place: it would come first."""
    below: set[int] = set()
    barred: set[int] = set()
    for c in reversed(range(len(left.chains))):
        program = left.chains[c].program
        if not left.built.problem.programs[program].ordered or left.turns[c].begun:
            continue
        if clock.rows.get(c):
            below.add(program)
        elif program in below:
            barred.add(c)
    return barred
