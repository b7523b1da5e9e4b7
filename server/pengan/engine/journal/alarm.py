"""Alarms: what the watch notices, told once to people and kept until it is over. One fault is one alarm.

The same night watched twice, or anew because something came late, gives the same alarms: a finding is taken for the
alarm that is about the same place, the same kind of thing and the same time.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import IntEnum, StrEnum

from ..document.document import Document
from ..message import Message, saying
from .finding import EXCESS, Cause, Culprit, Finding, Noticed, Spell
from .outages import path_of

NEAR_S = 900
"""What began within so long of a known fault's spells may be the same fault. Common practice, no source."""
GRAVE_SHARE_PCT, GRAVE_LPM = 20, 30.0
"""So much of a supply's limit, or so much where no limit is known, is grave. Common practice, no source."""

EXPLAINED_LATER = saying("alarm.explained_later", "Readings that came later explain it: nothing was wrong.")
RIGHT_AGAIN = saying("alarm.right_again", "Readings have been right since {end_at}.")
HEARD_AGAIN = saying("alarm.heard_again", "It has been heard again since {end_at}.")
POWER_AGAIN = saying("alarm.power_again", "There is power again since {end_at}.")
NIGHT_OVER = saying("alarm.night_over", "The night is over, and nothing has shown it since.")
ENDED_BY_HAND = saying("alarm.ended_by_hand", "Somebody said that it is over.")
DRIFTED = saying(
    "alarm.drifted",
    "{station} has slowly gone from {before_lpm} to {after_lpm} since the night of {since_date}.",
)
CAUTION = saying(
    "alarm.caution",
    "Caution: water under pressure, mains and 24 V wiring can hurt people. Before anybody opens a valve, a pipe or a "
    "cabinet, make sure that water and power are off and that nobody stands near; follow local codes and licensed "
    "practice. Take reclaimed water for unsafe to touch or drink.",
)

_BREAK_STATION = saying(
    "culprit.break_station", "{sure_pct}: a break below the valve of {station}, of about {size_lpm}."
)
_BREAK_SUPPLY = saying("culprit.break_supply", "{sure_pct}: a break in the pipes of {supply}, of about {size_lpm}.")
_STUCK_OPEN = saying("culprit.stuck_open", "{sure_pct}: the valve of {station} does not close.")
_DEAD_VALVE = saying("culprit.dead_valve", "{sure_pct}: the valve of {station} does not open.")
_LOW_FLOW = saying("culprit.low_flow", "{sure_pct}: {station} gives about {size_lpm} too little.")
_CLOGGED = saying("culprit.clogged", "{sure_pct}: a clogged filter, or a valve half shut, at {supply}.")
_NO_POWER = saying("culprit.no_power", "{sure_pct}: {controller} has no power.")
_NO_POWER_SITE = saying("culprit.no_power_site", "{sure_pct}: the site has no power.")
_RUN_ONE = saying("culprit.run_one", "To tell them apart, let {station} run alone and look at the meter.")
_RUN_PAIR = saying(
    "culprit.run_pair", "To tell them apart, let {station} and {other_station} run alone and look at the meter."
)
_BY_CAUSE = {
    Cause.STUCK_OPEN: _STUCK_OPEN,
    Cause.DEAD_VALVE: _DEAD_VALVE,
    Cause.LOW_FLOW: _LOW_FLOW,
    Cause.CLOGGED: _CLOGGED,
    Cause.NO_POWER: _NO_POWER,
}


class Gravity(IntEnum):
    """How much an alarm matters; quiet hours go by it."""

    MINOR = 1
    SERIOUS = 2
    GRAVE = 3


class Family(StrEnum):
    """Kinds of findings that may turn out to be one another."""

    EXCESS = "excess"
    LACK = "lack"
    METER = "meter"
    SILENT = "silent"


_FAMILIES = {
    Noticed.TOO_LITTLE: Family.LACK,
    Noticed.POWER: Family.LACK,
    Noticed.METER: Family.METER,
    Noticed.SILENT: Family.SILENT,
}


def family_of(kind: Noticed) -> Family:
    """What a finding may have been taken for before, or may yet be."""
    return Family.EXCESS if kind in EXCESS else _FAMILIES[kind]


@dataclass(frozen=True, slots=True)
class Held:
    """An alarm that a finding may belong to. `finding` is that of this night; None: only earlier nights showed it."""

    alarm: str
    kind: Noticed
    supply: str | None
    controller: str | None
    spells: tuple[Spell, ...]
    finding: str | None = None


def matched(held: Iterable[Held], findings: Sequence[Finding]) -> dict[str, str]:
    """For each finding (by its id) the alarm that it belongs to, if there is one: the nearest one counts."""
    ways = sorted(
        (_apart(one, found), one.alarm, found.id) for one in held for found in findings if _may_be(one, found)
    )
    out: dict[str, str] = {}
    for _how_far, alarm, found in ways:
        if found not in out and alarm not in out.values():
            out[found] = alarm
    return out


def gathered(findings: Iterable[Finding]) -> list[Finding]:
    """The findings, with those about one voice's silence made one: whoever comes and goes is one fault a night."""
    out: dict[tuple[object, ...], Finding] = {}
    for one in findings:
        silent = one.kind is Noticed.SILENT
        key = (one.kind, one.supply, one.controller, len(one.voices) > 1) if silent else (one.id,)
        first = out.get(key)
        spells = tuple(sorted((*first.spells, *one.spells), key=lambda spell: spell.start)) if first else one.spells
        out[key] = replace(first or one, spells=spells)
    return list(out.values())


def _apart(one: Held, found: Finding) -> tuple[bool, bool, int]:
    return one.finding != found.id, one.supply != found.supply, abs(one.spells[0].start - found.since)


def _may_be(one: Held, found: Finding) -> bool:
    if not any(_near(old, new) for old in one.spells for new in found.spells):
        return False
    same_place = one.supply == found.supply and one.controller == found.controller
    if one.finding == found.id or _is_darkness(one, found):
        return True
    return family_of(one.kind) is family_of(found.kind) and (same_place or _shared(one, found))


def _is_darkness(one: Held, found: Finding) -> bool:
    """Whether what was a lack or a silence turns out to be power that somebody now told of: mostly once it is back."""
    if found.kind is not Noticed.POWER or found.members or family_of(one.kind) not in (Family.LACK, Family.SILENT):
        return False
    lacks = family_of(one.kind) is Family.LACK and (one.supply is None or one.supply in found.reaches)
    return found.controller is None or one.controller == found.controller or lacks


def _shared(one: Held, found: Finding) -> bool:
    """Lacks and silences move to what several share; a supply of one is among the meters that show the other."""
    return (one.supply is not None and one.supply in found.members) or (
        one.controller is not None and one.controller in found.voices
    )


def _near(old: Spell, new: Spell) -> bool:
    before = old.end is not None and old.end + NEAR_S < new.start
    after = new.end is not None and new.end + NEAR_S < old.start
    return not (before or after)


def alarm_id(site: str, night: str, found: Finding) -> str:
    """A new alarm's id: the same for the same fault, whoever notices it first."""
    return made_id(site, night, found.id.rpartition(":")[0], str(found.since))


def made_id(*parts: str) -> str:
    """An id of letters and digits out of what it stands for."""
    return hashlib.blake2b("\0".join(parts).encode("utf-8", "replace"), digest_size=16).hexdigest()


def gravity_of(document: Document, found: Finding) -> Gravity:
    """How much a finding matters."""
    if found.kind in EXCESS:
        return Gravity.GRAVE if found.size_lpm >= _much(document, found.supply) else Gravity.SERIOUS
    if found.kind is Noticed.POWER:
        return Gravity.GRAVE if found.controller is None else Gravity.SERIOUS
    if found.kind is Noticed.TOO_LITTLE:
        return Gravity.SERIOUS
    many = found.kind is Noticed.SILENT and (found.controller is not None or len(found.voices) > 1)
    return Gravity.SERIOUS if many else Gravity.MINOR


def _much(document: Document, supply: str | None) -> float:
    """What is grave at a supply, in L/min: a share of its limit, or of the nearest limit above it."""
    for node in path_of(document, supply) if supply in document.supplies and supply else ():
        limit = document.supplies[node].limit_lpm
        if limit is not None:
            return limit * GRAVE_SHARE_PCT / 100
    return GRAVE_LPM


def why_over(found: Finding) -> Message:
    """Why an alarm is over whose finding is."""
    end = found.spells[-1].end or 0
    if found.kind is Noticed.SILENT:
        return HEARD_AGAIN(end_at=end)
    power = found.kind is Noticed.POWER and not found.members
    return POWER_AGAIN(end_at=end) if power else RIGHT_AGAIN(end_at=end)


def culprit_says(one: Culprit) -> Message:
    """One culprit, and how sure that is."""
    sure = round(100 * one.sure)
    if one.cause is Cause.BREAK:
        if one.station is None:
            return _BREAK_SUPPLY(sure_pct=sure, supply=one.supply, size_lpm=one.size_lpm)
        return _BREAK_STATION(sure_pct=sure, station=one.station, size_lpm=one.size_lpm)
    if one.cause is Cause.NO_POWER and one.controller is None:
        return _NO_POWER_SITE(sure_pct=sure)
    about = {"station": one.station, "supply": one.supply, "controller": one.controller, "size_lpm": one.size_lpm}
    said = _BY_CAUSE[one.cause]
    needed = {name: value for name, value in about.items() if f"{{{name}}}" in said.template}
    return said(sure_pct=sure, **needed)


def trial_says(trial: Sequence[str]) -> Message | None:
    """What to run to tell culprits apart."""
    if not trial:
        return None
    return _RUN_ONE(station=trial[0]) if len(trial) == 1 else _RUN_PAIR(station=trial[0], other_station=trial[1])


def hints(culprits: Iterable[Culprit], trial: Sequence[str]) -> Iterator[Message]:
    """What is said beside an alarm: who may be behind it, and how to find out."""
    yield from (culprit_says(one) for one in culprits)
    told = trial_says(trial)
    if told is not None:
        yield told


def lost_l(size_lpm: float, spells: Iterable[Spell], until: int) -> float:
    """The water that an alarm stands for until an instant, about: what escaped, or did not come."""
    total = sum(max(0, (until if one.end is None else one.end) - one.start) for one in spells)
    return round(size_lpm * total / 60, 1)


def spells_of(nights: Mapping[str, Sequence[Spell]]) -> tuple[Spell, ...]:
    """An alarm's spells over all its nights; one that lasts over noon is one spell."""
    out: list[Spell] = []
    for night in sorted(nights):
        for spell in nights[night]:
            if out and out[-1].end is None:
                out[-1] = Spell(out[-1].start, out[-1].noticed, spell.end)
            else:
                out.append(spell)
    return tuple(out)
