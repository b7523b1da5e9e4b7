"""Supplies shut by a rule: never without one, never by one reading, never on old news."""

from __future__ import annotations

from typing import Any

import pytest

from builders import a_document, a_supply
from engine.journal.told import an_entry, flow
from pengan.engine.document.document import Document
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.journal.own_limits import limits_of
from pengan.engine.journal.shutting import FRESH_S, looks_back_s, to_shut
from pengan.engine.journal.thresholds import Thresholds

NOW = 1_783_720_000


def a_site(**rule: Any) -> Document:
    return a_document(supplies=[a_supply("town"), a_supply("north", fed_by="town", **rule)])


RULED = a_site(shut_above_lpm=80, shut_after_s=60)


def readings(*flows: float, every_s: int = 30, until: int = NOW) -> list[Entry]:
    return [flow("north", until - every_s * (len(flows) - 1 - place), one) for place, one in enumerate(flows)]


def test_above_the_limit_for_long_enough_it_is_shut() -> None:
    (found,) = to_shut(RULED, readings(60, 90, 95, 100), [], NOW)
    assert (found.supply, found.flow_lpm, found.limit_lpm, found.since) == ("north", 100, 80, NOW - 60)


@pytest.mark.parametrize(
    ("told", "why"),
    [
        (readings(90, 95), "not for long enough"),
        (readings(200), "one reading alone"),
        (readings(90, 70, 95), "right in between"),
        (readings(90, 95, 80), "at the limit is not above it"),
        (readings(90, 95, 100, until=NOW - FRESH_S - 1), "old news"),
        (readings(90, 95, 100, until=NOW + 90), "from the future"),
        (readings(90, 95, every_s=FRESH_S + 1), "a gap in between"),
    ],
)
def test_it_is_not_shut_where_that_is_not_sure(told: list[Entry], why: str) -> None:
    assert to_shut(RULED, told, [], NOW) == [], why


def test_without_a_rule_nothing_is_ever_shut() -> None:
    assert to_shut(a_site(), readings(500, 500, 500), [], NOW) == []
    assert looks_back_s(a_site()) == 0 < looks_back_s(RULED)


def test_what_is_shut_is_not_shut_again_until_it_is_freed() -> None:
    shut = an_entry(Kind.SHUT, NOW - 3600, supply="north")
    freed = an_entry(Kind.FREED, NOW - 1800, supply="north")
    assert to_shut(RULED, readings(90, 95, 100), [shut], NOW) == []
    assert len(to_shut(RULED, readings(90, 95, 100), [shut, freed], NOW)) == 1


def test_a_supplys_own_limits_stand_in_the_place_of_the_usual_ones() -> None:
    own = limits_of(a_site(watch_least_lpm=5, watch_share_pct=10, watch_hold_s=120, watch_silent_s=900))
    usual, north = Thresholds(), own.of("north")
    assert own.of("town") == usual
    assert (north.least_lpm, north.share_pct, north.hold_s, north.silent_s) == (5, 10, 120, 900)
    assert abs(north.unlearned_pct / 10 - usual.unlearned_pct / usual.share_pct) < 0.1
    assert north.clear_s == usual.clear_s
