"""The site's clock beside ECMAScript Temporal, for every zone of the package and every change from 2024 to 2037.

Source: the TC39 Temporal proposal, as `temporal-polyfill` (npm) implements it, on the zone data of the Node that runs
it. One Node process answers for all zones.
"""

from __future__ import annotations

import json
import subprocess
from calendar import timegm
from collections.abc import Iterator, Mapping
from datetime import date, datetime
from pathlib import Path
from typing import Any

import pytest

from ground.node import find_node
from pengan.engine.clock.instants import Policy
from pengan.engine.clock.nights import night_on
from pengan.engine.clock.rules import Change
from pengan.engine.clock.zones import zone_clock, zone_names

HERE = Path(__file__).parent
PACKAGE = HERE.parents[2] / "pwa" / "package.json"
FROM, UNTIL = timegm((2024, 1, 1, 0, 0, 0)), timegm((2038, 1, 1, 0, 0, 0))
POLICIES = (Policy.COMPATIBLE, Policy.EARLIER, Policy.LATER)

OTHER_DATA = {
    "Factory": "no zone to Node",
    "Africa/Casablanca": "stays on UTC+0 from 2026-09-20",
    "Africa/El_Aaiun": "stays on UTC+0 from 2026-09-20",
    "America/Edmonton": "no change back after 2026-03",
    "America/Havana": "no change back in 2026",
    "America/Inuvik": "no change back after 2026-03",
    "America/Rainy_River": "no change back after 2026-03",
    "America/Vancouver": "no change back after 2026-03",
    "America/Winnipeg": "no change back after 2026-03",
    "America/Yellowknife": "no change back after 2026-03",
    "Canada/Central": "no change back after 2026-03",
    "Canada/Mountain": "no change back after 2026-03",
    "Canada/Pacific": "no change back after 2026-03",
    "Cuba": "no change back in 2026",
    "Europe/Chisinau": "changes at 01:00 UTC, not at 00:00",
    "Europe/Tiraspol": "changes at 01:00 UTC, not at 00:00",
}
"""Zones whose changes the package's release (2026f) has otherwise than the older release in Node 20 (2025c).

For these only the changes that both have are compared. How our clock reads the package's own data is compared
with `zoneinfo` in test_zones.py, without exception.
"""


@pytest.fixture(scope="module")
def temporal() -> Mapping[str, Any]:
    """What Temporal says of the changes of every zone; None for a zone Node does not know."""
    done = subprocess.run(
        [str(find_node().node), str(HERE / "temporal_zones.mjs"), str(PACKAGE)],
        input=json.dumps(sorted(zone_names())),
        capture_output=True,
        text=True,
        check=True,
        timeout=120,
    )
    zones: Mapping[str, Any] = json.loads(done.stdout)["zones"]
    return zones


def shared_changes(temporal: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    """Zone by zone, Temporal's answers about each change that our clock has as well."""
    for name, answers in temporal.items():
        ours = set(zone_clock(name).changes(FROM, UNTIL))
        for answer in answers or []:
            if Change(*answer["change"]) in ours:
                yield name, answer


def test_the_changes_of_every_zone_are_temporals(temporal: Mapping[str, Any]) -> None:
    assert set(temporal) == zone_names()
    differing = {
        name
        for name, answers in temporal.items()
        if answers is None
        or [Change(*answer["change"]) for answer in answers] != list(zone_clock(name).changes(FROM, UNTIL))
    }
    assert differing <= OTHER_DATA.keys()


def test_a_start_around_any_change_is_the_instant_temporal_says(temporal: Mapping[str, Any]) -> None:
    """Just before, at the first, middle and last missing or doubled second, and just after; under each policy."""
    wrong, seen = [], 0
    for name, answer in shared_changes(temporal):
        clock = zone_clock(name)
        for text, meant in answer["starts"]:
            seen += 1
            wall = datetime.fromisoformat(text)
            if [clock.instant(wall, policy) for policy in POLICIES] != meant:
                wrong.append((name, text))
    assert not wrong
    assert seen > 25_000


def test_nights_around_any_change_begin_and_end_at_temporals_noons(temporal: Mapping[str, Any]) -> None:
    """And so last as long: the night before the change, that of the change, and the one after."""
    wrong, lengths = [], set()
    for name, answer in shared_changes(temporal):
        for (day, noon), (_, following) in zip(answer["noons"], answer["noons"][1:], strict=False):
            night = night_on(zone_clock(name), date.fromisoformat(day))
            lengths.add(night.length_s)
            if (night.starts, night.ends) != (noon, following):
                wrong.append((name, day))
    assert not wrong
    assert {23 * 3600, 23 * 3600 + 1800, 24 * 3600, 24 * 3600 + 1800, 25 * 3600} <= lengths
