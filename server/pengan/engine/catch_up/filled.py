"""What the sheet still plans stays where it is; what was missed goes where there is room, one cycle after the other."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from ..plan.network import Network
from ..plan.problem import Chain, Plan, Problem
from ..plan.solve.one_by_one import OneByOne
from .ahead import Ahead, composed
from .left import Left, Row

Key = Callable[[Chain, int, bool], tuple[int, ...]]
"""From a chain, the seconds of one of its cycles and whether it is needy to its place; less is earlier."""

ORDERS: tuple[Key, ...] = (
    lambda chain, seconds, needy: (chain.rank, not needy, -chain.flow * seconds),
    lambda chain, seconds, _needy: (chain.rank, -chain.flow * seconds),
    lambda chain, seconds, _needy: (chain.rank, -seconds),
    lambda chain, seconds, _needy: (chain.rank, seconds),
)


def filled(left: Left, clock: Ahead, orders: int) -> Iterator[Ahead]:
    """One construction for each of the first orders, around what keeping to the clock keeps."""
    chosen, problem, plan = composed(left, clock.rows, clock.missing)
    net, first = Network(problem), len(problem.chains) - len(chosen)
    rows = (tuple(start for start in row if start is not None) for row in plan.starts)
    pinned = {number: row for number, row in enumerate(rows) if row}
    barred = _barred(left, clock)
    late = [
        _Late(number, problem.chains[number], cycle, left.needy(c))
        for number, c in enumerate(chosen, first)
        for cycle in range(len(pinned.get(number, ())), len(problem.chains[number].cycles))
        if c not in barred
    ]
    for key in ORDERS[:orders]:
        wanted = sorted(late, key=lambda one, key=key: (one.place(key), one.number, one.cycle))  # type: ignore[misc]
        ranking = [number for number, row in pinned.items() for _ in row] + [one.number for one in wanted]
        yield _read(left, chosen, problem, OneByOne(net, ranking, pinned).run())


@dataclass(frozen=True, slots=True)
class _Late:
    """A missed cycle, and the number of its chain in the problem."""

    number: int
    chain: Chain
    cycle: int
    needy: bool

    def place(self, key: Key) -> tuple[int, ...]:
        return key(self.chain, self.chain.cycles[self.cycle], self.needy)


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
