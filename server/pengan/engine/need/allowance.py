"""A landscape's water allowance by published ordinance, and what its hydrozones are estimated to use.

Sources: California Code of Regulations, title 23, chapter 2.7, Model Water Efficient Landscape Ordinance (MWELO),
sections 491-492.4 and appendix B, in its texts of 2009 and 2015; US EPA WaterSense water budget approach (from memory,
but for its 70 percent). Whether a site is bound by either is for its own authority to say.

The formulas multiply a depth, a factor and an area. With the ordinance's own inches, square feet and gallons the
factor is 0.62; with mm, m² and litres it is 1. The ordinance rounds 144/231 to 0.62, so its allowance told in litres
is about half a percent less than mm x m²: `litres_factor` keeps to the ordinance.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import fsum

GALLONS_EXACT = 144 / 231
"""US gallons in an inch on a square foot, by definition."""
GALLONS_MWELO = 0.62


@dataclass(frozen=True, slots=True)
class Ordinance:
    """An ordinance's constants. `share` is the adjustment factor (ETAF), `special_share` that of special areas.

    `rain_share` of a year's rain is taken off the reference first, where an ordinance says so.
    """

    name: str
    share: float
    special_share: float = 1.0
    factor: float = 1.0
    rain_share: float = 0.0


MWELO_HOMES = Ordinance("mwelo_2015_residential", 0.55, factor=GALLONS_MWELO)
MWELO_OTHERS = Ordinance("mwelo_2015_other", 0.45, factor=GALLONS_MWELO)
MWELO_2009 = Ordinance("mwelo_2009", 0.7, factor=GALLONS_MWELO)
MWELO_EXISTING = Ordinance("mwelo_existing", 0.8, factor=GALLONS_MWELO)
WATERSENSE = Ordinance("watersense", 0.7, factor=0.6233)
ORDINANCES = {item.name: item for item in (MWELO_HOMES, MWELO_OTHERS, MWELO_2009, MWELO_EXISTING, WATERSENSE)}


@dataclass(frozen=True, slots=True)
class Planted:
    """A hydrozone's share in the estimate: plant factor, efficiency of its irrigation, area."""

    hydrozone: str
    plant_factor: float
    efficiency: float
    area: float

    @property
    def share(self) -> float:
        """Its own adjustment factor (ETAF): plant factor over efficiency (MWELO 2015, appendix B)."""
        return self.plant_factor / self.efficiency


def litres_factor(gallons: float = GALLONS_MWELO) -> float:
    """An ordinance's factor for mm, m² and litres, given the one it prints for inches, square feet and gallons."""
    return gallons / GALLONS_EXACT


def most_allowed(
    rules: Ordinance, reference: float, area: float, special_area: float = 0.0, rain: float = 0.0
) -> float:
    """The maximum applied water allowance. `area` includes the special area (MWELO section 492.4)."""
    net = max(0.0, reference - rules.rain_share * rain)
    return net * rules.factor * (rules.share * (area - special_area) + rules.special_share * special_area)


def estimated(rules: Ordinance, reference: float, planted: Sequence[Planted], special_area: float = 0.0) -> float:
    """The estimated total water use (MWELO 2015, appendix B); with one efficiency for all it is the 2009 text's."""
    shares = fsum(one.share * one.area for one in planted)
    return reference * rules.factor * (shares + rules.special_share * special_area)


def required(
    reference: float, coefficient: float, rain: float, evenness: float, area: float, factor: float = 1.0
) -> float:
    """WaterSense's landscape water requirement of one hydrozone: (ETo KL - rain) / DU over an area (from memory)."""
    return max(0.0, reference * coefficient - rain) / evenness * area * factor


def by_month(year_total: float, reference_by_month: Sequence[float]) -> tuple[float, ...]:
    """A year's allowance spread over months as their reference is. All months alike where none is known."""
    total = fsum(reference_by_month)
    if total <= 0:
        return tuple(year_total / len(reference_by_month) for _ in reference_by_month)
    return tuple(year_total * month / total for month in reference_by_month)


@dataclass(frozen=True, slots=True)
class BudgetLine:
    """A month of a hydrozone (or of the whole site: `hydrozone` empty) in litres. `month` is `YYYY-MM`."""

    month: str
    hydrozone: str
    allowed_l: float
    planned_l: float
    used_l: float

    @property
    def left_l(self) -> float:
        """What is left; below nothing where more was used than allowed."""
        return self.allowed_l - self.used_l


def lines(
    allowed: Mapping[tuple[str, str], float],
    planned: Mapping[tuple[str, str], float],
    used: Mapping[tuple[str, str], float],
) -> tuple[BudgetLine, ...]:
    """One line for every (month, hydrozone) that any of the three knows, in order; what is not known is nothing."""
    keys = sorted({*allowed, *planned, *used})
    return tuple(
        BudgetLine(*key, allowed.get(key, 0.0), planned.get(key, 0.0), used.get(key, 0.0)) for key in keys
    )  # fmt: skip
