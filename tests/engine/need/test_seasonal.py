"""Suggestions for turns set by hand."""

from __future__ import annotations

import pytest

from pengan.engine.need.seasonal import Limits, Suggestion, suggest


def suggested(now: int, recent: list[float | None], peak: float | None, limits: Limits | None = None) -> Suggestion:
    found, message = suggest("prog", now, recent, peak, limits or Limits())
    assert found is not None and message is None
    return found


def test_the_percentage_is_recent_over_peak_in_steps() -> None:
    found = suggested(100, [3.0, 3.2, 3.1, None, 3.3, 2.9], 6.0)
    assert (found.from_pct, found.to_pct, found.by_itself) == (100, 50, False)
    assert found.message.code == "seasonal.suggested" and found.message.params["recent_mm"] == pytest.approx(3.1)


def test_limits_hold_and_are_said() -> None:
    found = suggested(100, [1.0] * 7, 6.0, Limits(least_pct=40))
    assert found.to_pct == 40 and found.message.code == "seasonal.limited"
    assert suggested(100, [12.0] * 7, 6.0, Limits(most_pct=130)).to_pct == 130


def test_a_program_may_accept_small_steps_by_itself() -> None:
    limits = Limits(by_itself_pct=10)
    assert suggested(60, [3.0] * 7, 6.0, limits).by_itself
    assert not suggested(90, [3.0] * 7, 6.0, limits).by_itself


def test_no_suggestion_says_why() -> None:
    assert suggest("prog", 50, [3.0] * 7, 6.0, Limits()) == (None, None)
    for recent, peak, code in (([3.0] * 7, None, "seasonal.no_peak"), ([3.0, None], 6.0, "seasonal.no_recent")):
        found, message = suggest("prog", 50, recent, peak, Limits())
        assert found is None and message is not None and message.code == code
