"""Clocks of IANA zones beside Python's `zoneinfo` (standard library), and the faults of a site's clock."""

from __future__ import annotations

import zoneinfo
from calendar import timegm
from collections.abc import Callable
from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest
import tzdata

from pengan.engine.clock.fault import ClockFault
from pengan.engine.clock.zones import clock_faults, clock_of, zone_clock, zone_data_version, zone_names
from pengan.engine.document.tables import Site

Outside = Callable[[str], ZoneInfo]
FROM, UNTIL = timegm((2024, 1, 1, 0, 0, 0)), timegm((2038, 1, 1, 0, 0, 0))
TWO_WEEKS_S = 14 * 86_400
LONG_AGO, FAR_AHEAD = timegm((1850, 1, 1, 0, 0, 0)), timegm((2250, 1, 1, 0, 0, 0))


def outside_offset(zone: ZoneInfo, instant: int) -> int:
    offset = datetime.fromtimestamp(instant, UTC).astimezone(zone).utcoffset()
    assert offset is not None
    return int(offset.total_seconds())


def test_every_change_of_every_zone_is_the_one_zoneinfo_has(outside_zone: Outside) -> None:
    """From the first local time to 2250: the offset a second before each change and at it."""
    wrong, seen = [], 0
    for name in sorted(zone_names()):
        clock, zone = zone_clock(name), outside_zone(name)
        for change in clock.changes(LONG_AGO, FAR_AHEAD):
            seen += 1
            if (
                outside_offset(zone, change.at - 1) != change.before_s
                or outside_offset(zone, change.at) != change.after_s
            ):
                wrong.append((name, change))
    assert not wrong
    assert seen > 100_000


def test_no_change_is_missed_from_2024_to_2037(outside_zone: Outside) -> None:
    """Every fortnight between the changes we list, zoneinfo has the offset we have."""
    wrong = [
        (name, instant)
        for name in sorted(zone_names())
        for instant in range(FROM, UNTIL, TWO_WEEKS_S)
        if outside_offset(outside_zone(name), instant) != zone_clock(name).offset(instant)
    ]
    assert not wrong


def test_an_iso_time_reads_back_as_its_instant(outside_zone: Outside) -> None:
    clock = zone_clock("Asia/Kathmandu")
    for instant in (0, 510_000_000, 1_790_000_000):
        assert datetime.fromisoformat(clock.iso(instant)) == datetime.fromtimestamp(instant, UTC)


def test_the_systems_zone_data_is_not_needed() -> None:
    before = zoneinfo.TZPATH
    zone_clock.cache_clear()
    zoneinfo.reset_tzpath(to=[])
    try:
        assert zone_clock("Europe/Lisbon").offset(timegm((2026, 7, 1, 0, 0, 0))) == 3600
    finally:
        zoneinfo.reset_tzpath(to=before)


def test_a_zones_clock_says_which_release_of_the_data_it_is() -> None:
    clock = clock_of(Site(id="s", name="S", zone="Europe/Lisbon"))
    assert (clock.name, clock.data_version) == ("Europe/Lisbon", tzdata.IANA_VERSION)
    assert clock.data_version == zone_data_version()


def test_a_rule_of_ones_own_has_its_text_as_name_and_no_release() -> None:
    clock = clock_of(Site(id="s", name="S", zone_rule="CET-01:00CEST-2,M3.5.0/2,M10.5.0/3"))
    assert (clock.name, clock.data_version) == ("CET-1CEST,M3.5.0,M10.5.0/3", "")


@pytest.mark.parametrize(
    ("fields", "codes"),
    [
        ({}, ["clock.none"]),
        ({"zone": "Europe/Lisbon", "zone_rule": "WET0"}, ["clock.several"]),
        ({"zone": "Europe/Lisboa"}, ["clock.zone_unknown_near"]),
        ({"zone": "Qqqq/Xxxx"}, ["clock.zone_unknown"]),
        ({"zone": "../../etc/passwd"}, ["clock.zone_unknown"]),
        ({"zone_rule": "CET"}, ["clock.rule_ends_early"]),
        ({"zone_rule": "CET-1CEST,M3.5.0,M3.5.0/3"}, ["clock.changes_one_day"]),
        ({"zone_changes": "one hour, 2026-10-25T01:00Z +25:00"}, ["clock.change_unreadable"] * 2),
        ({"zone": "Nowhere", "zone_rule": "X"}, ["clock.several", "clock.zone_unknown", "clock.rule_unreadable"]),
    ],
)
def test_all_faults_of_a_clock_are_found_at_once(fields: dict[str, str], codes: list[str]) -> None:
    site = Site(id="s", name="S", **fields)
    assert [fault.message.code for fault in clock_faults(site)] == codes
    with pytest.raises(ClockFault) as raised:
        clock_of(site)
    assert raised.value.message.code == codes[0]


def test_a_misspelt_zone_is_answered_with_the_nearest() -> None:
    (fault,) = clock_faults(Site(id="s", name="S", zone="Europe/Lisboa"))
    assert (fault.field, fault.message.params["near"]) == ("zone", "Europe/Lisbon")
