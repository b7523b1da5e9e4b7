"""What the root zone holds, how much of it plants take with ease, and how dryness slows them.

Source: FAO Irrigation and Drainage Paper 56, chapter 8: table 19 (available water by texture), table 22 (roots and
depletion fractions), eq. 82-84, p. 162 (the fraction adjusted for demand). Depths in mm, roots in metres.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from ..message import Message, saying

LEAST_FRACTION, MOST_FRACTION = 0.1, 0.8
"""FAO-56 p. 162."""

NO_SOIL = saying(
    "need.no_soil",
    "{hydrozone} says neither its soil nor how much water that holds. Without it no water balance can be kept.",
)
NO_ROOTS = saying(
    "need.no_roots", "{hydrozone} does not say how deep its roots go. Without it no water balance can be kept."
)

AVAILABLE_RANGE: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "sand": (0.05, 0.11),
        "loamy_sand": (0.06, 0.12),
        "sandy_loam": (0.11, 0.15),
        "loam": (0.13, 0.18),
        "silt_loam": (0.13, 0.19),
        "silt": (0.16, 0.20),
        "silt_clay_loam": (0.13, 0.18),
        "silty_clay": (0.13, 0.19),
        "clay": (0.12, 0.20),
        "clay_loam": (0.13, 0.18),
    }
)
"""Field capacity less wilting point, m³/m³ (FAO-56 table 19). The table has no `clay_loam`: its row is that of silt
clay loam, the nearest there is (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class RootZone:
    """The water that roots can reach: total available, and the depletion fraction of the plants' table.

    `adjusts` brings the fraction to the day's demand; where it is False the fraction holds as it stands.
    """

    total_mm: float
    fraction: float
    adjusts: bool = True


def available_mm_per_m(texture: str) -> float:
    """Water a metre of soil of this texture can give to plants: the middle of table 19's range."""
    least, most = AVAILABLE_RANGE[texture]
    return 1000 * (least + most) / 2


def total_available_mm(field_capacity: float, wilting_point: float, root_depth_m: float) -> float:
    """Total available water (FAO-56 eq. 82)."""
    return 1000 * (field_capacity - wilting_point) * root_depth_m


def readily_available_mm(total_mm: float, fraction: float) -> float:
    """Readily available water (FAO-56 eq. 83)."""
    return fraction * total_mm


def adjusted_fraction(fraction: float, demand_mm: float) -> float:
    """The depletion fraction at a day's demand: plants in a hurry suffer sooner (FAO-56 p. 162, table 22 note 2)."""
    return min(MOST_FRACTION, max(LEAST_FRACTION, fraction + 0.04 * (5 - demand_mm)))


def fraction_on(zone: RootZone, demand_mm: float) -> float:
    """The fraction that holds on a day of this demand."""
    return adjusted_fraction(zone.fraction, demand_mm) if zone.adjusts else zone.fraction


def stress(zone: RootZone, depletion_mm: float, fraction: float) -> float:
    """How much of their demand plants still take, 0 to 1 (FAO-56 eq. 84)."""
    if depletion_mm <= fraction * zone.total_mm:
        return 1.0
    return max(0.0, (zone.total_mm - depletion_mm) / ((1 - fraction) * zone.total_mm))


def stress_by_salt(soil_ds_m: float, threshold_ds_m: float, loss_pct_per_ds_m: float, yield_factor: float) -> float:
    """The same for salty water, as reclaimed water can be (FAO-56 eq. 89, 91, where the soil is not dry as well)."""
    lost = loss_pct_per_ds_m / (100 * yield_factor) * (soil_ds_m - threshold_ds_m)
    return min(1.0, max(0.0, 1 - lost))


def root_zone(
    hydrozone: str,
    *,
    texture: str | None,
    available: float | None,
    root_depth_m: float | None,
    fraction: float,
    adjusts: bool = True,
) -> tuple[RootZone | None, tuple[Message, ...]]:
    """A hydrozone's root zone, or None and everything that is missing. `available` (mm per m) goes before `texture`."""
    known = available
    if known is None and texture is not None and texture in AVAILABLE_RANGE:
        known = available_mm_per_m(texture)
    messages = []
    if known is None:
        messages.append(NO_SOIL(hydrozone=hydrozone))
    if root_depth_m is None:
        messages.append(NO_ROOTS(hydrozone=hydrozone))
    if known is None or root_depth_m is None:
        return None, tuple(messages)
    return RootZone(known * root_depth_m, fraction, adjusts), ()
