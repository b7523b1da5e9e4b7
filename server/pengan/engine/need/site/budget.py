"""A site's water allowance by month and hydrozone, what its plantings are expected to take, and what was used.

The allowance has the form of the ordinances in `allowance`: reference x share x area. Whether any binds a site is for
its own authority to say; the share is a setting.
"""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Mapping
from decimal import Decimal

from ...document.document import Document
from ...document.tables import Hydrozone, Station
from ..allowance import BudgetLine, lines
from ..normals import MONTHS
from ..prices import Charge, Tier, bill, charges
from ..rates import multiplier
from .expected import expected_mm
from .planting import rates_of
from .weather import normals_of


def budget(document: Document, year: int, used_l: Mapping[tuple[str, str], float]) -> tuple[BudgetLine, ...]:
    """A line for every month and hydrozone with an area. `used_l` is what really ran, by (month, hydrozone).

    Empty where no month's normal is known. Allowed is nothing where the site states no share.
    """
    normals = normals_of(document)
    if normals is None:
        return ()
    share = (document.site.allowance_pct or 0.0) / 100
    allowed: dict[tuple[str, str], float] = {}
    planned: dict[tuple[str, str], float] = {}
    for zone, stations in _areas(document).items():
        area = sum(station.area_m2 or 0.0 for station in stations)
        for month in range(1, MONTHS + 1):
            daily = normals.mm_per_day[month - 1]
            if daily is None:
                continue
            key = (f"{year:04d}-{month:02d}", zone)
            reference = daily * monthrange(year, month)[1]
            allowed[key] = reference * share * area
            planned[key] = _expected_l(document, document.hydrozones[zone], stations, year, month, daily)
    return lines(allowed, planned, used_l)


def price_steps(document: Document) -> tuple[Tier, ...]:
    """The site's price steps, the cheapest end first."""
    ordered = sorted(document.tiers.values(), key=lambda one: (one.up_to_l is None, one.up_to_l or 0.0))
    return tuple(
        Tier(None if one.up_to_l is None else Decimal(str(one.up_to_l)), Decimal(str(one.price))) for one in ordered
    )


def month_bill(document: Document, litres: float, digits: int = 2) -> tuple[tuple[Charge, ...], Decimal]:
    """What a month's water costs by its steps, and with the standing charge."""
    steps = price_steps(document)
    standing = Decimal(str(document.site.standing_charge or 0))
    return charges(litres, steps), bill(litres, steps, standing, digits)


def _areas(document: Document) -> dict[str, list[Station]]:
    found: dict[str, list[Station]] = {}
    for station in sorted(document.stations.values(), key=lambda one: one.id):
        if station.hydrozone is not None and station.area_m2 is not None:
            found.setdefault(station.hydrozone, []).append(station)
    return dict(sorted(found.items()))


def _expected_l(
    document: Document, zone: Hydrozone, stations: list[Station], year: int, month: int, daily: float
) -> float:
    """The month's need of a hydrozone, made longer for unevenness, over its stations' areas."""
    need = expected_mm(document, zone, year, month, daily)
    if need is None:
        return 0.0
    rates = rates_of(document, stations)
    extra = {station.id: rate for station in stations if (rate := rates[station.id][0]) is not None}
    return sum(need * (station.area_m2 or 0.0) * multiplier(extra[station.id].uniformity_lq) for station in stations)
