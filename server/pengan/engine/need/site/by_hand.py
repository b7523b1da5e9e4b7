"""What run times set by hand bring a hydrozone on a night, as if each of its programs ran whole."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date

from ...document.document import Document
from ...document.tables import Station, Turn
from ..days import Inflow
from ..minutes import inflow, over_hydrozone
from ..rates import Rate
from ..tonight import Planting
from .due import Allowed, allowed


def by_hand(document: Document, planting: Planting, stations: Sequence[Station]) -> Callable[[date], Inflow]:
    """The mean over the hydrozone's stations with a rate, for any night. Depths as the days of a balance have them."""
    turns = {station.id: list(_dated(document, station.id)) for station in stations}

    def of_station(rate: Rate, night: date) -> Inflow:
        spans = [span for turn, due in turns[rate.station] if due(night) for span in _spans(document, turn)]
        return inflow(spans, rate, planting.intake, planting.multiplier_rule)

    return lambda night: over_hydrozone([(of_station(rate, night), 1.0) for rate in planting.rates])


def _dated(document: Document, station: str) -> Iterator[tuple[Turn, Allowed]]:
    for turn in document.turns.values():
        if turn.station == station:
            yield turn, allowed([document.programs[turn.program]])


def _spans(document: Document, turn: Turn) -> Iterator[tuple[float, float]]:
    """The turn's cycles with their soak between them, in seconds from the first one's start."""
    share = document.programs[turn.program].seasonal_pct * document.site.seasonal_pct / 10_000
    length, step = turn.run_s * share / turn.cycles, turn.soak_s
    for number in range(turn.cycles):
        start = number * (length + step)
        yield start, start + length
