"""Tiers of price, exact to the last digit."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pengan.engine.need.prices import Tier, bill, charges, faults_in

TIERS = (Tier(Decimal(10_000), Decimal("1.20")), Tier(Decimal(30_000), Decimal("2.00")), Tier(None, Decimal("4.50")))


@pytest.mark.parametrize(
    ("litres", "cost"),
    [(0, "5.00"), (10_000, "17.00"), (10_001, "17.00"), (30_000, "57.00"), (31_000, "61.50"), (1, "5.00")],
)
def test_tiers_are_billed_one_after_the_other(litres: float, cost: str) -> None:
    """Hand arithmetic, with 5.00 standing charge."""
    assert bill(litres, TIERS, Decimal(5)) == Decimal(cost)


@given(st.integers(0, 10**7))
def test_tiers_share_out_every_litre(litres: int) -> None:
    assert sum(charge.litres for charge in charges(litres, TIERS)) == litres


def test_bad_tiers_are_told_all_at_once() -> None:
    bad = (
        Tier(Decimal(10), Decimal(1)),
        Tier(Decimal(5), Decimal(1)),
        Tier(None, Decimal(1)),
        Tier(Decimal(20), Decimal(1)),
    )
    assert [(m.code, m.params.get("tier")) for m in faults_in(bad)] == [
        ("prices.not_rising", 2), ("prices.open", 3), ("prices.end", None),
    ]  # fmt: skip
    assert faults_in(TIERS) == ()
