"""How evenly heads wet the ground, from what cans caught.

Sources: Christiansen (1942), Irrigation by sprinkling, for CU; for the lower quarter and its run-time multiplier the
Irrigation Association's scheduling text (2005, from memory). Publications differ on the lower quarter of a number of
cans that four does not divide; `QUARTERS` are the three rules in use, and every result says which it went by.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, fsum

from ..message import Message, saying, saying_plural

QUARTERS = ("exact", "up", "down")
"""A quarter of 15 cans: 3.75 cans, the last one by its share (`exact`); 4 cans (`up`); 3 cans (`down`)."""
FEW_CANS = 20
"""Common practice, no source: fewer cans say little about a station."""

NO_CANS = saying("audit.no_cans", "{station}: no can has a reading.")
BAD_CAN = saying("audit.bad_can", "{station}, can {can}: a catch cannot be {value}.")
ALL_DRY = saying("audit.all_dry", "{station}: every can stayed dry. No uniformity can be worked out.")
NO_TIME = saying("audit.no_time", "{station}: the audit does not say how long the water ran.")
NO_THROAT = saying("audit.no_throat", "{station}: catches in millilitres need the area of a can's opening.")
FEW = saying_plural(
    "audit.few_cans",
    "{station}: only {cans_count} can has a reading; the figures are rough.",
    "{station}: only {cans_count} cans have a reading; the figures are rough.",
    count="cans_count",
)


@dataclass(frozen=True, slots=True)
class Can:
    """One can on the grid: its place in steps of the grid from one corner, and its catch. None: no reading."""

    column: int
    row: int
    catch: float | None


@dataclass(frozen=True, slots=True)
class Audit:
    """Cans of one station. `unit` is `mm`, or `ml` with the opening's area; `ran_s` is how long the water ran."""

    station: str
    cans: tuple[Can, ...]
    ran_s: float
    unit: str = "mm"
    throat_cm2: float | None = None


@dataclass(frozen=True, slots=True)
class Wetting:
    """What an audit says. Depths in mm by can, in the order of the cans that have a reading; `lowest` are their places.

    `uniformity_lq` and `uniformity_lh` are the lower quarter's and half's mean over the mean; `christiansen` is CU
    as a share, not percent.
    """

    station: str
    depths_mm: tuple[float, ...]
    mean_mm: float
    rate_mm_h: float
    uniformity_lq: float
    uniformity_lh: float
    christiansen: float
    quarter: str
    lowest: tuple[tuple[int, int], ...]
    messages: tuple[Message, ...] = ()


def audit(given: Audit, quarter: str = "exact") -> tuple[Wetting | None, tuple[Message, ...]]:
    """The audit worked out, or None and everything wrong with it."""
    faults = faults_in(given)
    if faults:
        return None, faults
    read = [can for can in given.cans if can.catch is not None]
    depths = tuple(_depth(given, can) for can in read)
    mean = fsum(depths) / len(depths)
    order = sorted(range(len(read)), key=lambda place: (depths[place], read[place].row, read[place].column))
    low = order[: max(1, ceil(len(order) / 4))]
    few = (FEW(station=given.station, cans_count=len(read)),) if len(read) < FEW_CANS else ()
    return Wetting(
        given.station, depths, mean, mean * 3600 / given.ran_s, lower_share(depths, 4, quarter),
        lower_share(depths, 2, quarter), christiansen(depths), quarter,
        tuple((read[place].column, read[place].row) for place in low), few,
    ), few  # fmt: skip


def faults_in(given: Audit) -> tuple[Message, ...]:
    """Everything that keeps an audit from being worked out."""
    read = [(number, can.catch) for number, can in enumerate(given.cans, 1) if can.catch is not None]
    bad = [BAD_CAN(station=given.station, can=number, value=catch) for number, catch in read if not 0 <= catch < 1e6]
    if not read:
        bad.append(NO_CANS(station=given.station))
    elif all(catch == 0 for _number, catch in read):
        bad.append(ALL_DRY(station=given.station))
    if given.ran_s <= 0:
        bad.append(NO_TIME(station=given.station))
    if given.unit == "ml" and not (given.throat_cm2 and given.throat_cm2 > 0):
        bad.append(NO_THROAT(station=given.station))
    return tuple(bad)


def _depth(given: Audit, can: Can) -> float:
    catch = can.catch or 0.0
    return catch * 10 / given.throat_cm2 if given.unit == "ml" and given.throat_cm2 else catch


def lower_share(depths: Sequence[float], parts: int, rule: str = "exact") -> float:
    """Mean of the lowest part (a quarter: 4, a half: 2) over the mean of all, by one of `QUARTERS`.

    The mean must not be nothing. At least one can is taken.
    """
    ordered = sorted(depths)
    count = len(ordered) / parts
    taken = max(1.0, {"exact": count, "up": float(ceil(count)), "down": float(floor(count))}[rule])
    whole = floor(taken)
    low = fsum(ordered[:whole]) + (ordered[whole] * (taken - whole) if taken > whole else 0.0)
    return low / taken / (fsum(ordered) / len(ordered))


def christiansen(depths: Sequence[float]) -> float:
    """Christiansen's coefficient of uniformity as a share; below nothing where cans differ wildly."""
    mean = fsum(depths) / len(depths)
    return 1 - fsum(abs(depth - mean) for depth in depths) / (len(depths) * mean)
