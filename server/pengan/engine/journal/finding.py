"""What the watch notices: one finding for one fault, from when it began until it is over, with what speaks for it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from ..message import Message, saying, saying_plural

TOO_MUCH = saying("finding.too_much", "{supply} gives {size_lpm} more than the open stations take, since {since_at}.")
TOO_LITTLE = saying(
    "finding.too_little", "{supply} gives {size_lpm} less than the open stations take, since {since_at}."
)
TOO_LITTLE_SITE = saying(
    "finding.too_little_site",
    "Several supplies give less than the open stations take, {size_lpm} together, since {since_at}.",
)
UNASKED = saying("finding.unasked", "{supply} gives {size_lpm} with nothing open, since {since_at}.")
METER = saying(
    "finding.meter", "The meter of {supply} does not agree with the valves and the meters beside it, since {since_at}."
)
POWER = saying("finding.power", "{controller} has no power, since {since_at}.")
POWER_SITE = saying("finding.power_site", "The site has no power, since {since_at}.")
POWER_GUESSED = saying(
    "finding.power_guessed", "{controller} says nothing, and its valves give no water, since {since_at}."
)
POWER_GUESSED_MANY = saying_plural(
    "finding.power_guessed_many",
    "{voices_count} controller says nothing, and its valves give no water, since {since_at}.",
    "{voices_count} controllers say nothing, and their valves give no water, since {since_at}.",
    count="voices_count",
)
SILENT_CONTROLLER = saying("finding.silent_controller", "{controller} has said nothing since {since_at}.")
SILENT_METER = saying("finding.silent_meter", "The meter of {supply} has said nothing since {since_at}.")
SILENT_MANY = saying_plural(
    "finding.silent_many",
    "{voices_count} controller or meter has said nothing since {since_at}.",
    "{voices_count} controllers and meters have said nothing since {since_at}.",
    count="voices_count",
)


class Noticed(StrEnum):
    """What kind of thing was noticed."""

    TOO_MUCH = "too_much"
    TOO_LITTLE = "too_little"
    UNASKED = "unasked"  # water with nothing open
    METER = "meter"  # a meter that contradicts valves and other meters
    SILENT = "silent"  # nothing said by a controller or a meter
    POWER = "power"  # no power, told or gathered


EXCESS = (Noticed.TOO_MUCH, Noticed.UNASKED)


@dataclass(frozen=True, slots=True)
class Spell:
    """From when to when it was so (instants); `end` None: it still is. `noticed`: when the watch could first say so."""

    start: int
    noticed: int
    end: int | None


class Cause(StrEnum):
    """What may be wrong at a culprit."""

    BREAK = "break"  # below a station's valve, or in a supply's pipe
    STUCK_OPEN = "stuck_open"
    DEAD_VALVE = "dead_valve"
    LOW_FLOW = "low_flow"  # a station that gives too little
    CLOGGED = "clogged"  # all of a supply gives too little
    NO_POWER = "no_power"  # every valve of a controller


@dataclass(frozen=True, slots=True)
class Culprit:
    """One of station, supply and controller, what may be wrong with it, and how sure that is, from 0 to 1.

    None of them: the whole site.
    """

    cause: Cause
    sure: float
    size_lpm: float
    station: str | None = None
    supply: str | None = None
    controller: str | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """One fault as far as it is known. Its `id` stays the same for as long as the night's entries grow in order.

    `supply` None: several supplies without one above them all. `members` are all meters that show it, `voices` the
    controllers and meters (`meter:<supply>`) that are silent. `readings` counts what speaks for it. `reaches`: the
    supplies that the stations draw from which power was told to be missing for.
    """

    id: str
    kind: Noticed
    supply: str | None
    controller: str | None
    size_lpm: float
    spells: tuple[Spell, ...]
    members: tuple[str, ...]
    voices: tuple[str, ...]
    readings: int
    culprits: tuple[Culprit, ...] = ()
    trial: tuple[str, ...] = ()
    reaches: tuple[str, ...] = ()

    @property
    def since(self) -> int:
        return self.spells[0].start

    @property
    def noticed(self) -> int:
        return self.spells[0].noticed

    @property
    def is_open(self) -> bool:
        return self.spells[-1].end is None

    @property
    def lost_l(self) -> float:
        """The water it cost, or kept from plants, in its spells that are over, about."""
        return round(self.size_lpm * sum(one.end - one.start for one in self.spells if one.end is not None) / 60, 1)

    def says(self) -> Message:
        """The sentence a person reads first."""
        about = {"supply": self.supply, "size_lpm": self.size_lpm, "since_at": self.since}
        if self.kind is Noticed.POWER:
            return _power(self)
        if self.kind is Noticed.SILENT:
            return _silent(self)
        if self.supply is None:
            return TOO_LITTLE_SITE(size_lpm=self.size_lpm, since_at=self.since)
        if self.kind is Noticed.METER:
            return METER(supply=self.supply, since_at=self.since)
        by_kind = {Noticed.TOO_MUCH: TOO_MUCH, Noticed.TOO_LITTLE: TOO_LITTLE, Noticed.UNASKED: UNASKED}
        return by_kind[self.kind](**about)


def _power(one: Finding) -> Message:
    if one.controller is None and one.voices:
        return POWER_GUESSED_MANY(voices_count=len(one.voices), since_at=one.since)
    if one.controller is None:
        return POWER_SITE(since_at=one.since)
    saying = POWER_GUESSED if one.voices else POWER
    return saying(controller=one.controller, since_at=one.since)


def _silent(one: Finding) -> Message:
    if len(one.voices) > 1:
        return SILENT_MANY(voices_count=len(one.voices), since_at=one.since)
    if one.controller is not None:
        return SILENT_CONTROLLER(controller=one.controller, since_at=one.since)
    return SILENT_METER(supply=one.supply, since_at=one.since)
