"""How fast soil takes water in, how much may stand on it, and the cycles and soaks that follow.

Sources, from memory: Irrigation Association, Landscape Irrigation Scheduling and Water Management (2005), for both
tables and for the longest cycle 60 ASA / (PR - IR). No readable copy of the tables was to be had, so they are a
starting point: what a site has seen on its own ground goes before them. Rates in mm/h, depths in mm.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil, floor, inf
from types import MappingProxyType

INCH_MM = 25.4
SLOPES_PCT = (3.0, 6.0, 12.0)
"""Upper ends of the first three slope classes; beyond the last begins the fourth."""

_TABLE: Mapping[str, tuple[float, tuple[float, float, float, float]]] = MappingProxyType(
    {
        "clay": (0.1, (0.2, 0.15, 0.1, 0.1)),
        "silty_clay": (0.15, (0.23, 0.19, 0.16, 0.13)),
        "clay_loam": (0.2, (0.26, 0.22, 0.18, 0.15)),
        "loam": (0.35, (0.3, 0.25, 0.21, 0.17)),
        "silt_loam": (0.35, (0.3, 0.25, 0.21, 0.17)),
        "sandy_loam": (0.4, (0.33, 0.29, 0.24, 0.2)),
        "loamy_sand": (0.5, (0.36, 0.3, 0.26, 0.22)),
        "sand": (0.6, (0.4, 0.35, 0.3, 0.25)),
    }
)
"""Inches an hour, and inches by slope class. `silt_loam` is not in the source; it is taken for loam (common practice,
no source)."""


@dataclass(frozen=True, slots=True)
class Intake:
    """What a place takes in (mm/h) and may hold on its surface (mm)."""

    rate_mm_h: float
    storage_mm: float


def intake_of(texture: str, slope_pct: float) -> Intake:
    """The tables' intake for a texture and slope."""
    rate, storage = _TABLE[texture]
    place = sum(slope_pct > end for end in SLOPES_PCT)
    return Intake(rate * INCH_MM, storage[place] * INCH_MM)


def longest_cycle_min(rate_mm_h: float, intake: Intake) -> float:
    """Minutes until the surface holds all it may: 60 ASA / (PR - IR). Without end where the soil keeps up."""
    over = rate_mm_h - intake.rate_mm_h
    return 60 * intake.storage_mm / over if over > 0 else inf


def least_soak_min(intake: Intake) -> float:
    """Minutes for a full surface to go in: 60 ASA / IR."""
    return 60 * intake.storage_mm / intake.rate_mm_h


@dataclass(frozen=True, slots=True)
class Cycles:
    """A run time split: equal cycles with a soak between them, in whole seconds. `cycles` is 0 for no water at all."""

    run_s: int
    cycles: int
    soak_s: int

    @property
    def elapsed_s(self) -> int:
        """From the first opening to the last closing."""
        return self.run_s + max(0, self.cycles - 1) * self.soak_s

    @property
    def longest_s(self) -> int:
        """The longest of the cycles."""
        return -(-self.run_s // self.cycles) if self.cycles else 0


def split_run(run_s: int, rate_mm_h: float, intake: Intake | None) -> Cycles:
    """As few equal cycles as do not overfill the surface, and the soak that lets each one go in."""
    if run_s <= 0:
        return Cycles(0, 0, 0)
    if intake is None:
        return Cycles(run_s, 1, 0)
    longest = longest_cycle_min(rate_mm_h, intake) * 60
    if longest >= run_s:
        return Cycles(run_s, 1, 0)
    cycles = min(run_s, ceil(run_s / max(1, floor(longest))))
    standing = (rate_mm_h - intake.rate_mm_h) * ceil(run_s / cycles) / 3600
    return Cycles(run_s, cycles, ceil(3600 * standing / intake.rate_mm_h))


def most_within(wanted: Cycles, window_s: int) -> Cycles:
    """What of a split run fits a span of time: as many of its cycles as there is room for, with their soaks."""
    if wanted.elapsed_s <= window_s or not wanted.cycles:
        return wanted
    each = wanted.longest_s
    count = max(0, min(wanted.cycles, (window_s + wanted.soak_s) // (each + wanted.soak_s)))
    return Cycles(count * each, count, wanted.soak_s if count > 1 else 0)


def ran_off_mm(spans: Sequence[tuple[float, float]], rate_mm_h: float, intake: Intake) -> float:
    """What runs off over (start, end) seconds in order: whatever the surface cannot hold while water falls.

    Between spans what stands there goes in at the intake rate.
    """
    standing, lost, last = 0.0, 0.0, None
    for start, end in spans:
        if last is not None:
            standing = max(0.0, standing - intake.rate_mm_h * (start - last) / 3600)
        standing = max(0.0, standing + (rate_mm_h - intake.rate_mm_h) * (end - start) / 3600)
        lost += max(0.0, standing - intake.storage_mm)
        standing, last = min(standing, intake.storage_mm), end
    return lost
