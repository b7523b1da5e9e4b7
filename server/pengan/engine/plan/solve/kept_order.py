"""A plan's `order`: how it was constructed, in a form that still means something after the site was edited.

It is one list of texts: a part's name (`~late`, `~rest`), the name of its manner, then the key of a chain for each
cycle, best first. Chain keys never begin with `~`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise

from ..network import Network
from .manner import MANNERS
from .orders import first_orders

LATE, REST = "~late", "~rest"


def written(part: str, net: Network, ranking: Sequence[int], manner: str) -> tuple[str, ...]:
    """One part of an order."""
    return (part, manner, *(net.chains[chain].key for chain in ranking))


def read(part: str, net: Network, order: Sequence[str] | None) -> tuple[list[int], str] | None:
    """The ranking and manner that this part of an earlier order means for today's chains; None if it has no such part.

    Chains that are gone are passed over. New cycles of a known chain follow its last one. A new chain comes as far
    forward as it would in a usual order.
    """
    known = {chain.key for chain in net.chains}
    parts = [(manner, [key for key in keys if key in known]) for manner, keys in _parts(part, order or ())]
    if not parts:
        return None
    manner = max(parts, key=lambda entry: len(entry[1]))[0]
    return (_ranking(net, [key for _, keys in parts for key in keys]), manner) if manner in MANNERS else None


def _parts(part: str, order: Sequence[str]) -> Iterator[tuple[str, Sequence[str]]]:
    """The manner and keys of each stretch of the order with this name."""
    begins = [place for place, key in enumerate(order) if key in (LATE, REST)]
    for begin, end in pairwise([*begins, len(order)]):
        if order[begin] == part and end > begin + 1:
            yield order[begin + 1], order[begin + 2 : end]


def _ranking(net: Network, keys: Sequence[str]) -> list[int]:
    number = {chain.key: index for index, chain in enumerate(net.chains)}
    left = Counter({index: len(chain.cycles) for index, chain in enumerate(net.chains)})
    entries: list[tuple[float, int, int]] = []
    last: dict[int, float] = {}
    for place, key in enumerate(keys):
        chain = number.get(key)
        if chain is not None and left[chain]:
            left[chain] -= 1
            last[chain] = place
            entries.append((place, 0, chain))
    entries.extend(_new_cycles(net, left, last, len(keys)))
    entries.sort()
    return [chain for _, _, chain in entries]


def _new_cycles(
    net: Network, left: Counter[int], last: dict[int, float], length: int
) -> Iterator[tuple[float, int, int]]:
    """Where cycles stand that the earlier order does not mention."""
    usual = next(first_orders(net))
    for place, chain in enumerate(usual):
        if left[chain]:
            left[chain] -= 1
            yield last.get(chain, place * length / len(usual)), 1, chain
