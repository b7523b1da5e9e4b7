"""What can be done with a site's history: read it, undo a part of it, see the document as it stood."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any
from uuid import uuid4

from sqlalchemy import Select, func, or_, select
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.message import saying

from ..database import reading
from ..people.rights import Actor, require
from ..problems import Problem, no_such_site
from ..sites.models import SiteCopy
from ..sync.answering import names_of, with_names
from ..sync.arriving import ArrivingSet, as_sent, read
from ..sync.models import Edit
from ..sync.pushing import take_set
from ..sync.schemas import MOST_EDITS, PROTOCOL
from ..sync.taking import Sender, as_arriving
from .replay import document_of_records, replayed
from .undoing import undoing

Filters = Mapping[str, Any]

nothing_to_undo = saying("history.nothing_to_undo", "There is no taken edit or set {given} that could be undone.")
too_much_to_undo = saying("history.too_much_to_undo", "This set has {given} edits; {most} is the most undone at once.")
not_then = saying("history.not_then", "The site was not here yet at that time.")


def history(
    session: Session,
    actor: Actor | None,
    site: str,
    before_revision: int | None = None,
    limit: int = 100,
    filters: Filters | None = None,
) -> dict[str, object]:
    """The edits of a site in the order in which the server decided, the newest first; whole sets, so that a page may
    be a little longer than `limit`. Filters: person, table, record, set, outcome, since, until (instants).

    `next` is what to give as `before_revision` for the page after, or None.
    """
    with reading(session):
        require(session, actor, site, "note")  # not "read": who reads an open site as a stranger sees no names
        found = _filtered(site, filters or {})
        if before_revision is not None:
            found = found.where(Edit.revision < before_revision)
        edits = _whole_revisions(session, found, limit)
        names = names_of(session, [name for edit in edits for name in (edit.person, edit.decided_by)])
        more = bool(edits) and session.scalar(found.where(Edit.revision < edits[-1].revision).limit(1)) is not None
        return {
            "site": site,
            "edits": [line(edit) for edit in edits],
            "people": names,
            "next": edits[-1].revision if more else None,
        }


def _filtered(site: str, filters: Filters) -> Select[Edit]:
    columns = {
        "person": Edit.person,
        "table": Edit.record_table,
        "record": Edit.record,
        "set": Edit.edit_set,
        "outcome": Edit.outcome,
    }
    found = select(Edit).where(Edit.site == site).order_by(Edit.revision.desc(), Edit.place.desc())
    for name, column in columns.items():
        if filters.get(name) is not None:
            found = found.where(column == filters[name])
    if filters.get("since") is not None:
        found = found.where(Edit.at >= filters["since"])
    if filters.get("until") is not None:
        found = found.where(Edit.at < filters["until"])
    return found


def _whole_revisions(session: Session, found: Select[Edit], limit: int) -> list[Edit]:
    edits = list(session.scalars(found.limit(limit)))
    if len(edits) == limit:
        last = edits[-1]
        rest = found.where(Edit.revision == last.revision, Edit.place < last.place)
        edits.extend(session.scalars(rest.limit(MOST_EDITS)))
    return edits


def line(edit: Edit) -> dict[str, object]:
    """An edit as the history tells it."""
    return {
        **as_sent(as_arriving(edit)),
        "field": edit.field,
        "before": read(edit.before),
        "set": edit.edit_set,
        "revision": edit.revision,
        "outcome": edit.outcome,
        "version": edit.version,
        "person": edit.person,
        "device": edit.device,
        "at": edit.at,
        "decided_by": edit.decided_by,
        "decided_at": edit.decided_at,
        "undoes": edit.undoes,
        "effect": read(edit.effect),
    }


def undo(session: Session, actor: Actor, site: str, which: str, now: Instant) -> dict[str, object]:
    """Undo a set, or one edit (by its id), as a new set; answers as a push does.

    What somebody changed since is not overwritten: it becomes a dispute, as with any edit that did not know of it.
    """
    with reading(session):
        require(session, actor, site, "edit")
        taken = _taken(session, site, which)
    if not taken:
        raise Problem(404, nothing_to_undo(given=which))
    edits = undoing(taken)
    if len(edits) > MOST_EDITS:
        raise Problem(413, too_much_to_undo(given=len(edits), most=MOST_EDITS))
    arriving = ArrivingSet(str(uuid4()), site, edits)
    answers = take_set(session, actor, arriving, Sender(actor.person, actor.device, now))
    return {"protocol": PROTOCOL, "answers": with_names(session, answers), "unanswered": []}


def _taken(session: Session, site: str, which: str) -> Sequence[Edit]:
    """The edits in the order in which they have to be undone: the last one first."""
    own = select(Edit).where(Edit.site == site, Edit.outcome == "taken")
    own = own.where(or_(Edit.id == which, Edit.edit_set == which))
    return session.scalars(own.order_by(Edit.revision.desc(), Edit.place.desc()).limit(MOST_EDITS * 2)).all()


def document_at(
    session: Session, actor: Actor | None, site: str, revision: int | None = None, at: int | None = None
) -> dict[str, object]:
    """The document as it stood at a revision, or at an instant (neither: today), out of the history."""
    with reading(session):
        require(session, actor, site, "read")
        if session.get(SiteCopy, site, populate_existing=True) is None:
            raise Problem(404, no_such_site(site_id=site))
        stood = _stood(session, site, revision, at)
        if stood is None:
            raise Problem(404, not_then())
        return {"revision": stood, "document": document_of_records(replayed(session, site, stood))}


def _stood(session: Session, site: str, revision: int | None, at: int | None) -> int | None:
    """The last revision that changed the document until then."""
    last = select(func.max(Edit.revision)).where(Edit.site == site, Edit.outcome == "taken")
    if revision is not None:
        last = last.where(Edit.revision <= revision)
    if at is not None:
        last = last.where(Edit.at <= at)
    return session.scalar(last)
