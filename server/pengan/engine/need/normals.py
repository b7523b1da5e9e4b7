"""Monthly normals of reference evapotranspiration: the last rung, for days on which nothing was observed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from math import fsum

from ..message import Message, saying
from .radiation import TROPICS_DEG, sunnier_half

MONTHS = 12

OTHER_HEMISPHERE = saying(
    "need.normals_hemisphere",
    "The normals are greatest in month {month}, in the darker half of the year at this latitude. "
    "Are they of the other hemisphere?",
)


@dataclass(frozen=True, slots=True)
class Normals:
    """Twelve means in mm a day, January first; None for a month nobody knows. `source` says where they are from."""

    mm_per_day: tuple[float | None, ...]
    source: str = ""

    def on(self, day: date) -> float | None:
        """The normal of a day's month."""
        return self.mm_per_day[day.month - 1]


def normals_from(days: Iterable[tuple[date, float]], source: str = "", least_days: int = 20) -> Normals:
    """Normals from a site's own worked-out days. A month with fewer than `least_days` of them stays unknown."""
    months: list[list[float]] = [[] for _ in range(MONTHS)]
    for day, et_mm in days:
        months[day.month - 1].append(et_mm)
    return Normals(tuple(fsum(month) / len(month) if len(month) >= least_days else None for month in months), source)


def peak_month(normals: Normals) -> int | None:
    """The month (1 to 12) whose normal is greatest, the first of equals; None where no month is known."""
    known = [(mm, -month) for month, mm in enumerate(normals.mm_per_day, 1) if mm is not None]
    return -max(known)[1] if known else None


def normals_doubt(normals: Normals, latitude_deg: float) -> Message | None:
    """A doubt where the greatest normal falls in the darker half of the year, as normals from elsewhere do."""
    peak = peak_month(normals)
    if peak is None or abs(latitude_deg) < TROPICS_DEG:
        return None
    middle = date(2001, peak, 15).timetuple().tm_yday
    return None if sunnier_half(latitude_deg, middle) else OTHER_HEMISPHERE(month=peak)
