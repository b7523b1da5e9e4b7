"""What the history is asked while a set is judged."""

from __future__ import annotations

from collections.abc import Iterable

from sqlalchemy import ColumnElement, or_, select
from sqlalchemy.orm import Session

from .groups import REMOVED_GROUP
from .models import Edit, Waiting
from .working import Key

Said = tuple[str | None, int | None]
"""By whom and when."""


class Past:
    """One site's history and trays, seen from inside a transaction."""

    def __init__(self, session: Session, site: str) -> None:
        self._session = session
        self._site = site

    def edits(self, ids: Iterable[str]) -> dict[str, Edit]:
        """The edits among these ids that came before, by id."""
        wanted = sorted(set(ids))
        if not wanted:
            return {}
        found = self._session.scalars(select(Edit).where(Edit.site == self._site, Edit.id.in_(wanted)))
        return {edit.id: edit for edit in found}

    def waiting(self, ids: Iterable[str]) -> dict[str, Waiting]:
        """The edits among these ids that wait, or waited, by id."""
        wanted = sorted(set(ids))
        if not wanted:
            return {}
        found = self._session.scalars(select(Waiting).where(Waiting.site == self._site, Waiting.edit.in_(wanted)))
        return {item.edit: item for item in found}

    def last_change(self, key: Key, group: str) -> Said:
        """Who gave a record's group the value that is in force."""
        wrote = or_(Edit.field == group, Edit.kind == "add")
        if group == REMOVED_GROUP:
            wrote = or_(Edit.field == group, Edit.kind.in_(("add", "remove", "restore")))
        return self._last(key, wrote)

    def beside(self, key: Key, group: str, since: int, person: str) -> list[dict[str, object]]:
        """What others changed in the record's other fields after a revision, the newest change of each field."""
        found = self._session.execute(
            select(Edit.field, Edit.person, Edit.at)
            .where(Edit.site == self._site, Edit.record_table == key[0], Edit.record == key[1])
            .where(Edit.outcome == "taken", Edit.revision > since, Edit.person != person)
            .where(Edit.field.is_not(None), Edit.field != group)
            .order_by(Edit.revision, Edit.place)
        )
        return list({row.field: {"field": row.field, "by": row.person, "when": row.at} for row in found}.values())

    def existed(self, key: Key) -> bool:
        """Whether there ever was such a record."""
        return self._last(key, Edit.kind == "add") != (None, None)

    def _last(self, key: Key, wrote: ColumnElement[bool]) -> Said:
        found = self._session.execute(
            select(Edit.person, Edit.at)
            .where(Edit.site == self._site, Edit.record_table == key[0], Edit.record == key[1])
            .where(Edit.outcome == "taken", wrote)
            .order_by(Edit.revision.desc(), Edit.place.desc())
            .limit(1)
        ).one_or_none()
        return (found.person, found.at) if found else (None, None)
