"""The edits that take other edits back."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from uuid import uuid4

from pengan.engine.document.tables import FORMAT

from ..sync.arriving import Arriving, read
from ..sync.groups import REMOVED_GROUP
from ..sync.models import Edit
from ..sync.working import FIRST_VERSION, Key


def undoing(taken: Sequence[Edit]) -> list[Arriving]:
    """Edits that bring back what was in force before these, which are given the last one first.

    A field that a set changed several times goes back to where it was before the set, at once.
    """
    first: dict[tuple[Key, str | None], Edit] = {}
    last: dict[tuple[Key, str | None], Edit] = {}
    for edit in taken:
        subject = ((edit.record_table, edit.record), edit.field)
        last.setdefault(subject, edit)
        first[subject] = edit
    added = {key for (key, field) in first if field is None}
    wrote = _versions(taken)
    return [
        _back(edit, last[subject], wrote)
        for subject, edit in first.items()
        if subject[1] is None or subject[0] not in added
    ]


def _versions(taken: Iterable[Edit]) -> dict[Key, dict[str, int]]:
    """The newest versions that these edits wrote, by record and group."""
    wrote: dict[Key, dict[str, int]] = {}
    for edit in taken:
        group = edit.field or REMOVED_GROUP
        wrote.setdefault((edit.record_table, edit.record), {}).setdefault(group, edit.version or FIRST_VERSION)
    return wrote


def _back(edit: Edit, last: Edit, wrote: dict[Key, dict[str, int]]) -> Arriving:
    key = (edit.record_table, edit.record)
    if edit.kind == "add":
        return _edit(last, "remove", None, wrote[key], None)
    if edit.field == REMOVED_GROUP:
        was_removed = read(edit.before) is True
        if was_removed:
            return _edit(last, "remove", None, wrote[key], None)
        return _edit(last, "restore", None, last.version, None)
    return _edit(last, "set", edit.field, last.version, read(edit.before))


def _edit(undone: Edit, kind: str, field: str | None, seen: object, now: object) -> Arriving:
    return Arriving(
        id=str(uuid4()),
        kind=kind,
        table=undone.record_table,
        record=undone.record,
        field=field,
        seen=seen,
        was=read(undone.now) if kind == "set" else None,
        now=now,
        format=FORMAT,
        undoes=undone.id,
    )
