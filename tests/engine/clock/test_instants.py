"""Wall time into instants: what is missing, what comes twice, and that nothing else is ever touched."""

from __future__ import annotations

from datetime import datetime, timedelta
from inspect import signature

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pengan.engine.clock.fault import ClockFault
from pengan.engine.clock.instants import EPOCH, Edge, Policy, instants_between, wall_seconds
from pengan.engine.clock.zones import SiteClock, dated_clock, rule_clock, zone_clock, zone_names

BERLIN = zone_clock("Europe/Berlin")
FROM, UNTIL = wall_seconds(datetime(2024, 1, 1)), wall_seconds(datetime(2038, 1, 1))

clocks = st.one_of(
    st.sampled_from(sorted(zone_names())).map(zone_clock),
    st.sampled_from(["<+0530>-5:30", "AAA3BBB2:30,J50/-5,J200/30", "IST-1GMT0,M10.5.0,M3.5.0/1"]).map(rule_clock),
    st.just(dated_clock("+01:00, 2025-03-01T12:00Z +13:30, 2026-10-25T01:00Z -03:00")),
)
instants = st.integers(FROM, UNTIL)


@st.composite
def near_a_change(draw: st.DrawFn) -> tuple[SiteClock, int]:
    """A clock and an instant, more often than not within two hours of one of its changes."""
    clock = draw(clocks)
    changes = clock.changes(FROM, UNTIL)
    if not changes or draw(st.booleans()):
        return clock, draw(instants)
    return clock, draw(st.sampled_from(changes)).at + draw(st.integers(-7200, 7200))


@pytest.mark.parametrize(
    ("policy", "missing", "twice"),
    [
        (Policy.COMPATIBLE, "2026-03-29T03:30:00+02:00", "2026-10-25T02:30:00+02:00"),
        (Policy.EARLIER, "2026-03-29T01:30:00+01:00", "2026-10-25T02:30:00+02:00"),
        (Policy.LATER, "2026-03-29T03:30:00+02:00", "2026-10-25T02:30:00+01:00"),
    ],
)
def test_a_policy_says_what_a_missing_or_doubled_time_means(policy: Policy, missing: str, twice: str) -> None:
    assert BERLIN.iso(BERLIN.instant(datetime(2026, 3, 29, 2, 30), policy)) == missing
    assert BERLIN.iso(BERLIN.instant(datetime(2026, 10, 25, 2, 30), policy)) == twice


@pytest.mark.parametrize(
    ("wall", "code"),
    [(datetime(2026, 3, 29, 2, 30), "clock.time_missing"), (datetime(2026, 10, 25, 2, 30), "clock.time_twice")],
)
def test_reject_refuses_a_time_that_is_not_one_instant(wall: datetime, code: str) -> None:
    with pytest.raises(ClockFault) as raised:
        BERLIN.instant(wall, Policy.REJECT)
    assert raised.value.message.code == code


@pytest.mark.parametrize(
    ("wall", "instant"),
    [
        ("2007-11-04T01:30:00", "2007-11-04T01:30:00-04:00"),
        ("2007-03-11T02:30:00", "2007-03-11T03:30:00-04:00"),
    ],
)
def test_the_examples_of_rfc_5545_mean_what_it_says(wall: str, instant: str) -> None:
    """Source: RFC 5545 section 3.3.5: the first 1:30 is 05:30 UTC, and 2:30 in the gap is 07:30 UTC."""
    clock = zone_clock("America/New_York")
    assert clock.iso(clock.instant(datetime.fromisoformat(wall), Policy.COMPATIBLE)) == instant


def test_nobody_gets_an_instant_without_naming_a_policy() -> None:
    policy = signature(SiteClock.instant).parameters["policy"]
    assert policy.default is policy.empty


@given(near_a_change())
def test_what_the_wall_reads_at_an_instant_means_that_instant_again(drawn: tuple[SiteClock, int]) -> None:
    clock, instant = drawn
    wall = clock.wall(instant)
    assert instant in {clock.instant(wall, Policy.EARLIER), clock.instant(wall, Policy.LATER)}


@given(near_a_change())
def test_a_policy_matters_only_where_the_clock_changes(drawn: tuple[SiteClock, int]) -> None:
    clock, instant = drawn
    wall = clock.wall(instant)
    first, second = clock.instant(wall, Policy.EARLIER), clock.instant(wall, Policy.LATER)
    assert clock.instant(wall, Policy.COMPATIBLE) == first <= second
    if first != second:
        assert any(change.step_s == first - second for change in clock.changes(first, second + 1))


@given(near_a_change(), st.integers(0, 7200))
def test_a_missing_time_moves_forward_by_the_gap(drawn: tuple[SiteClock, int], within: int) -> None:
    clock, instant = drawn
    for change in clock.changes(instant - 7200, instant + 7200):
        if change.step_s > within:
            wall = EPOCH + timedelta(seconds=change.at + change.before_s + within)
            assert clock.instant(wall, Policy.COMPATIBLE) == change.at + within
            assert clock.wall(change.at + within) - wall == timedelta(seconds=change.step_s)


@given(near_a_change(), st.integers(0, 5 * 3600), st.integers(-3 * 3600, 3 * 3600))
def test_a_second_is_in_a_wall_clock_span_by_what_the_wall_reads_in_it(
    drawn: tuple[SiteClock, int], length: int, after: int
) -> None:
    clock, instant = drawn
    opens = wall_seconds(clock.wall(instant))
    spans = list(instants_between(clock.timeline, Edge(opens, is_wall=True), Edge(opens + length, is_wall=True)))
    assert all(first < last for first, last in spans)
    assert all(last <= following for (_, last), (following, _) in zip(spans, spans[1:], strict=False))
    looked_at = instant + after
    reads = wall_seconds(clock.wall(looked_at))
    assert any(first <= looked_at < last for first, last in spans) == (opens <= reads < opens + length)
