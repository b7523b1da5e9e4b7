"""What waits for a person: who sees it, and what becomes of it when somebody decides."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from pengan.engine.document.tables import FORMAT
from pengan.engine.message import saying

from ..people.rights import Actor, Role, may, require, role_at
from ..problems import Problem, no_such_site
from ..sites.models import SiteCopy
from .arriving import as_sent, read
from .judging import Judgement
from .models import Edit, Waiting
from .past import Past
from .pushing import Outcome, judge_set, lock, settle_down
from .taking import Sender, as_arriving, end, take_waiting
from .verdicts import nothing_waits
from .working import kept

SEEN_BY_ALL = ("disputed", "removed")
already_decided = saying("sync.already_decided", "Somebody has decided about this edit already.")
not_held = saying("sync.not_held", "Only what is held can be accepted or declined.")


def waiting_of(
    session: Session, site: str, since: int, fresh: bool, actor: Actor | None, role: Role | None
) -> list[dict[str, Any]]:
    """What the person may see of the trays: what has changed, or for a fresh copy what is open."""
    if actor is None or role is None:
        return []
    wanted = Waiting.open if fresh else Waiting.changed > since
    found = (
        select(Waiting, Edit)
        .join(Edit, (Edit.site == Waiting.site) & (Edit.id == Waiting.edit))
        .where(Waiting.site == site, wanted)
        .order_by(Waiting.changed, Edit.place)
    )
    if not may(role, "decide_held"):
        others = [*SEEN_BY_ALL, *(("refused", "parked") if may(role, "settle") else ())]
        found = found.where(or_(Edit.person == actor.person, Waiting.tray.in_(others)))
    return [waiting_line(waits, edit) for waits, edit in session.execute(found)]


def waiting_line(waits: Waiting, edit: Edit) -> dict[str, Any]:
    """An entry of a tray, as phones are told of it."""
    told = {"set": edit.edit_set, "person": edit.person, "device": edit.device, "at": edit.at}
    return {
        "tray": waits.tray,
        "open": waits.open,
        "edit": as_sent(as_arriving(edit)) | told,
        "answer": {"id": edit.id, "set": edit.edit_set, **read(edit.answer)},
        "closed_how": waits.closed_how,
        "closed_by": waits.closed_by,
        "closed_at": waits.closed_at,
        "effect": read(waits.effect),
    }


def decide(session: Session, actor: Actor, site: str, edit: str, decision: str, sender: Sender) -> list[dict[str, Any]]:
    """Decide about a waiting edit and all of its set that waits in the same tray; their answers as they are now."""
    with session.begin():
        require(session, actor, site, "read")
        copy = lock(session, site)
        if copy is None:
            raise Problem(404, no_such_site(site_id=site))
        rows = _set_of(session, site, edit)
        _check(session, actor, site, rows, decision)
        edits = [row.Edit for row in rows]
        if decision == "accept":
            outcome = _accept(session, copy, edits, sender)
        else:
            _put_away(copy, rows, "declined" if decision == "decline" else "discarded", sender)
            outcome = Outcome([])
        answers = [{"id": item.id, "set": item.edit_set, **read(item.answer)} for item in edits]
        counter = copy.counter
    session.expunge_all()
    settle_down(site, outcome, counter)
    return answers


def _set_of(session: Session, site: str, id: str) -> Sequence[Any]:
    found = Past(session, site)
    waits, edit = found.waiting([id]).get(id), found.edits([id]).get(id)
    if waits is None or edit is None:
        raise Problem(404, nothing_waits(given=id))
    if not waits.open:
        raise Problem(409, already_decided())
    together = (
        select(Waiting, Edit)
        .join(Edit, (Edit.site == Waiting.site) & (Edit.id == Waiting.edit))
        .where(Waiting.site == site, Edit.edit_set == edit.edit_set, Waiting.open, Waiting.tray == waits.tray)
        .where(Edit.person == edit.person)
        .order_by(Edit.revision, Edit.place)
    )
    return session.execute(together).all()


def _check(session: Session, actor: Actor, site: str, rows: Sequence[Any], decision: str) -> None:
    held = rows[0].Waiting.tray == "held"
    if (decision == "discard") == held:
        raise Problem(409, not_held())
    if not held and rows[0].Edit.person == actor.person:
        return
    require(session, actor, site, "decide_held" if held else "settle")


def _accept(session: Session, copy: SiteCopy, edits: list[Edit], sender: Sender) -> Outcome:
    """Judge what was held as if it came now, with the right to edit that the manager lends it."""
    return judge_again(session, copy, edits, "lead", sender, "accepted")


def judge_again(
    session: Session, copy: SiteCopy, edits: list[Edit], role: Role | None, sender: Sender, how: str
) -> Outcome:
    """Judge stored edits anew: what falls goes into the tray it then belongs to."""
    work, past = kept.of(session, copy), Past(session, copy.site)
    arriving = [as_arriving(edit) for edit in edits]
    named = [item.settles for item in arriving if item.settles]
    seen = [item.seen for item in arriving if isinstance(item.seen, str)]
    judgement: Judgement = judge_set(work, past, edits[0].person, role, arriving, past.edits([*named, *seen]))
    written = take_waiting(session, copy, work, edits, judgement, sender, how)
    return Outcome([], written, work)


def _put_away(copy: SiteCopy, rows: Sequence[Any], how: str, sender: Sender) -> None:
    copy.counter += 1
    for waits, edit in rows:
        end(waits, copy.counter, how, sender)
        edit.decided_by, edit.decided_at = sender.person, sender.now


def retry_parked(session: Session, site: str, sender: Sender) -> int:
    """Judge again what was parked because its format was too new, if it no longer is; how many edits there were."""
    parked = (
        select(Edit)
        .join(Waiting, (Waiting.site == Edit.site) & (Waiting.edit == Edit.id))
        .where(Edit.site == site, Waiting.tray == "parked", Waiting.open)
        .order_by(Edit.revision, Edit.place)
    )
    with session.begin():
        known = list(session.scalars(parked))
        ready = {edit.edit_set: edit.person for edit in known}
        newer = {edit.edit_set for edit in known if edit.format > FORMAT}
    tried = [(item, person) for item, person in ready.items() if item not in newer]
    return sum(_retry_set(session, site, item, person, sender) for item, person in tried)


def _retry_set(session: Session, site: str, edit_set: str, person: str, sender: Sender) -> int:
    with session.begin():
        copy = lock(session, site)
        waits = select(Waiting.edit).where(Waiting.site == site, Waiting.tray == "parked", Waiting.open)
        own = select(Edit).where(Edit.site == site, Edit.edit_set == edit_set, Edit.person == person)
        edits = list(session.scalars(own.where(Edit.id.in_(waits)).order_by(Edit.revision, Edit.place)))
        if copy is None or not edits:
            return 0
        outcome = judge_again(session, copy, edits, role_at(session, person, site), sender, "upgraded")
        counter = copy.counter
    session.expunge_all()
    settle_down(site, outcome, counter)
    return len(edits)
