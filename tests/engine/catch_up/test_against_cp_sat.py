"""What is recovered beside an outside solver: OR-Tools CP-SAT on small interrupted nights of every family.

Source of the reference: Google OR-Tools CP-SAT, https://developers.google.com/optimization/cp/cp_solver. It places
whole cycles; the catch-up may besides run parts of cycles that do not fit whole, so that its share can be above one.
The wider comparison is `tests/benchmarks catching_up`.
"""

from __future__ import annotations

import pytest

from nights.catching_up import interrupted, share_of
from nights.families import FAMILIES

STATIONS, SEEDS = 8, (1, 2, 3)
SECONDS, WORKERS = 2.0, 2
LEAST = 0.98


@pytest.mark.parametrize("family", FAMILIES)
def test_at_least_98_hundredths_of_what_can_be_recovered_are(family: str) -> None:
    shares = [share_of(interrupted(family, STATIONS, seed), SECONDS, WORKERS) for seed in SEEDS]
    assert all(share.of_recoverable >= LEAST for share in shares), shares


def test_these_nights_have_water_to_recover() -> None:
    """Otherwise the test above could not fail."""
    shares = [share_of(interrupted(family, STATIONS, 1), SECONDS, WORKERS) for family in FAMILIES]
    assert sum(share.most > share.clock for share in shares) >= len(shares) // 2
