"""Published starting values by kind of planting: coefficients, root depths, depletion fractions, factor ranges.

Sources: FAO Irrigation and Drainage Paper 56, tables 12 and 22 (coefficients for a least humidity of 45 % and 2 m/s);
Costello, Matheny & Clark (2000) for the ranges of the landscape coefficient (from memory, but for three species ranges
that were seen); ANSI/ASABE S623.1 (2017), table 1, for plant factors (from memory). What a site knows of its own
plants goes before them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Plant:
    """Table values of one kind: coefficients at the season's start, middle and end; roots (m); depletion fraction."""

    initial: float
    middle: float
    end: float
    roots_m: tuple[float, float] | None = None
    fraction: float | None = None


PLANTS: Mapping[str, Plant] = MappingProxyType(
    {
        "turf_cool_season": Plant(0.90, 0.95, 0.95, (0.5, 1.0), 0.40),
        "turf_warm_season": Plant(0.80, 0.85, 0.85, (0.5, 1.0), 0.50),
        "rye_grass_hay": Plant(0.95, 1.05, 1.00, (0.6, 1.0), 0.60),
        "bermuda_hay": Plant(0.55, 1.00, 0.85, (1.0, 1.5), 0.55),
        "grazing_pasture": Plant(0.30, 0.75, 0.75, (0.5, 1.5), 0.60),
        "palm_trees": Plant(0.95, 1.00, 1.00, (0.7, 1.1), 0.65),
        "conifer_trees": Plant(1.00, 1.00, 1.00, (1.0, 1.5), 0.70),
        "berries_bushes": Plant(0.30, 1.05, 0.50, (0.6, 1.2), 0.50),
        "olives": Plant(0.65, 0.70, 0.70, (1.2, 1.7), 0.65),
    }
)

SPECIES_RANGES: Mapping[str, tuple[float, float]] = MappingProxyType(
    {"very_low": (0.0, 0.1), "low": (0.1, 0.3), "moderate": (0.4, 0.6), "high": (0.7, 0.9)}
)
DENSITY_RANGES: Mapping[str, tuple[float, float]] = MappingProxyType(
    {"low": (0.5, 0.9), "average": (1.0, 1.0), "high": (1.1, 1.3)}
)
MICROCLIMATE_RANGES: Mapping[str, tuple[float, float]] = MappingProxyType(
    {"low": (0.5, 0.9), "average": (1.0, 1.0), "high": (1.1, 1.4)}
)
PLANT_FACTORS: Mapping[str, float] = MappingProxyType(
    {
        "turf_cool_season": 0.8,
        "turf_warm_season": 0.6,
        "annual_flowers": 0.8,
        "woody_and_herbaceous_perennials_wet": 0.7,
        "woody_and_herbaceous_perennials_dry": 0.5,
        "desert_plants": 0.3,
    }
)
