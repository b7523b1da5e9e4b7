"""A made-up field watched through nights with known faults: what somebody could be told, when, and of what.

Entries come as they are told: late ones late. What is watched is what a server would watch, so the times are those at
which somebody could have been told.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from pengan.engine.document.document import Document
from pengan.engine.journal.alarm import Held, gathered, matched
from pengan.engine.journal.entry import Entry
from pengan.engine.journal.finding import EXCESS, Cause, Culprit, Finding, Noticed
from pengan.engine.journal.learned import Learned, night_flows
from pengan.engine.journal.outages import path_of
from pengan.engine.journal.watch import Known, Watch, watch_night
from pengan.engine.plan.sheet import NightSheet
from pengan.field.play import play, tellings
from pengan.field.told import Told

from .field_nights import Fault, Field

WEEK = 7
"""So many sound nights teach the watch a field first."""
TICK_S = 60
"""How often somebody looks at a watch that is told nothing."""
EXCESSES = frozenset(EXCESS)
LACKS = frozenset({Noticed.TOO_LITTLE, Noticed.POWER})
SILENT = frozenset({Noticed.SILENT, Noticed.POWER, Noticed.TOO_LITTLE, Noticed.METER})
FITS = {
    "break at a station": EXCESSES,
    "break in a pipe": EXCESSES,
    "break of 8 to 20 %": EXCESSES,
    "leak of 5 L/min and more": EXCESSES,
    "leak of 1 to 5 L/min": EXCESSES,
    "valve stuck open": EXCESSES,
    "dead valve": LACKS,
    "clogged filter": LACKS,
    "stuck meter": frozenset({Noticed.METER}),
    "silent controller": frozenset({Noticed.SILENT}),
    "power cut at a cabinet": SILENT,
    "power cut of the site": SILENT,
}
"""The rows of the table, and the kinds of finding that count as having noticed."""
CAUSES = {
    "valve stuck open": Cause.STUCK_OPEN,
    "dead valve": Cause.DEAD_VALVE,
    "clogged filter": Cause.CLOGGED,
    "power cut at a cabinet": Cause.NO_POWER,
    "power cut of the site": Cause.NO_POWER,
}
"""What a row's faults are called by the one who names them; all others are breaks."""


@dataclass(frozen=True, slots=True)
class Guess:
    """One culprit as it was named: how sure, whether it is the place, and whether just that is wrong with it."""

    sure: float
    place: bool
    true: bool


@dataclass(frozen=True, slots=True)
class Outcome:
    """One fault: seconds until somebody could be told, or None; alarms about it; and who was named, the surest first.

    `first` is as it was first told, `last` as it stood in the end; None where there was nobody to name.
    """

    row: str
    after_s: int | None
    alarms: int
    first: tuple[Guess, ...] | None
    last: tuple[Guess, ...] | None
    night: tuple[int, int]


@dataclass(frozen=True, slots=True)
class FieldOutcome:
    """All of one field: its faults, and the alarms without cause in its sound nights and in the others."""

    outcomes: list[Outcome]
    cries: list[str]
    cries_beside: list[str]


@dataclass(slots=True)
class Alarm:
    """When somebody could first be told, and the finding as it was then and as it was when it last changed."""

    id: str
    at: int
    first: Finding
    last: Finding

    def is_about(self, site: Document, fault: Fault) -> bool:
        return fits(site, fault, self.first) or fits(site, fault, self.last)


class Live:
    """A night watched as its entries come, late ones late; keeps each alarm that a person would have had."""

    def __init__(self, site: Document, sheet: NightSheet, known: Known) -> None:
        self.site, self.sheet, self.known = site, sheet, known
        self.watch = Watch(site, sheet, known=known)
        self.entries: list[Entry] = []
        self.alarms: list[Alarm] = []
        self.late = False
        self.cases: list[object] = []

    def play(self, told: Iterable[Told]) -> None:
        now = 0
        for one in told:
            if self.late and one.at > now:
                self._anew(now)
            for between in range(now + TICK_S, one.at, TICK_S) if now else ():
                self.watch.tick(between)
                self._look(between)
            now = one.at
            self.entries.append(one.entry)
            self.late = not self.watch.take(one.entry) or self.late
            if not self.late:
                self._look(now)
        if self.late:
            self._anew(now)

    def _anew(self, now: int) -> None:
        self.watch = watch_night(self.site, self.sheet, self.entries, now, known=self.known)
        self.late = False
        self._look(now)

    def _look(self, now: int) -> None:
        cases: list[object] = [(case.id, case.kind, case.is_open) for case in self.watch.cases.all]
        if cases != self.cases:
            self.cases = cases
            self._file(now, gathered(self.watch.findings()))

    def _file(self, now: int, findings: Sequence[Finding]) -> None:
        """Findings become alarms as on the server."""
        alarms = {one.id: one for one in self.alarms}
        same = matched([_held(one) for one in self.alarms], findings)
        for found in findings:
            if found.id in same:
                alarms[same[found.id]].last = found
            else:
                self.alarms.append(Alarm(f"{len(self.alarms):04}", now, found, found))


def _held(one: Alarm) -> Held:
    return Held(one.id, one.last.kind, one.last.supply, one.last.controller, one.last.spells, one.last.id)


def learned(field: Field) -> Known:
    """What a week of sound nights teaches."""
    so_far = Learned()
    for night in range(WEEK):
        sheet = field.sheet_of(night)
        told = play(field.site, sheet, field.number, (), field.nature)
        watch = watch_night(field.site, sheet, told, known=known_of(field, so_far))
        so_far = so_far.with_night(sheet.night, night_flows(watch))
    return known_of(field, so_far)


def known_of(field: Field, so_far: Learned) -> Known:
    return Known(so_far.flows(), frozenset(field.site.controllers), frozenset(field.site.supplies))


def field_outcome(field: Field, nights: int) -> FieldOutcome:
    """As many sound nights as nights with faults."""
    known, out = learned(field), FieldOutcome([], [], [])
    for night in range(WEEK, WEEK + nights):
        out.cries.extend(_told(field, night, alarm.first) for alarm in _lived(field, night, (), known).alarms)
        faults = field.faults_of(night)
        live = _lived(field, night, faults, known)
        out.outcomes.extend(_outcome(fault, live, (field.number, night)) for fault in faults)
        strays = [one for one in live.alarms if not any(one.is_about(field.site, fault) for fault in faults)]
        rows = [fault.row for fault in faults]
        out.cries_beside.extend(f"{_told(field, night, one.last)} {rows}" for one in strays)
    return out


def _lived(field: Field, night: int, faults: Sequence[Fault], known: Known) -> Live:
    sheet = field.sheet_of(night)
    live = Live(field.site, sheet, known)
    live.play(tellings(field.site, sheet, field.number, [one.trouble for one in faults], field.nature))
    return live


def _told(field: Field, night: int, found: Finding) -> str:
    return f"field {field.number} night {night}: {found.kind} {found.supply or found.controller} {found.size_lpm}"


def fits(site: Document, fault: Fault, found: Finding) -> bool:
    """Whether a finding is about a fault: of a kind that fits, at a place that does, and not before it."""
    if found.kind not in FITS[fault.row] or found.noticed < fault.trouble.at:
        return False
    if fault.supply is None or found.supply is None:
        return fault.controller in (None, found.controller, *found.voices) or found.kind in LACKS
    up, down = path_of(site, fault.supply), path_of(site, found.supply)
    return (
        found.supply == fault.supply or (found.supply in up) or (fault.row == "clogged filter" and fault.supply in down)
    )


def _outcome(fault: Fault, live: Live, night: tuple[int, int]) -> Outcome:
    about = sorted((one for one in live.alarms if one.is_about(live.site, fault)), key=lambda one: (one.at, one.id))
    after = max(0, about[0].at - fault.shows) if about else None
    first = about[0].first if about else None
    last = next((one for one in live.watch.findings() if fits(live.site, fault, one)), None)
    return Outcome(fault.row, after, len(about), _guesses(fault, first), _guesses(fault, last), night)


def _guesses(fault: Fault, found: Finding | None) -> tuple[Guess, ...] | None:
    """Who was named; None where there is nobody to name: a meter or a voice by itself, or power that was told of."""
    if found is None or fault.row in ("stuck meter", "silent controller"):
        return None
    if found.kind is Noticed.METER or (found.kind in (Noticed.SILENT, Noticed.POWER) and not found.culprits):
        return None
    return tuple(_guess(fault, one) for one in found.culprits)


def _guess(fault: Fault, one: Culprit) -> Guess:
    if fault.station is not None:
        place = one.station == fault.station
    elif fault.supply is not None:
        place = one.supply == fault.supply
    else:
        place = one.cause is Cause.NO_POWER and one.controller == fault.controller
    return Guess(one.sure, place, place and one.cause is CAUSES.get(fault.row, Cause.BREAK))
