"""What water costs by tiers: the first so many litres of a month at one price, the next at another.

Money is exact: `Decimal`, in the site's own currency, rounded once at the end, halves away from nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from ..message import Message, saying

TIERS_NOT_RISING = saying("prices.not_rising", "Tier {tier}: its upper end must be above that of the tier before it.")
TIERS_OPEN = saying("prices.open", "Tier {tier}: only the last tier may be without an upper end.")
TIERS_END = saying("prices.end", "The last tier must be without an upper end.")
LITRES_PER_M3 = 1000


@dataclass(frozen=True, slots=True)
class Tier:
    """Up to how many litres of the billing span (None: without end), and the price of a cubic metre."""

    up_to_l: Decimal | None
    per_m3: Decimal


@dataclass(frozen=True, slots=True)
class Charge:
    """One tier's part of a bill."""

    litres: Decimal
    per_m3: Decimal
    amount: Decimal


def faults_in(tiers: Sequence[Tier]) -> tuple[Message, ...]:
    """Everything wrong with a list of tiers."""
    found: list[Message] = []
    last = Decimal(0)
    for number, tier in enumerate(tiers, 1):
        if tier.up_to_l is None:
            if number < len(tiers):
                found.append(TIERS_OPEN(tier=number))
        elif tier.up_to_l <= last:
            found.append(TIERS_NOT_RISING(tier=number))
        else:
            last = tier.up_to_l
    if not tiers or tiers[-1].up_to_l is not None:
        found.append(TIERS_END())
    return tuple(found)


def charges(litres: float, tiers: Sequence[Tier]) -> tuple[Charge, ...]:
    """A span's litres tier by tier, not rounded. Wants tiers without faults."""
    left, floor, found = Decimal(str(litres)), Decimal(0), []
    for tier in tiers:
        part = left if tier.up_to_l is None else min(left, tier.up_to_l - floor)
        if part <= 0:
            break
        found.append(Charge(part, tier.per_m3, part * tier.per_m3 / LITRES_PER_M3))
        left, floor = left - part, tier.up_to_l or floor
    return tuple(found)


def bill(litres: float, tiers: Sequence[Tier], standing: Decimal = Decimal(0), digits: int = 2) -> Decimal:
    """What a span's litres cost with the standing charge, rounded to the currency's digits."""
    total = standing + sum((charge.amount for charge in charges(litres, tiers)), Decimal(0))
    return total.quantize(Decimal(1).scaleb(-digits), ROUND_HALF_UP)
