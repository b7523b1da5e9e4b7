"""What can be done with a site's history: read it, undo a part of it, see the document as it stood."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant

from ..people.rights import Actor


def history(
    session: Session,
    actor: Actor,
    site: str,
    before_revision: int | None = None,
    limit: int = 100,
    filters: Mapping[str, Any] | None = None,
) -> dict[str, object]:
    """The edits of a site, the newest first. Filters: person, table, record, set, outcome, since, until."""
    raise NotImplementedError


def undo(session: Session, actor: Actor, site: str, which: str, now: Instant) -> dict[str, object]:
    """Undo a set, or one edit (by its id), as a new set; answers as a push does."""
    raise NotImplementedError


def document_at(
    session: Session, actor: Actor | None, site: str, revision: int | None = None, at: int | None = None
) -> dict[str, object]:
    """The document as it stood at a revision, or at an instant."""
    raise NotImplementedError
