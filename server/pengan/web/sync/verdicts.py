"""What becomes of an edit: an outcome and what its sender is told."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from pengan.engine.document.fault import Fault
from pengan.engine.message import Message, saying

from .arriving import Arriving

Outcome = Literal["taken", "agreed", "disputed", "removed", "refused", "held", "parked"]
SOUND = ("taken", "agreed")
FALLS: tuple[Outcome, ...] = ("held", "removed", "parked", "refused", "disputed")
"""What makes a set fall, in the order in which it is looked at; `held` is decided before anything else is."""

no_such_record = saying("sync.no_such_record", "There is no such record, and there never was.")
no_such_field = saying("sync.no_such_field", "There is no field {given} here. What can be edited is: {fields}.")
wrong_shape = saying("sync.wrong_shape", "This edits several fields that belong together: {fields}. It needs them all.")
not_a_record = saying("sync.not_a_record", "A new record needs an object of its fields.")
record_exists = saying("sync.record_exists", "There is such a record already.")
no_old_format = saying("sync.no_old_format", "No version of Pengan ever wrote format {format}.")
nothing_waits = saying("sync.nothing_waits", "There is no edit {given} that waits for a decision here.")
only_managers = saying("sync.only_managers", "What is held can be accepted or declined by a manager.")
set_fell = saying("sync.set_fell", "This is sound, but other edits of the same set were refused.")
id_taken = saying("sync.id_taken", "Another edit has this id.")


@dataclass(slots=True)
class Verdict:
    """What is found about one edit. `firm`: it stays so even if the set falls.

    `group` is the field or group meant, `saw` the version its editor knew, `version` the one that it writes or agrees
    with; `before` what was in force. `theirs`, `by` and `at` tell of the other side; `with_` names the edits because of
    which the set fell, where this one is sound by itself; `beside` tells what others changed in the same record.
    """

    edit: Arriving
    outcome: Outcome
    group: str | None = None
    saw: int | None = None
    version: int | None = None
    before: object = None
    theirs: object = None
    by: str | None = None
    at: int | None = None
    faults: tuple[Fault, ...] = ()
    firm: bool = False
    with_: Sequence[str] = field(default_factory=tuple)
    beside: Sequence[Mapping[str, object]] = field(default_factory=tuple)


def refused(edit: Arriving, message: Message, field_: str | None = None) -> Verdict:
    """Refused for one reason."""
    fault = Fault(edit.table or None, edit.record or None, field_ or edit.field, message)
    return Verdict(edit, "refused", edit.field, faults=(fault,))


def answer_of(verdict: Verdict, revision: int, newest_format: int) -> dict[str, object]:
    """What the sender is told, without the edit's id and set."""
    told: dict[str, object] = {"outcome": verdict.outcome}
    if verdict.outcome in SOUND:
        told.update(version=verdict.version, revision=revision)
        told.update({"beside": list(verdict.beside)} if verdict.beside else {})
    elif verdict.outcome == "disputed":
        told.update(theirs=verdict.theirs, version=verdict.version, by=verdict.by, when=verdict.at)
    elif verdict.outcome == "removed":
        told.update(by=verdict.by, when=verdict.at)
    elif verdict.outcome == "refused":
        told.update(_refusal(verdict.faults))
    elif verdict.outcome == "held":
        told.update(why="role")
    else:
        told.update(format=newest_format)
    return told | ({"with": list(verdict.with_)} if verdict.with_ else {})


def _refusal(faults: tuple[Fault, ...]) -> dict[str, object]:
    first = faults[0].message.as_json()
    return {"code": first["code"], "params": first["params"], "faults": [fault.as_json() for fault in faults]}
