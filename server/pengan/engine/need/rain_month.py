"""Effective rain by the month, for budgets and planning: several published rules that do not agree with each other.

The daily balance does not use them; it follows the water itself (see `balance`). Depths in mm a month.
"""

from __future__ import annotations

INCH_MM = 25.4


def fao_linear(rain_mm: float) -> float:
    """0.8 P - 25 above 75 mm, 0.6 P - 10 below (Brouwer & Heibloem 1986, FAO Training Manual 3)."""
    return max(0.0, 0.8 * rain_mm - 25 if rain_mm > 75 else 0.6 * rain_mm - 10)


def scs_rain_only(rain_mm: float) -> float:
    """USDA-SCS without plant use: P (125 - 0.2 P) / 125 up to 250 mm, 125 + 0.1 P beyond."""
    return rain_mm * (125 - 0.2 * rain_mm) / 125 if rain_mm <= 250 else 125 + 0.1 * rain_mm


def scs_storage_factor(storage_mm: float) -> float:
    """Factor of usable soil storage (NEH part 623 chapter 2, from memory; its inches turned to mm here)."""
    d = storage_mm / INCH_MM
    return float(0.531747 + 0.295164 * d - 0.057697 * d**2 + 0.003804 * d**3)


def scs_with_use(rain_mm: float, use_mm: float, storage_mm: float = 3 * INCH_MM) -> float:
    """USDA-SCS with the plants' use and the soil's storage (NEH part 623 chapter 2, from memory).

    Never more than the rain, nor than the use.
    """
    inches = float(0.70917 * (rain_mm / INCH_MM) ** 0.82416 - 0.11556)
    effective = scs_storage_factor(storage_mm) * inches * 10 ** (0.02426 * use_mm / INCH_MM) * INCH_MM
    return max(0.0, min(effective, rain_mm, use_mm))


def share_of_year(rain_mm: float, share: float = 0.25) -> float:
    """The quarter of the year's rain that some ordinances count (see `allowance`)."""
    return rain_mm * share
