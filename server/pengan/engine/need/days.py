"""The days that go into a balance and come out of it, kept as columns.

A site of hundreds of plantings keeps a million days. As columns the numbers of the weather are shared by all its
plantings, and nothing is made a day but the few numbers of its own; each column reads like a list of days all the same.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple, overload

from .rain import split_rain


class Inflow(NamedTuple):
    """One night's watering over a hydrozone, in mm of mean depth: all of it, what ran off, what fell unevenly."""

    applied_mm: float = 0.0
    ran_off_mm: float = 0.0
    uneven_mm: float = 0.0

    @property
    def useful_mm(self) -> float:
        """What the roots' soil gets."""
        return self.applied_mm - self.ran_off_mm - self.uneven_mm


NO_WATER = Inflow()


class DayIn(NamedTuple):
    """A day's weather and watering as the balance wants them. `demand_mm` is the coefficient times the reference."""

    demand_mm: float
    rain_mm: float = 0.0
    effective_mm: float = 0.0
    lost_mm: float = 0.0
    rain_ran_off_mm: float = 0.0
    watering: Inflow = NO_WATER


class DayOut(NamedTuple):
    """What came of a day: taken by plants, percolated, and the depletion at its end."""

    taken_mm: float
    percolated_mm: float
    depletion_mm: float


def day_in(demand_mm: float, reference_mm: float, rain_mm: float, rule: str, watering: Inflow = NO_WATER) -> DayIn:
    """A day for the balance, its rain split by a rule of `rain`."""
    split = split_rain(rule, rain_mm, reference_mm)
    return DayIn(demand_mm, rain_mm, split.effective_mm, split.lost_mm, split.ran_off_mm, watering)


@dataclass(frozen=True, slots=True)
class Rain:
    """The rain of a span of days: fallen, effective, dried off, run off. Plantings that split it alike share it."""

    fallen: tuple[float, ...] = ()
    effective: tuple[float, ...] = ()
    lost: tuple[float, ...] = ()
    ran_off: tuple[float, ...] = ()

    def part(self, span: slice) -> Rain:
        """Some of the days."""
        return Rain(self.fallen[span], self.effective[span], self.lost[span], self.ran_off[span])

    def then(self, more: Rain) -> Rain:
        """These days and the ones after them."""
        return Rain(
            self.fallen + more.fallen, self.effective + more.effective, self.lost + more.lost,
            self.ran_off + more.ran_off,
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class DaysIn(Sequence[DayIn]):
    """Days that go into a balance: a sequence of `DayIn`."""

    demand: tuple[float, ...]
    rain: Rain
    watering: tuple[Inflow, ...]

    def __len__(self) -> int:
        return len(self.demand)

    @overload
    def __getitem__(self, place: int) -> DayIn: ...
    @overload
    def __getitem__(self, place: slice) -> DaysIn: ...
    def __getitem__(self, place: int | slice) -> DayIn | DaysIn:
        if isinstance(place, slice):
            return DaysIn(self.demand[place], self.rain.part(place), self.watering[place])
        fell = self.rain
        return DayIn(
            self.demand[place], fell.fallen[place], fell.effective[place], fell.lost[place], fell.ran_off[place],
            self.watering[place],
        )  # fmt: skip

    def then(self, more: DaysIn) -> DaysIn:
        """These days and the ones after them."""
        return DaysIn(self.demand + more.demand, self.rain.then(more.rain), self.watering + more.watering)


@dataclass(frozen=True, slots=True)
class DaysOut(Sequence[DayOut]):
    """Days that came out of a balance: a sequence of `DayOut`."""

    taken: tuple[float, ...]
    percolated: tuple[float, ...]
    depletion: tuple[float, ...]

    def __len__(self) -> int:
        return len(self.depletion)

    @overload
    def __getitem__(self, place: int) -> DayOut: ...
    @overload
    def __getitem__(self, place: slice) -> DaysOut: ...
    def __getitem__(self, place: int | slice) -> DayOut | DaysOut:
        if isinstance(place, slice):
            return DaysOut(self.taken[place], self.percolated[place], self.depletion[place])
        return DayOut(self.taken[place], self.percolated[place], self.depletion[place])

    def then(self, more: DaysOut) -> DaysOut:
        """These days and the ones after them."""
        return DaysOut(
            self.taken + more.taken, self.percolated + more.percolated, self.depletion + more.depletion
        )  # fmt: skip


def in_columns(days: Iterable[DayIn]) -> DaysIn:
    """Days as columns."""
    if isinstance(days, DaysIn):
        return days
    columns: Iterator[tuple[object, ...]] = zip(*days, strict=True)
    demand, fallen, effective, lost, ran_off, watering = tuple(columns) or ((),) * 6
    return DaysIn(demand, Rain(fallen, effective, lost, ran_off), watering)  # type: ignore[arg-type]
