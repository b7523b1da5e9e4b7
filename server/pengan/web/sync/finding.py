"""What one edit comes to against the records as they would be after the edits before it in its set."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from pengan.engine.document.read import TABLE_BY_NAME, UNKNOWN_TABLE
from pengan.engine.document.values import shown

from ..people.rights import Role, may
from .arriving import Arriving, same
from .groups import FIELDS, GROUPS, REMOVED_GROUP, parts, record_values, value_in, with_parts
from .models import Edit, Waiting
from .past import Past
from .rules import Draft
from .seen import Seen
from .verdicts import (
    Verdict,
    no_such_field,
    no_such_record,
    not_a_record,
    nothing_waits,
    only_managers,
    record_exists,
    refused,
    wrong_shape,
)
from .working import FIRST_VERSION, Held, Key

LAST = 2**30
"""Where new records stand until they are given their place in the document."""


class Finder:
    """Finds the verdicts of one set, in order, laying each edit over the draft."""

    def __init__(
        self,
        draft: Draft,
        past: Past,
        person: str,
        role: Role | None,
        known: Mapping[str, Edit],
        waiting: Mapping[str, Waiting],
    ) -> None:
        self._draft = draft
        self._past = past
        self._person = person
        self._role = role
        self._known = known
        self._waiting = waiting
        self._seen = Seen(known, person)

    def gone(self, edit: Arriving) -> Verdict | None:
        """The verdict where the record is removed and the edit does not bring it back."""
        if edit.table not in FIELDS or (edit.kind == "settle" and edit.field is None):
            return None
        held = self._draft.get(edit.key)
        forgotten = held is None and self._purged(edit.key)
        if forgotten and _removes(edit):
            return Verdict(edit, "agreed", REMOVED_GROUP, firm=True)
        if forgotten or (held is not None and held.removed and not _about_removal(edit)):
            by, at = self._past.last_change(edit.key, REMOVED_GROUP)
            return Verdict(edit, "removed", edit.field, by=by, at=at)
        return None

    def _purged(self, key: Key) -> bool:
        """Whether it was removed so long ago that its row is gone."""
        return self._draft.work.kept_from > 0 and self._past.existed(key)

    def find(self, edit: Arriving) -> Verdict:
        """The verdict by itself, before the domain's rules are looked at."""
        verdict = self._find(edit)
        self._seen.note(verdict)
        return verdict

    def _find(self, edit: Arriving) -> Verdict:
        if edit.kind == "settle" and (wrong := self._nothing_to_settle(edit)):
            return wrong
        if edit.kind == "settle" and edit.field is None:
            return Verdict(edit, "agreed", firm=True)
        if edit.table not in FIELDS:
            return refused(edit, UNKNOWN_TABLE(given=shown(edit.table), tables=", ".join(TABLE_BY_NAME)), "table")
        if edit.kind == "add":
            return self._add(edit)
        held = self._draft.get(edit.key)
        if held is None:
            return refused(edit, no_such_record())
        if _removes(edit):
            return self._remove(edit, held)
        return self._restore(edit, held) if _about_removal(edit) else self._set(edit, held)

    def _nothing_to_settle(self, edit: Arriving) -> Verdict | None:
        waits = self._waiting.get(edit.settles or "")
        proposed = self._known.get(edit.settles or "")
        if waits is None or proposed is None or (edit.field and edit.key != (proposed.record_table, proposed.record)):
            return refused(edit, nothing_waits(given=edit.settles or ""), "settles")
        if waits.tray == "held" and not may(self._role, "decide_held"):
            return refused(edit, only_managers(), "settles")
        return None

    def _set(self, edit: Arriving, held: Held) -> Verdict:
        group = edit.field or ""
        if group not in GROUPS[edit.table]:
            return refused(edit, no_such_field(given=shown(group), fields=", ".join(GROUPS[edit.table])))
        new = parts(edit.table, group, edit.now)
        if new is None:
            return refused(edit, wrong_shape(fields=", ".join(GROUPS[edit.table][group])))
        current = held.version(group)
        saw = self._seen.version(edit.key, group, edit.seen, current)
        before, values = value_in(edit.table, group, held.values), with_parts(held.values, new)
        if same(before, value_in(edit.table, group, values)):
            return self._agreed(edit, group, saw, held)
        if saw == current:
            self._draft.put(edit.key, held.raised(group, values=values))
            return Verdict(edit, "taken", group, saw, current + 1, before)
        self._draft.put(edit.key, replace(held, values=values))
        return self._disputed(edit, group, saw, held, self._in_force(edit, group, before))

    def _in_force(self, edit: Arriving, group: str, otherwise: object) -> object:
        base = self._draft.work.records.get(edit.key)
        return otherwise if base is None else value_in(edit.table, group, base.values)

    def _agreed(self, edit: Arriving, group: str, saw: int | None, held: Held) -> Verdict:
        """It stays agreed if its set falls, unless what it agrees with came in that same set."""
        base = self._draft.work.records.get(edit.key)
        return Verdict(edit, "agreed", group, saw, held.version(group), firm=base is held)

    def _disputed(self, edit: Arriving, group: str, saw: int | None, held: Held, theirs: object) -> Verdict:
        by, at = self._past.last_change(edit.key, group)
        return Verdict(edit, "disputed", group, saw, held.version(group), theirs, theirs, by, at)

    def _add(self, edit: Arriving) -> Verdict:
        if not isinstance(edit.now, Mapping):
            return refused(edit, not_a_record())
        values = record_values(edit.table, edit.now)
        held = self._draft.get(edit.key)
        if held is None:
            self._draft.put(edit.key, Held(values, order=LAST + len(self._draft.changed)))
            return Verdict(edit, "taken", None, 0, FIRST_VERSION)
        if same(values, held.values):
            return replace(self._agreed(edit, REMOVED_GROUP, 0, held), version=FIRST_VERSION)
        return refused(edit, record_exists(), "id")

    def _remove(self, edit: Arriving, held: Held) -> Verdict:
        current = held.version(REMOVED_GROUP)
        if held.removed:
            return self._agreed(edit, REMOVED_GROUP, None, held)
        newer = self._unseen(edit, held)
        self._draft.put(edit.key, held.marked(True))
        if not newer:
            return Verdict(edit, "taken", REMOVED_GROUP, current, current + 1, False)
        theirs = {group: value_in(edit.table, group, held.values) for group in newer if group != REMOVED_GROUP}
        said = [self._past.last_change(edit.key, group) for group in newer]
        by, at = max(said, key=lambda item: item[1] or 0)
        return Verdict(edit, "disputed", REMOVED_GROUP, None, current, False, theirs, by, at)

    def _unseen(self, edit: Arriving, held: Held) -> list[str]:
        """The groups that have changed since whoever removes the record saw them."""
        seen = edit.seen if isinstance(edit.seen, Mapping) else {}
        return [
            group
            for group, current in held.versions.items()
            if self._seen.version(edit.key, group, seen.get(group, FIRST_VERSION), current) != current
        ]

    def _restore(self, edit: Arriving, held: Held) -> Verdict:
        current = held.version(REMOVED_GROUP)
        saw = self._seen.version(edit.key, REMOVED_GROUP, edit.seen, current)
        if not held.removed:
            return self._agreed(edit, REMOVED_GROUP, saw, held)
        self._draft.put(edit.key, held.marked(False) if saw == current else replace(held, removed=False))
        if saw == current:
            return Verdict(edit, "taken", REMOVED_GROUP, saw, current + 1, True)
        return self._disputed(edit, REMOVED_GROUP, saw, held, True)


def _about_removal(edit: Arriving) -> bool:
    return edit.kind in ("remove", "restore") or (edit.kind == "settle" and edit.field == REMOVED_GROUP)


def _removes(edit: Arriving) -> bool:
    return edit.kind == "remove" or (edit.kind == "settle" and edit.field == REMOVED_GROUP and edit.now is True)
