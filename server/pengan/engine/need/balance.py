"""Water in the root zone day by day, as its depletion: how many mm are missing to field capacity.

Source: FAO Irrigation and Drainage Paper 56, chapter 8, eq. 85-88; capillary rise is left out.

**Order of events within a day.** A night's watering is counted on the calendar day on which the night ends.
1. Water comes: first the watering of the night before, then all of the day's effective rain.
2. What plants take is set by the depletion after that water (Ks, eq. 84) and taken, never beyond what the soil holds.
3. What is then above field capacity percolates (eq. 88). With `drains_first` steps 2 and 3 change places: water
   above field capacity is gone before plants take theirs. FAO-56 prints both: eq. 88 drains last, its example 38
   drains first (17 mm where eq. 88 gives 11).

Uneven watering: of `applied_mm`, `uneven_mm` lands where the soil is wet already and percolates at once; `ran_off_mm`
never goes in. Whatever rain dries off counts as used. So over any span
rain + applied = used + percolated + ran off - change of depletion.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from math import fsum

from .days import NO_WATER, DayIn, DaysIn, DaysOut, in_columns
from .soil import LEAST_FRACTION, MOST_FRACTION, RootZone


@dataclass(frozen=True, slots=True)
class Balance:
    """A hydrozone's days from `first` on. `days` went in, `outs` came out; they are as long as each other."""

    zone: RootZone
    first: date
    start_mm: float
    days: DaysIn
    outs: DaysOut
    drains_first: bool = False

    @property
    def depletion_mm(self) -> float:
        """Depletion at the end of the last day."""
        return self.outs.depletion[-1] if self.outs else self.start_mm

    @property
    def after(self) -> date:
        """The first day that is not in it yet."""
        return self.first + timedelta(days=len(self.days))


def follow(
    zone: RootZone,
    start_mm: float,
    demands: Iterable[float],
    inflows: Iterable[float],
    drains_first: bool = False,
) -> Iterator[tuple[float, float, float]]:
    """Taken, percolated, depletion at the end, day after day: the one place where the balance is worked out.

    Written out in one loop because years of days for hundreds of plantings go through it. The fraction and Ks are
    `soil.fraction_on` and `soil.stress`; a test holds them to each other.
    """
    total, base, adjusts = zone.total_mm, zone.fraction + 0.2, zone.adjusts
    fraction, depletion = zone.fraction, start_mm
    for demand, inflow in zip(demands, inflows, strict=True):
        wet = depletion - inflow
        percolated = 0.0
        if drains_first and wet < 0:
            percolated, wet = -wet, 0.0
        taken = demand
        if wet > 0:
            if adjusts:
                fraction = base - 0.04 * demand
                if fraction > MOST_FRACTION:
                    fraction = MOST_FRACTION
                elif fraction < LEAST_FRACTION:
                    fraction = LEAST_FRACTION
            left = total - wet
            if left < (1 - fraction) * total:
                taken = demand * left / ((1 - fraction) * total)
        depletion = wet + taken
        if depletion < 0:
            percolated, depletion = -depletion, 0.0
        elif depletion > total:
            taken, depletion = total - wet, total
        yield taken, percolated, depletion


def balance(
    zone: RootZone, first: date, start_mm: float, days: Iterable[DayIn], *, drains_first: bool = False
) -> Balance:
    """The balance from a day on. `start_mm`, the depletion before it, is held between nothing and all."""
    start = min(zone.total_mm, max(0.0, start_mm))
    columns = in_columns(days)
    return Balance(zone, first, start, columns, _outs(zone, start, columns, drains_first), drains_first)


def _outs(zone: RootZone, start_mm: float, days: DaysIn, drains_first: bool) -> DaysOut:
    inflows = [
        rain if given is NO_WATER else rain + given.useful_mm
        for rain, given in zip(days.rain.effective, days.watering, strict=True)
    ]
    taken, percolated, depletion = [], [], []
    for took, sank, lacks in follow(zone, start_mm, days.demand, inflows, drains_first):
        taken.append(took)
        percolated.append(sank)
        depletion.append(lacks)
    sunk = (sank + given.uneven_mm for sank, given in zip(percolated, days.watering, strict=True))
    return DaysOut(tuple(taken), tuple(sunk), tuple(depletion))


def revised(earlier: Balance, day: date, days: Iterable[DayIn]) -> Balance:
    """The balance with every day from `day` on replaced: what a late or corrected observation asks for.

    Equal to the last digit to a balance worked out in order; days before `day` are not worked out again.
    """
    kept = (day - earlier.first).days
    if not 0 <= kept <= len(earlier.days):
        raise ValueError(f"{day} is not a day of the balance from {earlier.first}")
    begins = earlier.outs.depletion[kept - 1] if kept else earlier.start_mm
    columns = in_columns(days)
    outs = _outs(earlier.zone, begins, columns, earlier.drains_first)
    days_in, outs_in = earlier.days[:kept].then(columns), earlier.outs[:kept].then(outs)
    return Balance(earlier.zone, earlier.first, earlier.start_mm, days_in, outs_in, earlier.drains_first)


def extended(earlier: Balance, days: Iterable[DayIn]) -> Balance:
    """The balance with more days at its end."""
    return revised(earlier, earlier.after, days)


@dataclass(frozen=True, slots=True)
class Sums:
    """A span's water in mm. `used_mm` is what plants took and what dried off; `gained_mm` the fall in depletion."""

    rain_mm: float
    applied_mm: float
    used_mm: float
    percolated_mm: float
    ran_off_mm: float
    gained_mm: float

    @property
    def unexplained_mm(self) -> float:
        """What does not add up: nothing, but for the rounding of floating point."""
        return fsum(
            (self.rain_mm, self.applied_mm, -self.used_mm, -self.percolated_mm, -self.ran_off_mm, -self.gained_mm)
        )


def sums(kept: Balance) -> Sums:
    """The whole balance added up."""
    days, outs, rain = kept.days, kept.outs, kept.days.rain
    return Sums(
        fsum(rain.fallen),
        fsum(given.applied_mm for given in days.watering),
        fsum((*outs.taken, *rain.lost)),
        fsum(outs.percolated),
        fsum((*rain.ran_off, *(given.ran_off_mm for given in days.watering))),
        kept.start_mm - kept.depletion_mm,
    )
