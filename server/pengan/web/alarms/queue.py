"""Which site a watching process looks at next: any number may run, and one that is killed loses nothing.

A claim is a lease. Its holder keeps the night in memory, and so goes on holding the lease between two looks; where it
dies, the lease runs out and the next process reads the night anew. On PostgreSQL claimers pass over rows that another
is just claiming (`FOR UPDATE SKIP LOCKED`); SQLite has one writer at a time.
Instants: `now` is the server's clock, which may have been made to stand still; `real` is the machine's, for leases.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sqlalchemy import or_, select, update
from sqlalchemy.orm import Session

from ..database import reading
from ..journal.inserting import insert_into
from ..journal.models import JournalHead
from .models import Watched

LEASE_S = 60
EVERY_S = 2
"""A site is not looked at more often: so long entries gather."""
NEVER = 1 << 40
"""Due only once something comes in."""
FIRST_PAUSE_S, LONGEST_PAUSE_S = 30, 3600


class ClaimLost(Exception):
    """The lease ran out and another process has the site now. Nothing of ours was stored."""


@dataclass(frozen=True, slots=True)
class Claim:
    """A site that this worker alone may watch until its lease runs out, and what was watched of it before."""

    site: str
    worker: str
    night: str
    looked: int


def take_up_new_sites(session: Session) -> None:
    """A place for every site that has a journal and none yet."""
    missing = select(JournalHead.site).where(~select(Watched.site).where(Watched.site == JournalHead.site).exists())
    with reading(session):
        sites = list(session.scalars(missing))
    if sites:
        with session.begin():
            session.execute(insert_into(session)(Watched).on_conflict_do_nothing(), [{"site": one} for one in sites])


def claim_next(session: Session, worker: str, now: int, real: int) -> Claim | None:
    """Claim the site that has waited longest and has something new, or whose time has come; None: there is none.

    Whether there is one is asked first without taking the one writer's place on SQLite.
    """
    with reading(session):
        if session.scalar(_waiting(worker, now, real)) is None:
            return None
    first = _waiting(worker, now, real).with_for_update(of=Watched, skip_locked=True)
    take = update(Watched).where(Watched.site == first.scalar_subquery())
    took = take.values(worker=worker, until=real + LEASE_S, looked_at=real)
    given = took.returning(Watched.site, Watched.night, Watched.looked)
    with session.begin():
        row = session.execute(given, execution_options={"synchronize_session": False}).one_or_none()
    return None if row is None else Claim(row.site, worker, row.night, row.looked)


def _waiting(worker: str, now: int, real: int) -> Any:
    mine = or_(Watched.until.is_(None), Watched.until <= real, Watched.worker == worker)
    rested = or_(Watched.looked_at <= real - EVERY_S, Watched.looked_at > real)
    something = or_(Watched.due <= now, JournalHead.newest > Watched.looked)
    return (
        select(Watched.site)
        .join(JournalHead, JournalHead.site == Watched.site)
        .where(mine, rested, something)
        .order_by(Watched.looked_at, Watched.site)
        .limit(1)
    )


def hold(session: Session, claim: Claim, real: int, changes: int = 0, **values: object) -> Watched:
    """Make sure that the claim is still ours, for another lease; note what was watched, and count so many changes.

    Belongs to the caller's transaction, in which it comes first. Raises `ClaimLost`.
    """
    ours = update(Watched).where(Watched.site == claim.site, Watched.worker == claim.worker)
    more = {"until": real + LEASE_S, "changes": Watched.changes + changes, "tries": 0, "fault": None, **values}
    held = session.scalars(ours.values(more).returning(Watched), execution_options={"populate_existing": True})
    row = held.one_or_none()
    if row is None:
        raise ClaimLost(claim.site)
    return row


def let_go(session: Session, worker: str) -> None:
    """Give back whatever this worker holds: it stops."""
    with session.begin():
        own = update(Watched).where(Watched.worker == worker).values(worker=None, until=None)
        session.execute(own, execution_options={"synchronize_session": False})


def put_off(session: Session, claim: Claim, real: int, fault: str) -> None:
    """Let go of a claim after a failure: the site waits, longer each time, and holds up no other."""
    with session.begin():
        row = session.get(Watched, claim.site, with_for_update=True, populate_existing=True)
        if row is None or row.worker != claim.worker:
            return
        row.fault, row.tries, row.worker = fault[:80], row.tries + 1, None
        row.until = real + min(LONGEST_PAUSE_S, FIRST_PAUSE_S * 2 ** min(row.tries - 1, 10))


def locked(session: Session, site: str) -> Watched:
    """The site's row, for a change by a person: held until the transaction ends, so that whoever asks for what changed
    after a count misses nothing. Whatever else is written comes after it, so that nobody waits in a ring."""
    return session.get_one(Watched, site, with_for_update=True, populate_existing=True)
