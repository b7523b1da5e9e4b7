"""Supplies that a rule shuts by itself: what a person wrote into the document, held against the latest readings.

Nothing is ever shut without such a rule, by one reading alone, or on the word of readings that are not fresh.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ..document.document import Document
from ..message import saying
from .before import still_in_force
from .entry import Entry, Kind
from .in_order import in_order

FRESH_S = 300
"""What a meter said longer ago says nothing of now. Common practice, no source."""
LEAST_READINGS = 2
SHUT_BY_RULE = saying(
    "shutting.by_rule",
    "{supply} is ordered shut by itself: {flow_lpm} flow, and {person} said to shut it above {limit_lpm}.",
)
SHUT_BY_SITE = saying(
    "shutting.by_site", "{supply} is ordered shut by itself: {flow_lpm} flow, and the site's rule allows {limit_lpm}."
)


@dataclass(frozen=True, slots=True)
class ToShut:
    """A supply that its rule shuts now. `since` is the first of the readings above the limit."""

    supply: str
    flow_lpm: float
    limit_lpm: float
    since: int


def looks_back_s(document: Document) -> int:
    """From how long ago readings are needed; 0: there is no such rule."""
    rules = [one.shut_after_s for one in document.supplies.values() if one.shut_above_lpm is not None]
    return max(rules) + 2 * FRESH_S if rules else 0


def to_shut(document: Document, readings: Iterable[Entry], outages: Iterable[Entry], now: int) -> list[ToShut]:
    """What is to be shut now, given the readings of a while and what was told of shut supplies.

    A supply that is shut already is not shut again before somebody says that it is free.
    """
    shut = {one.supply for one in still_in_force(outages) if one.kind is Kind.SHUT}
    told = in_order(one for one in readings if one.kind is Kind.FLOW and one.at <= now)
    found = []
    for id, supply in sorted(document.supplies.items()):
        if supply.shut_above_lpm is None or id in shut:
            continue
        above = _above([one for one in told if one.supply == id], supply.shut_above_lpm)
        if _is_sure(above, supply.shut_after_s, now):
            found.append(ToShut(id, above[-1].flow_lpm or 0.0, supply.shut_above_lpm, above[0].at))
    return found


def _is_sure(above: Sequence[Entry], after_s: int, now: int) -> bool:
    enough = len(above) >= LEAST_READINGS and above[-1].at - above[0].at >= after_s
    return enough and now - above[-1].at <= FRESH_S


def _above(readings: Sequence[Entry], limit: float) -> list[Entry]:
    """The latest readings that are all above the limit, with no gap among them longer than a reading is fresh."""
    out: list[Entry] = []
    for one in reversed(readings):
        if (one.flow_lpm or 0.0) <= limit or (out and out[-1].at - one.at > FRESH_S):
            break
        out.append(one)
    return out[::-1]
