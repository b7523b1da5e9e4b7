"""What is recovered beside an outside solver: OR-Tools CP-SAT on small interrupted nights of every family.

Source of the reference: Google OR-Tools CP-SAT, https://developers.google.com/optimization/cp/cp_solver. It places
whole cycles; the catch-up may besides run parts of cycles that do not fit whole, so that its share can be above one.
The wider comparison is `tests/benchmarks catching_up`.
"""

from __future__ import annotations

from functools import cache

import pytest

from nights.catching_up import Share, interrupted, share_of
from nights.families import FAMILIES

STATIONS, SEEDS = 8, (1, 2, 3)
SECONDS, WORKERS = 2.0, 2
LEAST = 0.98


@cache
def share(family: str, seed: int) -> Share:
    return share_of(interrupted(family, STATIONS, seed), SECONDS, WORKERS)


@pytest.mark.parametrize("family", FAMILIES)
def test_at_least_98_hundredths_of_what_can_be_recovered_are(family: str) -> None:
    shares = [share(family, seed) for seed in SEEDS]
    assert all(one.of_recoverable >= LEAST for one in shares), shares


def test_these_nights_have_water_to_recover() -> None:
    """Otherwise the test above could not fail."""
    shares = [share(family, 1) for family in FAMILIES]
    assert sum(one.most > one.clock for one in shares) >= len(shares) // 2
