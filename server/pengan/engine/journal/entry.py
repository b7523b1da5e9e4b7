"""One entry of a site's journal: something that happened, at an instant, as somebody or something told it.

Entries are never changed and never taken out. They may come late and out of order; `at` says when it happened.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from ..message import Message


class Kind(StrEnum):
    """What happened. The comment names the fields that an entry of the kind has to have."""

    OPENED = "opened"  # station: its valve was opened
    CLOSED = "closed"  # station: its valve was closed
    FLOW = "flow"  # supply, flow_lpm: a meter's reading
    COUNT = "count"  # supply, count_l: a meter's counter
    POWER_LOST = "power_lost"  # controller; without one, the whole site
    POWER_BACK = "power_back"  # controller; without one, the whole site
    SHUT = "shut"  # supply: no water through it from now on
    FREED = "freed"  # supply: it gives water again
    STOPPED = "stopped"  # text: rain, or somebody's order, ends all watering for now
    LIFTED = "lifted"  # the stop is over
    ALIVE = "alive"  # controller: it is heard, and nothing else happened
    ALARM_OPENED = "alarm_opened"  # alarm, text: the watch noticed something
    ALARM_SEEN = "alarm_seen"  # alarm: a person looked at it
    ALARM_EXPLAINED = "alarm_explained"  # alarm: a person said what it was; without `explained`, something else
    ALARM_ENDED = "alarm_ended"  # alarm
    NOTE = "note"  # text: what a person wrote, about a station, a supply or the site
    FINDING = "finding"  # station, finding: what a wet check found broken
    REPLACED = "replaced"  # supply, count_l: a new meter, and what its counter shows


class Found(StrEnum):
    """What is broken at a station, as a wet check finds it."""

    HEAD = "head"
    TILT = "tilt"
    LEAK = "leak"
    PRESSURE = "pressure"
    WIRE = "wire"
    VALVE = "valve"
    CLOGGED = "clogged"
    BLOCKED = "blocked"
    OTHER = "other"


class Explained(StrEnum):
    """What a person says that an alarm was."""

    FAULT = "fault"  # something is broken
    WORK = "work"  # somebody works there
    OTHER_WATER = "other_water"  # water that nobody planned: a hose, a fountain being filled
    METER = "meter"  # the meter or its line
    NOTHING = "nothing"  # nothing was wrong
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class Entry:
    """`at` is an instant in whole seconds since 1970-01-01T00:00Z.

    `id` is made by whoever tells it (8 to 64 letters, digits and dashes): the same entry told twice is one entry.
    `by` is who told it, as `person:<id>`, `reporter:<id>` (a controller, a meter, a gateway) or `server`.
    """

    id: str
    at: int
    kind: Kind
    by: str
    station: str | None = None
    supply: str | None = None
    controller: str | None = None
    flow_lpm: float | None = None
    count_l: float | None = None
    alarm: str | None = None
    finding: Found | None = None
    count: int | None = None
    """How many are broken, in a finding."""
    explained: Explained | None = None
    text: str = ""
    said: Message | None = field(default=None, compare=False)
    """What the server itself says here, to be put into each reader's language; `text` has it in the source's. Nobody
    tells it."""
