"""What lies in the ground: which supply feeds which, and how each valve and station truly is."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from pengan.engine.document.document import Document
from pengan.engine.plan.sheet import NightSheet

from .nature import Nature
from .troubles import Drift, Trouble

DAY_S = 86_400
LEAST_SHARE = 0.3
"""No station's true flow is less than this share of the document's."""


@dataclass(frozen=True, slots=True)
class Valve:
    """A station as it truly is; the same one for the same seed in every night but for drift."""

    flow_lpm: float
    opening_s: int
    closing_s: int
    fill: float
    settle_s: float


class Ground:
    """One night of the field: seconds count from the sheet's start.

    Raises `KeyError` for a trouble with a station, a supply or a controller that the document has not.
    """

    def __init__(
        self, document: Document, sheet: NightSheet, seed: int, troubles: tuple[Trouble, ...], nature: Nature
    ) -> None:
        self.document, self.sheet, self.seed, self.nature = document, sheet, seed, nature
        self.troubles = tuple(_known(document, trouble) for trouble in troubles)
        self.length = max(0, sheet.ends - sheet.starts)
        self.paths = {supply: _path(document, supply) for supply in document.supplies}
        self.valves = {station: self._valve(station) for station in document.stations}
        self.capacities = self._capacities()

    def random(self, *words: str) -> Random:
        """Chance of its own for each thing, so that one trouble more changes nothing elsewhere."""
        return Random("/".join((str(self.seed), *words)))

    def second(self, instant: int) -> int:
        """An instant as a second of the night."""
        return instant - self.sheet.starts

    def _valve(self, station: str) -> Valve:
        nature, chance = self.nature, self.random("valve", station)
        own = max(LEAST_SHARE, chance.gauss(1, nature.off_pct / 100))
        return Valve(
            flow_lpm=self.document.stations[station].flow_lpm * own * self._drifted(station),
            opening_s=chance.randint(1, max(1, nature.opening_s)),
            closing_s=chance.randint(2, max(2, nature.closing_s)),
            fill=nature.fill_pct / 100 * chance.uniform(0.6, 1.4),
            settle_s=nature.settle_s * chance.uniform(0.6, 1.4),
        )

    def _drifted(self, station: str) -> float:
        """The factor by which drift has changed a station's flow; whole nights count."""
        share = 1.0
        for trouble in self.troubles:
            if isinstance(trouble, Drift) and trouble.station == station:
                last = min(trouble.ended, self.sheet.ends) - 1
                nights = max(0, (last - trouble.at) // DAY_S)
                share += trouble.pct_a_night / 100 * nights
        return max(0.0, share)

    def _capacities(self) -> dict[str, float]:
        """What each pipe is made for: its limit, or the most that the sheet asks of it."""
        peaks = {draw.supply: draw.peak_lpm for draw in self.sheet.draws}
        supplies = self.document.supplies.values()
        return {supply.id: supply.limit_lpm or peaks.get(supply.id) or 0.0 for supply in supplies}


def _path(document: Document, supply: str) -> tuple[str, ...]:
    """A supply and everything that feeds it, its source last."""
    nodes = [supply]
    while (above := document.supplies[nodes[-1]].fed_by) is not None:
        nodes.append(above)
    return tuple(nodes)


def _known(document: Document, trouble: Trouble) -> Trouble:
    for field, records in (
        ("station", document.stations),
        ("supply", document.supplies),
        ("controller", document.controllers),
    ):
        named = getattr(trouble, field, None)
        if named is not None and named not in records:
            raise KeyError(f"{field} {named}")
    return trouble
