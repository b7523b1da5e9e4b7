"""Manners of construction: how the next of several waiting cycles is chosen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from ..network import Network

MOST_ONE_BY_ONE = 6_000
"""Above so many cycles one construction one by one takes as long as many in time order."""
MOST_FILLED, FINEST_FILLED = 60, 4_000
"""Above so many cycles, or units of flow in a source, the best filling takes too long to find."""


@dataclass(frozen=True, slots=True)
class Manner:
    """How a construction chooses among waiting cycles.

    `hold`: the share of a source, in hundredths, kept free for the best-ranked cycle when it lacks no more than that.
    `snug`: the last to start at a moment is the one that fills what is left best.
    `backfill`: nothing may start that puts off the best-ranked waiting cycle.
    `steady`: a source gives no more than the flow it should hold.
    `filled`: at each moment those start that together fill what is left best.
    `one_by_one`: cycles are placed by rank at any time of the night, not in time order.
    """

    hold: int = 0
    snug: bool = False
    backfill: bool = False
    steady: bool = False
    one_by_one: bool = False
    filled: bool = False


MANNERS: Mapping[str, Manner] = MappingProxyType(
    {
        "~snug": Manner(snug=True),
        "~filled": Manner(filled=True),
        "~one-by-one": Manner(one_by_one=True),
        "~plain": Manner(),
        "~backfill": Manner(backfill=True),
        "~backfill-snug": Manner(backfill=True, snug=True),
        "~hold-2-snug": Manner(hold=2, snug=True),
        "~hold-5": Manner(hold=5),
        "~hold-10": Manner(hold=10),
        "~hold-10-snug": Manner(hold=10, snug=True),
        "~steady": Manner(snug=True, steady=True),
        "~steady-backfill": Manner(backfill=True, steady=True),
    }
)
"""By name. In a plan's `order` the name, known by its `~`, stands before the chains constructed in this manner."""


def manners_for(net: Network) -> list[str]:
    """The manners worth trying: those that hold a steady flow only where a source has one; no slow ones for many."""
    steady = any(node.parent is None and node.steady for node in net.problem.supplies)
    cycles = sum(len(chain.cycles) for chain in net.chains)
    one_by_one = cycles <= MOST_ONE_BY_ONE and can_go_one_by_one(net)
    filled = cycles <= MOST_FILLED and max(net.room[s] // net.grain[s] for s in range(net.sources)) <= FINEST_FILLED
    return [
        name
        for name, manner in MANNERS.items()
        if (steady or not manner.steady) and (one_by_one or not manner.one_by_one) and (filled or not manner.filled)
    ]


def can_go_one_by_one(net: Network) -> bool:
    """Whether cycles can be placed one by one: on a mirrored night a listed order binds ends, which are not known."""
    return not net.mirrored or all(leader is None for leader in net.leader)
