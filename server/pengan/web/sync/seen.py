"""Which version an edit's `seen` stands for: a version is itself; one's own earlier edit, the version that it wrote."""

from __future__ import annotations

from collections.abc import Mapping

from .groups import REMOVED_GROUP
from .models import Edit
from .verdicts import SOUND, Verdict
from .working import Key


class Seen:
    """Looks versions up among a person's earlier edits, those before in the same set included."""

    def __init__(self, known: Mapping[str, Edit], person: str) -> None:
        self._known = known
        self._person = person
        self._landed: dict[str, tuple[Key, str | None, int | None]] = {}

    def note(self, verdict: Verdict) -> None:
        """Remember what came of an edit of this set."""
        edit = verdict.edit
        version = verdict.version if verdict.outcome in SOUND else verdict.saw
        self._landed[edit.id] = (edit.key, None if edit.kind == "add" else verdict.group, version)

    def version(self, key: Key, group: str, seen: object, current: int) -> int | None:
        """The version seen, or None where that cannot be told: then it was not the current one."""
        number = self._of_edit(key, group, seen) if isinstance(seen, str) else seen
        if isinstance(number, bool) or not isinstance(number, int):
            return None
        return number if 0 <= number <= current else None

    def _of_edit(self, key: Key, group: str, id: str) -> int | None:
        """An edit that was not taken stands for what its own editor had seen: values are absolute."""
        if id in self._landed:
            at, of, version = self._landed[id]
        elif id in self._known and self._known[id].person == self._person:
            edit = self._known[id]
            at, of = (edit.record_table, edit.record), None if edit.kind == "add" else edit.field
            of = REMOVED_GROUP if edit.kind in ("remove", "restore") else of
            version = edit.version if edit.outcome in SOUND else edit.saw
        else:
            return None
        return version if at == key and of in (None, group) else None
