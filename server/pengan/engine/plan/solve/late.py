"""Chains that should run as late as they can: solved on the mirrored night, then pinned for all the others."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from ..network import Network
from ..problem import Chain
from .kept_order import LATE, read, written
from .mirror import mirrored, turned_row
from .pins import Pins
from .search import Earlier, Progress, Search

Row = Sequence[int]


@dataclass(frozen=True, slots=True)
class Late:
    """`pins`: the starts of each late chain that fits whole; the others are planned with the rest of the night."""

    pins: Mapping[int, Row]
    order: tuple[str, ...]
    spent: int


def place_late(
    net: Network, fixed: Mapping[int, Row], effort: int, order: Sequence[str] | None, told: Progress
) -> Late:
    """Place the late chains alone, the fixed ones in their places, counting back from the night's end."""
    group = [index for index, chain in enumerate(net.chains) if chain.late or index in fixed]
    if all(index in fixed for index in group):
        return Late({}, (), 0)
    problem = mirrored(replace(net.problem, chains=tuple(_as_fixed(net, index, fixed) for index in group)))
    turned_net = Network(problem, mirrored=True)
    rows = {place: turned_row(net.problem, net.chains[c], fixed[c]) for place, c in enumerate(group) if c in fixed}
    search = Search(turned_net, Pins(turned_net, rows) if rows else None, effort, told)
    best = search.follow(Earlier(read(LATE, turned_net, order)))
    placed = {
        group[place]: turned_row(problem, chain, row)
        for place, (chain, row) in enumerate(zip(problem.chains, best.starts, strict=True))
        if len(row) == len(chain.cycles) and group[place] not in fixed
    }
    return Late(_whole_orders(net, placed), written(LATE, turned_net, best.ranking, best.manner), search.spent)


def _as_fixed(net: Network, index: int, fixed: Mapping[int, Row]) -> Chain:
    """A chain as the late ones meet it: of a fixed one only the cycles whose starts are fixed."""
    chain = net.chains[index]
    return replace(chain, cycles=chain.cycles[: len(fixed[index])]) if index in fixed else chain


def _whole_orders(net: Network, placed: Mapping[int, Row]) -> dict[int, Row]:
    """Without the programs of a listed order of which a chain is missing: their order would not hold."""
    broken = {
        chain.program
        for index, chain in enumerate(net.chains)
        if chain.late and index not in placed and net.problem.programs[chain.program].ordered
    }
    return {index: row for index, row in placed.items() if net.chains[index].program not in broken}
