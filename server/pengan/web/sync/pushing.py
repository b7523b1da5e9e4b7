"""Takes sets in: one transaction each, under the lock of the site's counter, so that one that fails delays no other."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session

from ..people.rights import Actor, role_at, scope_at
from ..problems import no_such_site
from ..sites.models import SiteCopy
from .arriving import Arriving, ArrivingSet, read
from .judging import Judge, Judgement
from .models import Edit
from .nudges import nudge
from .past import Past
from .schemas import ID
from .taking import Answer, Sender, Written, take
from .verdicts import Verdict, answer_of, id_taken, refused
from .working import Working, kept


@dataclass(frozen=True, slots=True)
class Outcome:
    """A set's answers, and what is to be known once its transaction is over."""

    answers: list[Answer]
    written: Written | None = None
    work: Working | None = None


def lock(session: Session, site: str) -> SiteCopy | None:
    """The site's counter, locked until the transaction ends: one set after the other, in the order of revisions."""
    return session.scalar(
        select(SiteCopy).where(SiteCopy.site == site).with_for_update().execution_options(populate_existing=True)
    )


def take_set(session: Session, actor: Actor, arriving: ArrivingSet, sender: Sender) -> list[Answer]:
    """Judge a set and write what became of it; the answers in the order of its edits."""
    with session.begin():
        outcome = _in_transaction(session, actor, arriving, sender)
    session.expunge_all()
    if outcome.written is not None:
        settle_down(arriving.site, outcome, outcome.written.revision)
    return outcome.answers


def settle_down(site: str, outcome: Outcome, revision: int) -> None:
    """After the commit: the working copy takes over what was written, and phones are nudged."""
    if outcome.written is not None and outcome.work is not None:
        outcome.work.absorb(outcome.written.changed, revision - 1, revision)
    nudge(site, revision)


def _in_transaction(session: Session, actor: Actor, arriving: ArrivingSet, sender: Sender) -> Outcome:
    copy = lock(session, arriving.site)
    if copy is None:
        return Outcome(strangers(arriving))
    past = Past(session, arriving.site)
    known = past.edits([*(edit.id for edit in arriving.edits), *_referred(arriving.edits)])
    new = _unknown(arriving.edits, known)
    if not new:
        return Outcome([_receipt(known[edit.id], arriving, sender) for edit in arriving.edits])
    role = role_at(session, actor.person, arriving.site)
    if role is None and scope_at(session, actor.person, arriving.site) == 0:
        return Outcome(strangers(arriving))
    work = kept.of(session, copy)
    judgement = judge_set(work, past, sender.person, role, new, known)
    _tell_of_others(judgement, work, past, arriving.cursor, sender.person)
    written = take(session, copy, work, arriving.id, judgement, sender)
    answers = [
        {"id": edit.id, "set": arriving.id, **written.answers[edit.id]}
        if edit.id in written.answers
        else _receipt(known[edit.id], arriving, sender)
        for edit in arriving.edits
    ]
    return Outcome(answers, written, work)


def judge_set(
    work: Working, past: Past, person: str, role: object, edits: list[Arriving], known: Mapping[str, Edit]
) -> Judgement:
    """Judge edits of one person with what the history knows of them."""
    waiting = past.waiting(edit.settles for edit in edits if edit.settles)
    return Judge(work, past, person, role, known, waiting).judge(edits)  # type: ignore[arg-type]


def _tell_of_others(judgement: Judgement, work: Working, past: Past, cursor: int | None, person: str) -> None:
    """Different fields of one record merge, but whoever edits one is told what others changed beside it meanwhile."""
    for verdict in judgement.taken if cursor is not None else ():
        held = work.records.get(verdict.edit.key)
        if held is not None and cursor is not None and held.revision > cursor and verdict.group:
            verdict.beside = past.beside(verdict.edit.key, verdict.group, cursor, person)


def strangers(arriving: ArrivingSet) -> list[Answer]:
    """What somebody is told who never had a role at the site: the same as if there were none. Nothing is kept."""
    message = no_such_site(site_id=arriving.site)
    told = (answer_of(Verdict(edit, "refused", faults=refused(edit, message).faults), 0, 0) for edit in arriving.edits)
    return [{"id": edit.id, "set": arriving.id, **answer} for edit, answer in zip(arriving.edits, told, strict=True)]


def _referred(edits: list[Arriving]) -> list[str]:
    """The earlier edits that these name."""
    named: list[str] = [edit.settles for edit in edits if edit.settles]
    for edit in edits:
        seen = list(edit.seen.values()) if isinstance(edit.seen, dict) else [edit.seen]
        named.extend(item for item in seen if isinstance(item, str))
    return [id for id in named if re.match(ID, id)]


def _unknown(edits: list[Arriving], known: Mapping[str, Edit]) -> list[Arriving]:
    """The edits that did not come before, each once."""
    once = {edit.id: edit for edit in reversed(edits) if edit.id not in known}
    return [edit for edit in edits if once.get(edit.id) is edit]


def _receipt(edit: Edit, arriving: ArrivingSet, sender: Sender) -> Answer:
    """What the edit was answered when it first came. Nobody else's edit is told about."""
    if edit.person != sender.person:
        message = id_taken()
        return {
            "id": edit.id,
            "set": arriving.id,
            "outcome": "refused",
            **message.as_json(),
            "faults": [{"table": None, "record": None, "field": "id", **message.as_json()}],
        }
    return {"id": edit.id, "set": arriving.id, **read(edit.answer)}
