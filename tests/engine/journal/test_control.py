"""Control charts beside the worked tables of the NIST/SEMATECH e-Handbook of Statistical Methods."""

from __future__ import annotations

import pytest

from pengan.engine.journal.control import cusum, ewma, ewma_limits
from pengan.engine.journal.drift import BASE_NIGHTS, drift

# Section 6.3.2.4, "EWMA Control Charts" (https://www.itl.nist.gov/div898/handbook/pmc/section3/pmc324.htm): the data,
# EWMA_0 = 50, s = 2.0539, lambda = 0.3, the printed averages and limits. The table was read in several independent
# public transcriptions of that page, which agree; the page itself could not be reached.
EWMA_DATA = (
    52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5,
    49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1,
)  # fmt: skip
EWMA_PRINTED = (
    50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33,
    50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99,
)  # fmt: skip

# Section 6.3.2.3, "CUSUM Control Charts" (https://www.itl.nist.gov/div898/handbook/pmc/section3/pmc323.htm): target
# 325, k = 0.3175, h = 4.1959, the printed sums; out of control from group 14 on. Read as the other one was.
CUSUM_DATA = (
    324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600,
    324.625, 325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350,
)  # fmt: skip
HIGH_PRINTED = (0, 0, 0, 0, 0.03, 0, 0, 0, 0, 0, 0, 0, 3.01, 4.94, 7.45, 10.63, 11.99, 14.44, 16.00, 19.04)
LOW_PRINTED = (0, 0.01, 0, 0.33, 0, 0, 0.56, 0.72, 0.17, 0.25, 0.31, 0, 0, 0, 0, 0, 0, 0, 0, 0)


def test_ewma_is_that_of_the_handbook() -> None:
    assert list(ewma(EWMA_DATA, 50, 0.3)) == pytest.approx(EWMA_PRINTED, abs=0.0051)


def test_ewma_limits_are_those_of_the_handbook() -> None:
    """The page prints 52.5884 and 47.4115, the latter cut rather than rounded."""
    assert ewma_limits(50, 2.0539, 0.3) == pytest.approx((47.4115, 52.5884), abs=0.0002)


def test_cusum_is_that_of_the_handbook() -> None:
    """The page rounds as it goes along: its sums are up to 0.015 from exact ones."""
    sums = list(cusum(CUSUM_DATA, 325, 0.3175))
    assert [one.high for one in sums] == pytest.approx(HIGH_PRINTED, abs=0.015)
    assert [one.low for one in sums] == pytest.approx(LOW_PRINTED, abs=0.015)
    assert [group for group, one in enumerate(sums, 1) if one.outside(4.1959)] == list(range(14, 21))


def nights(flows: list[float]) -> list[tuple[str, float]]:
    return [(f"2026-06-{day:02}", flow) for day, flow in enumerate(flows, 1)]


STEADY = [60.0, 60.4, 59.7, 60.1, 59.8, 60.3, 59.9]


def test_a_flow_that_creeps_is_a_drift_and_says_how_far() -> None:
    creeping = [60 * (1 - 0.01 * night) for night in range(1, 11)]
    found = drift(nights(STEADY + creeping))
    assert found is not None
    assert f"2026-06-{BASE_NIGHTS + 1:02}" <= found.since < found.told
    assert found.change_pct == pytest.approx(-9, abs=0.5)


def test_a_steady_flow_is_none_and_few_nights_tell_nothing() -> None:
    assert drift(nights(STEADY * 4)) is None
    assert drift(nights([60, 90])) is None
    assert drift(nights(STEADY)) is None


def test_one_odd_night_is_no_drift() -> None:
    assert drift(nights([*STEADY, 60, 90])) is None
    assert drift(nights([*STEADY, 60, 90, 60, 60])) is None
