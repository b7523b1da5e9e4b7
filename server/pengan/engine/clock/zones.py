"""A site's clock: an IANA zone out of the package `tzdata`, a yearly rule of its own, or dated changes.

The system's zone data is never read, so that server and phone, with the same package, have the same clock.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from difflib import get_close_matches
from functools import lru_cache
from importlib.resources import files

import tzdata

from ..document.tables import Site
from ..message import saying
from .dated import dated_faults, offset_text, read_dated, write_dated
from .fault import ClockFault
from .instants import Instant, Policy, Timeline, instant_of
from .posix import read_posix, write_posix
from .rules import Change
from .same_day import rule_same_day_fault
from .tzif import read_tzif

NO_CLOCK = saying("clock.none", "The site has no clock; name its time zone, or give a rule of its own.")
SEVERAL = saying(
    "clock.several", "The site has more than one clock; keep the time zone or a rule of its own, not both."
)
NO_ZONE = saying("clock.zone_unknown", "There is no time zone named {zone}.")
NO_ZONE_NEAR = saying("clock.zone_unknown_near", "There is no time zone named {zone}; did you mean {near}?")

_FIELDS = ("zone", "zone_rule", "zone_changes")


@dataclass(frozen=True, slots=True)
class SiteClock:
    """What the clock on the site's wall reads at any instant, and when it reads what.

    `name` is the zone's name or the rule as text. `data_version` is the IANA release the zone was read from,
    empty for a rule of the site's own.
    """

    name: str
    data_version: str
    timeline: Timeline

    def offset(self, instant: int) -> int:
        """Seconds east of UTC in force at an instant."""
        return self.timeline.offset(instant)

    def wall(self, instant: int) -> datetime:
        """What the wall reads at an instant, as a naive datetime."""
        return self.timeline.wall(instant)

    def instant(self, wall: datetime, policy: Policy) -> Instant:
        """The instant a wall time means under a policy."""
        return instant_of(self.timeline, wall, policy)

    def changes(self, start: int, end: int) -> tuple[Change, ...]:
        """The changes of the clock from `start` up to and without `end`."""
        return self.timeline.changes(start, end)

    def iso(self, instant: int) -> str:
        """The instant on the site's wall with its offset, `YYYY-MM-DDTHH:MM:SS±HH:MM` (RFC 3339)."""
        return self.wall(instant).isoformat() + offset_text(self.offset(instant))


def clock_of(site: Site) -> SiteClock:
    """The clock of a site. Raises the first of `clock_faults`."""
    faults = clock_faults(site)
    if faults:
        raise faults[0]
    if site.zone:
        return zone_clock(site.zone)
    return rule_clock(site.zone_rule) if site.zone_rule else dated_clock(site.zone_changes)


def clock_faults(site: Site) -> tuple[ClockFault, ...]:
    """Everything wrong with the site's clock, each with the field it is about."""
    given = [field for field in _FIELDS if getattr(site, field)]
    if not given:
        return (ClockFault(NO_CLOCK(), "zone"),)
    faults = [ClockFault(SEVERAL(), field) for field in given[1:]]
    if site.zone and site.zone not in zone_names():
        faults.append(_unknown_zone(site.zone))
    if site.zone_rule:
        faults.extend(_rule_faults(site.zone_rule))
    if site.zone_changes:
        faults.extend(dated_faults(site.zone_changes))
    return tuple(faults)


@lru_cache(maxsize=64)
def zone_clock(name: str) -> SiteClock:
    """The clock of an IANA zone. Raises `ClockFault` for a name the package does not have."""
    if name not in zone_names():
        raise _unknown_zone(name)
    data = files("tzdata").joinpath("zoneinfo", *name.split("/")).read_bytes()
    return SiteClock(name, zone_data_version(), read_tzif(data))


def rule_clock(text: str) -> SiteClock:
    """The clock of a POSIX TZ string. Raises `ClockFault`."""
    for fault in _rule_faults(text):
        raise fault
    rule = read_posix(text)
    return SiteClock(write_posix(rule), "", Timeline(rule.offset_s, rule=rule))


def dated_clock(text: str) -> SiteClock:
    """The clock of dated changes. Raises `ClockFault`."""
    timeline = read_dated(text)
    return SiteClock(write_dated(timeline), "", timeline)


@lru_cache(maxsize=1)
def zone_names() -> frozenset[str]:
    """Every zone name the package has."""
    return frozenset(files("tzdata").joinpath("zones").read_text(encoding="ascii").split())


def zone_data_version() -> str:
    """The IANA release the package carries, such as `2026a`."""
    return str(tzdata.IANA_VERSION)


def _rule_faults(text: str) -> list[ClockFault]:
    try:
        rule = read_posix(text)
    except ClockFault as fault:
        return [fault]
    same_day = rule_same_day_fault(rule)
    return [same_day] if same_day else []


def _unknown_zone(name: str) -> ClockFault:
    near = get_close_matches(name, sorted(zone_names()), n=1)
    if near:
        return ClockFault(NO_ZONE_NEAR(zone=name, near=near[0]), "zone")
    return ClockFault(NO_ZONE(zone=name), "zone")
