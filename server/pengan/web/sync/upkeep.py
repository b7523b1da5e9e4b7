"""What has to be done from time to time: edits that waited for this version are judged, old removal marks forgotten."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy import delete, func, select
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant

from ..database import reading
from ..sites.models import REMOVED, REVISION, ROWS, SiteCopy
from .models import Edit, Waiting
from .pushing import lock
from .taking import Sender
from .trays import retry_parked
from .working import Held, Key, held_of, targets

KEPT_S = 400 * 24 * 3600
"""How long at least a removed record's row stays, so that whoever edits it late finds it there to restore."""


@dataclass(frozen=True, slots=True)
class Tended:
    """What was done: edits judged that had been parked, and removed records forgotten."""

    unparked: int
    forgotten: int


def tend(session: Session, now: Instant) -> Tended:
    """See to every site. Safe to run twice, and by several processes."""
    with reading(session):
        parked = session.scalars(select(Waiting.site).distinct().where(Waiting.tray == "parked", Waiting.open)).all()
        sites = session.scalars(select(SiteCopy.site).order_by(SiteCopy.site)).all()
    unparked = sum(retry_parked(session, site, Sender("", None, now)) for site in parked)
    return Tended(unparked, sum(forget_removed(session, site, now - KEPT_S) for site in sites))


def forget_removed(session: Session, site: str, before: int) -> int:
    """Delete the rows of records removed before an instant; how many. The history keeps all their edits.

    A phone that has not heard of such a removal gets a fresh copy from then on.
    """
    with reading(session):
        if not _old(session, site, before):
            return 0
    with session.begin():
        copy = lock(session, site)
        gone = _unreferred(session, site, _old(session, site, before)) if copy is not None else {}
        if copy is None or not gone:
            return 0
        copy.kept_from = max(copy.kept_from, *(held.revision for held in gone.values()))
        for name, id in gone:
            table = ROWS[name]
            session.execute(delete(table).where(table.c.site == site, table.c.id == id))
        return len(gone)


def _old(session: Session, site: str, before: int) -> dict[Key, Held]:
    """The removed records whose removal is that old."""
    last = select(func.max(Edit.revision)).where(Edit.site == site, Edit.at < before).scalar_subquery()
    found: dict[Key, Held] = {}
    for name, table in ROWS.items():
        removed = select(table).where(table.c.site == site, table.c[REMOVED], table.c[REVISION] <= last)
        found.update({(name, row["id"]): held_of(name, row) for row in session.execute(removed).mappings()})
    return found


def _unreferred(session: Session, site: str, old: Mapping[Key, Held]) -> dict[Key, Held]:
    """Those that no younger removed record refers to: it may be restored yet."""
    younger: dict[Key, Held] = {}
    for name, table in ROWS.items():
        removed = select(table).where(table.c.site == site, table.c[REMOVED])
        rows = {(name, row["id"]): held_of(name, row) for row in session.execute(removed).mappings()}
        younger.update({key: held for key, held in rows.items() if key not in old})
    kept: set[Key] = set()
    reach = list(younger.items())
    while reach:
        key, held = reach.pop()
        for target in targets(key[0], held.values):
            if target in old and target not in kept:
                kept.add(target)
                reach.append((target, old[target]))
    return {key: held for key, held in old.items() if key not in kept}
