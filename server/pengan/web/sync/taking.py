"""Writes what was judged: records, history, receipts and trays, all under one revision."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from sqlalchemy import bindparam, insert, update
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.document.tables import FORMAT

from ..sites.models import ROWS, SiteCopy
from .arriving import Arriving, read, written
from .groups import REMOVED_GROUP
from .judging import Judgement
from .models import Edit, Waiting
from .taken import tell_taken
from .verdicts import SOUND, Verdict, answer_of
from .working import Held, Key, Working, row_of

Answer = dict[str, object]
IN_TRAYS = ("disputed", "removed", "refused", "held", "parked")


@dataclass(frozen=True, slots=True)
class Sender:
    """Who a set comes from, and when the server got it."""

    person: str
    device: str | None
    now: Instant


@dataclass(frozen=True, slots=True)
class Written:
    """What a set left behind: the site's new revision, the answers by edit id, and the records it changed."""

    revision: int
    answers: Mapping[str, Answer]
    changed: Mapping[Key, Held]


def take(
    session: Session, copy: SiteCopy, work: Working, edit_set: str, judgement: Judgement, sender: Sender
) -> Written:
    """Write a set that came just now."""
    revision = _next_revision(copy, judgement)
    changed = _write_records(session, copy, work, judgement.changed, revision)
    rows = [
        _edit_row(copy.site, edit_set, revision, place, verdict, sender)
        for place, verdict in enumerate(judgement.verdicts)
    ]
    if rows:
        session.execute(insert(Edit.__table__), rows)  # type: ignore[arg-type]
    trays = [_tray_row(row) for row in rows if row["outcome"] in IN_TRAYS]
    if trays:
        session.execute(insert(Waiting.__table__), trays)  # type: ignore[arg-type]
    close(session, copy.site, revision, judgement.settled, sender)
    _tell(session, copy, revision, judgement)
    answers = {verdict.edit.id: answer_of(verdict, revision, FORMAT) for verdict in judgement.verdicts}
    return Written(revision, answers, changed)


def take_waiting(
    session: Session, copy: SiteCopy, work: Working, edits: list[Edit], judgement: Judgement, sender: Sender, how: str
) -> Written:
    """Write a set that waited until now. `sender` is who had it go on; whose edits they are stays as it was."""
    revision = _next_revision(copy, judgement)
    changed = _write_records(session, copy, work, judgement.changed, revision)
    for place, (edit, verdict) in enumerate(zip(edits, judgement.verdicts, strict=True)):
        _decide(session, edit, verdict, revision, place, sender, how)
    close(session, copy.site, revision, judgement.settled, sender)
    session.flush()
    _tell(session, copy, revision, judgement)
    return Written(revision, {}, changed)


def close(session: Session, site: str, revision: int, settled: Mapping[str, Arriving], sender: Sender) -> None:
    """Note that what waited waits no longer."""
    for id, edit in settled.items():
        waits = session.get(Waiting, (site, id))
        if waits is not None and waits.open:
            end(waits, revision, "discarded" if edit.field is None else "settled", sender)
    if settled:
        session.flush()


def end(waits: Waiting, revision: int, how: str, sender: Sender) -> None:
    """Close one tray's entry."""
    waits.open, waits.changed = False, revision
    waits.closed_how, waits.closed_by, waits.closed_at = how, sender.person, sender.now


def _next_revision(copy: SiteCopy, judgement: Judgement) -> int:
    """Under the lock of the site's counter, so that the order of revisions is the order of commits."""
    copy.counter += 1
    if judgement.taken:
        copy.revision = copy.counter
    return copy.counter


def _tell(session: Session, copy: SiteCopy, revision: int, judgement: Judgement) -> None:
    taken = [verdict.edit for verdict in judgement.taken]
    if taken:
        tell_taken(session, copy.site, revision, taken)


def _write_records(
    session: Session, copy: SiteCopy, work: Working, changed: Mapping[Key, Held], revision: int
) -> dict[Key, Held]:
    final: dict[Key, Held] = {}
    for key, held in changed.items():
        final[key] = replace(held, revision=revision, order=_order(copy, work, key, held))
    for table in ROWS:
        keys = [key for key in final if key[0] == table]
        new = [row_of(copy.site, key, final[key]) for key in keys if key not in work.records]
        old = [row_of(copy.site, key, final[key]) for key in keys if key in work.records]
        if new:
            session.execute(insert(ROWS[table]), new)
        if old:
            session.execute(_UPDATES[table], [_bound(row) for row in old])
    return final


def _order(copy: SiteCopy, work: Working, key: Key, held: Held) -> int:
    if key in work.records:
        return held.order
    copy.next_order += 1
    return copy.next_order - 1


def _bound(row: Mapping[str, object]) -> dict[str, object]:
    return {f"_{name}": value for name, value in row.items()}


def _update(name: str) -> Any:
    table = ROWS[name]
    where = update(table).where(table.c.site == bindparam("_site"), table.c.id == bindparam("_id"))
    return where.values({c.name: bindparam(f"_{c.name}") for c in table.columns if c.name not in ("site", "id")})


_UPDATES = {name: _update(name) for name in ROWS}


def _edit_row(site: str, edit_set: str, revision: int, place: int, verdict: Verdict, sender: Sender) -> dict[str, Any]:
    edit = verdict.edit
    return {
        "site": site,
        "id": edit.id,
        "revision": revision,
        "place": place,
        "edit_set": edit_set,
        "kind": edit.kind,
        "record_table": edit.table[:64],
        "record": edit.record[:64],
        "field": _field(edit),
        "seen": _text(edit.seen),
        "was": _text(edit.was),
        "now": _text(edit.now),
        "format": edit.format,
        "sent": edit.sent,
        "settles": edit.settles,
        "undoes": edit.undoes,
        "person": sender.person,
        "device": sender.device,
        "phone_time": edit.phone_time,
        "at": sender.now,
        **_found(verdict, revision),
    }


def _found(verdict: Verdict, revision: int) -> dict[str, Any]:
    return {
        "saw": verdict.saw,
        "before": _text(verdict.before),
        "outcome": verdict.outcome,
        "version": verdict.version if verdict.outcome in SOUND else None,
        "answer": written(answer_of(verdict, revision, FORMAT)),
    }


def _field(edit: Arriving) -> str | None:
    return REMOVED_GROUP if edit.kind in ("remove", "restore") else edit.field


def _text(value: object) -> str | None:
    return None if value is None else written(value)


def _tray_row(row: Mapping[str, Any]) -> dict[str, Any]:
    return {"site": row["site"], "edit": row["id"], "tray": row["outcome"], "changed": row["revision"], "open": True}


def _decide(
    session: Session, edit: Edit, verdict: Verdict, revision: int, place: int, sender: Sender, how: str
) -> None:
    """Give an edit that waited its new outcome; where that is to wait again, in another tray."""
    today = verdict.edit
    edit.record_table, edit.record, edit.field = today.table[:64], today.record[:64], _field(today)
    edit.seen, edit.was, edit.now = _text(today.seen), _text(today.was), _text(today.now)
    edit.format, edit.sent = today.format, today.sent
    for name, value in _found(verdict, revision).items():
        setattr(edit, name, value)
    edit.revision, edit.place = revision, place
    edit.decided_by, edit.decided_at = sender.person or None, sender.now
    waits = session.get_one(Waiting, (edit.site, edit.id))
    if verdict.outcome in SOUND:
        end(waits, revision, how, sender)
    else:
        waits.tray, waits.changed, waits.open = verdict.outcome, revision, True


def as_arriving(edit: Edit) -> Arriving:
    """A stored edit as it came."""
    if edit.sent is not None:
        return Arriving(**read(edit.sent))
    return Arriving(
        id=edit.id,
        kind=edit.kind,
        table=edit.record_table,
        record=edit.record,
        field=None if edit.kind in ("remove", "restore") else edit.field,
        seen=read(edit.seen),
        was=read(edit.was),
        now=read(edit.now),
        format=edit.format,
        phone_time=edit.phone_time,
        settles=edit.settles,
        undoes=edit.undoes,
    )
