"""Judges one set of edits, without writing anything: which are taken, and what becomes of the others.

The order is the protocol's: role, removed, format, the domain's rules, versions. A set stands or falls together: the
first of these that one of its edits fails decides about the whole set, and the edits that are sound by themselves
share its outcome, with the ids of those at fault.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from pengan.engine.document.fault import Fault

from ..people.rights import Act, Role, may
from .arriving import Arriving
from .finding import Finder
from .groups import group_of
from .models import Edit, Waiting
from .past import Past
from .rules import Draft, faults_of
from .upgrades import is_newer, upgraded
from .verdicts import FALLS, Outcome, Verdict, no_old_format, refused, set_fell
from .working import Held, Key, Working

WALKED = ("repairs",)
"""Tables that everybody who works at a site may change: what one finds and mends on a walk."""
PLACED = frozenset({"latitude_deg", "longitude_deg"})
"""Fields of a station that they may set as well: where it lies; whoever stands there knows. No plan rests on it."""


@dataclass(frozen=True, slots=True)
class Judgement:
    """What was found about a set. `changed` is empty where it fell; `settled` are the edits that wait no longer."""

    verdicts: list[Verdict]
    changed: Mapping[Key, Held]
    settled: Mapping[str, Arriving]

    @property
    def taken(self) -> list[Verdict]:
        """The edits that change the document."""
        return [verdict for verdict in self.verdicts if verdict.outcome == "taken"]


@dataclass(frozen=True, slots=True)
class Judge:
    """What a set is judged by."""

    work: Working
    past: Past
    person: str
    role: Role | None
    known: Mapping[str, Edit] = field(default_factory=dict)
    waiting: Mapping[str, Waiting] = field(default_factory=dict)

    def judge(self, edits: Sequence[Arriving]) -> Judgement:
        """The verdicts, in the order of the edits."""
        if not all(may(self.role, self.act_of(edit)) for edit in edits):
            return Judgement([Verdict(edit, "held", edit.field) for edit in edits], {}, {})
        draft = Draft(self.work)
        finder = Finder(draft, self.past, self.person, self.role, self.known, self.waiting)
        verdicts = [self._found(finder, edit) for edit in edits]
        if not any(verdict.outcome in ("removed", "parked", "refused") for verdict in verdicts):
            _refuse(verdicts, faults_of(draft) if draft.changed else ())
        if fell := _fall(verdicts):
            return Judgement(fell, {}, {})
        settled = {edit.settles: edit for edit in edits if edit.kind == "settle" and edit.settles}
        return Judgement(verdicts, draft.changed, settled)

    def act_of(self, edit: Arriving) -> Act:
        """What the role has to allow."""
        if edit.kind == "settle":
            return "settle"
        if edit.table in WALKED:
            return "note"
        told = edit.field == "notes" or (edit.table == "stations" and edit.field in PLACED)
        return "note" if edit.kind == "set" and told else "edit"

    def _found(self, finder: Finder, edit: Arriving) -> Verdict:
        if gone := finder.gone(edit):
            return gone
        if is_newer(edit):
            return Verdict(edit, "parked", edit.field)
        today = upgraded(edit)
        if today is None:
            return refused(edit, no_old_format(format=edit.format))
        if today is not edit and (gone := finder.gone(today)):
            return gone
        return finder.find(today)


def _refuse(verdicts: list[Verdict], faults: Sequence[Fault]) -> None:
    """Lay each fault at the edits that brought it about: of that field, of that record, or all of the set."""
    for fault in faults:
        for verdict in _culprits(verdicts, fault):
            verdict.outcome = "refused"
            verdict.firm = False
            verdict.faults = (*verdict.faults, fault)


def _culprits(verdicts: list[Verdict], fault: Fault) -> list[Verdict]:
    of_record = [item for item in verdicts if item.edit.key == (fault.table, fault.record)]
    group = group_of(fault.table or "", fault.field or "") or fault.field
    of_field = [item for item in of_record if item.group == group]
    return of_field or of_record or verdicts


def _fall(verdicts: list[Verdict]) -> list[Verdict]:
    """The verdicts where the set falls; nothing where it stands."""
    outcome = next((item for item in FALLS if any(verdict.outcome == item for verdict in verdicts)), None)
    if outcome is None:
        return []
    at_fault = [verdict.edit.id for verdict in verdicts if verdict.outcome == outcome]
    return [_fallen(verdict, outcome, at_fault) for verdict in verdicts]


def _fallen(verdict: Verdict, outcome: Outcome, at_fault: list[str]) -> Verdict:
    if verdict.outcome == outcome or (outcome == "disputed" and verdict.firm):
        return verdict
    faults = verdict.faults or (Fault(verdict.edit.table, verdict.edit.record, verdict.edit.field, set_fell()),)
    return Verdict(
        verdict.edit,
        outcome,
        verdict.group,
        verdict.saw,
        verdict.saw,
        verdict.before,
        theirs=verdict.before,
        faults=faults if outcome == "refused" else (),
        with_=at_fault,
    )
