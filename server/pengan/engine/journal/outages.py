"""When there was no power, no water or no permission, as the journal tells it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from ..document.document import Document
from ..plan.problem import Span
from ..plan.spans import merged
from .entry import Entry, Kind
from .in_order import in_order

FOREVER = 1 << 40
"""The end of a span that has not ended: an instant after every other."""


@dataclass(frozen=True, slots=True)
class Outages:
    """Spans of instants, sorted and apart; one that goes on ends at `FOREVER`.

    `power` is by controller, None standing for stations without one. A supply is `shut` when it or anything that
    feeds it is. `stopped`: rain, or somebody's order, ended all watering.
    """

    power: Mapping[str | None, tuple[Span, ...]]
    shut: Mapping[str, tuple[Span, ...]]
    stopped: tuple[Span, ...]

    def of_station(self, document: Document, station: str) -> list[Span]:
        """When this station could give no water, whatever its valve was told."""
        record = document.stations[station]
        return merged([*self.power.get(record.controller, ()), *self.shut.get(record.supply, ()), *self.stopped])


def outages(document: Document, entries: Iterable[Entry]) -> Outages:
    """Read the outages from a night's entries, in any order and doubled. Entries about unknown records count nothing.

    A loss of power without a controller is the whole site's, and so is its end. Losing twice, or getting back what
    was never lost, changes nothing.
    """
    told = in_order(entries)
    own = {supply: _spans(told, Kind.SHUT, Kind.FREED, supply) for supply in document.supplies}
    return Outages(
        {cabinet: _power(told, cabinet) for cabinet in (*document.controllers, None)},
        {supply: tuple(merged(span for node in path_of(document, supply) for span in own[node])) for supply in own},
        _spans(told, Kind.STOPPED, Kind.LIFTED, None),
    )


def path_of(document: Document, supply: str) -> tuple[str, ...]:
    """The supply and everything that feeds it, its source last."""
    nodes = [supply]
    while (parent := document.supplies[nodes[-1]].fed_by) is not None:
        nodes.append(parent)
    return tuple(nodes)


def _power(told: Iterable[Entry], cabinet: str | None) -> tuple[Span, ...]:
    about = (entry for entry in told if entry.controller in (None, cabinet))
    return _folded((entry.at, entry.kind is Kind.POWER_LOST) for entry in about if entry.kind in _POWER)


def _spans(told: Iterable[Entry], begins: Kind, ends: Kind, supply: str | None) -> tuple[Span, ...]:
    about = (entry for entry in told if entry.kind in (begins, ends) and (supply is None or entry.supply == supply))
    return _folded((entry.at, entry.kind is begins) for entry in about)


def _folded(changes: Iterable[tuple[int, bool]]) -> tuple[Span, ...]:
    """From instants at which something began or ended to its spans."""
    spans, since = list[Span](), None
    for at, begins in changes:
        if begins and since is None:
            since = at
        elif not begins and since is not None:
            spans.append((since, at))
            since = None
    if since is not None:
        spans.append((since, FOREVER))
    return tuple(merged(spans))


_POWER = (Kind.POWER_LOST, Kind.POWER_BACK)
