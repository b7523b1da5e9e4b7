"""The queue of sites to plan: any number of processes claim sites from it, and one that is killed loses nothing.

A claim is a lease: whoever holds it renews it with every sheet it stores; one that ran out is anybody's. All waiting
is in the table, so a process that starts anew finds what is due. On PostgreSQL claimers pass over rows that another
is just claiming (`FOR UPDATE SKIP LOCKED`); SQLite has one writer at a time, and its claim is the same statement.
Instants: `now` is the server's clock, which may have been made to stand still; `real` is the machine's, for leases.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import timedelta
from typing import Any, cast

from sqlalchemy import CursorResult, or_, select, update
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Session

from ..database import Base
from ..sites.models import SiteCopy
from .models import PlanningJob

NIGHTS, POLISH = 0, 1
"""Stages: all nights quickly, tonight first; then tonight once more, with all the effort it is worth."""
AT_ONCE = 0
"""An instant long past: somebody is waiting."""
LEASE_S = int(timedelta(minutes=2).total_seconds())
FIRST_PAUSE_S, LONGEST_PAUSE_S = 30, 3600
"""After a failure a site waits, twice as long each time, so that one broken site never holds up the others."""


class ClaimLost(Exception):
    """The lease ran out and somebody else has the site now, or the site is gone. Nothing of ours was stored."""


@dataclass(frozen=True, slots=True)
class Claim:
    """A site that this worker alone may plan until its lease runs out."""

    site: str
    stage: int
    worker: str


def queue(session: Session, site: str, revision: int) -> None:
    """Have the site's nights planned for this revision, or a newer one. Belongs to the caller's transaction.

    Edits gather: however many come before a worker gets to the site, only the newest revision is planned.
    """
    session.flush()
    upsert(session, PlanningJob, {"site": site}, {"wanted": revision, "due": AT_ONCE, "stage": NIGHTS, "tries": 0})


def upsert(session: Session, model: type[Base], key: Mapping[str, object], values: Mapping[str, object]) -> None:
    """Insert a row, or give the one that has this key these values: one statement on either database."""
    row = _insert(session)(model).values(**key, **values)
    session.execute(row.on_conflict_do_update(index_elements=list(key), set_=dict(values)))


def _insert(session: Session) -> Any:
    return {"sqlite": sqlite.insert, "postgresql": postgresql.insert}[session.get_bind().dialect.name]


def queue_outdated(session: Session, planner: str) -> int:
    """Queue every site that nobody has planned yet, whose document has changed without a word to the queue, or whose
    nights another engine or other zone data planned. How many there were."""
    revision = select(SiteCopy.revision).where(SiteCopy.site == PlanningJob.site).scalar_subquery()
    missing = select(SiteCopy.site, SiteCopy.revision).where(
        ~select(PlanningJob.site).where(PlanningJob.site == SiteCopy.site).exists()
    )
    other = (PlanningJob.planner != planner) & ((PlanningJob.due > AT_ONCE) | (PlanningJob.stage != NIGHTS))
    with session.begin():
        rows = [{"site": site, "wanted": wanted} for site, wanted in session.execute(missing)]
        if rows:
            session.execute(_insert(session)(PlanningJob).on_conflict_do_nothing(), rows)
        old = update(PlanningJob).where((PlanningJob.wanted < revision) | other)
        again = old.values(wanted=revision, due=AT_ONCE, stage=NIGHTS)
        found = session.execute(again, execution_options={"synchronize_session": False})
        return len(rows) + cast(CursorResult[Any], found).rowcount


def claim_next(session: Session, worker: str, now: int, real: int) -> Claim | None:
    """Claim the site that has waited longest, or nothing where none is due."""
    free = or_(PlanningJob.until.is_(None), PlanningJob.until <= real)
    first = (
        select(PlanningJob.site)
        .where(PlanningJob.due <= now, free)
        .order_by(PlanningJob.stage, PlanningJob.due, PlanningJob.site)
        .limit(1)
        .with_for_update(skip_locked=True)
    )
    take = update(PlanningJob).where(PlanningJob.site == first.scalar_subquery())
    took = take.values(worker=worker, until=real + LEASE_S).returning(PlanningJob.site, PlanningJob.stage)
    with session.begin():
        row = session.execute(took, execution_options={"synchronize_session": False}).one_or_none()
    return None if row is None else Claim(row.site, row.stage, worker)


def lock_for_sheets(session: Session, site: str) -> None:
    """Lock the site's own row as storing a sheet does, which refers to it. To come before `hold`: a push locks the site
    first and the queue then, and two who lock in different orders would wait for one another for ever."""
    session.execute(select(SiteCopy.site).where(SiteCopy.site == site).with_for_update(read=True, key_share=True))


def hold(session: Session, claim: Claim, real: int, numbers: int = 0) -> PlanningJob:
    """Make sure that the claim is still ours, for another lease, and count so many sheets given out.

    Belongs to the caller's transaction, in which whatever refers to the site was stored before, or the site locked
    (`lock_for_sheets`). Raises `ClaimLost`.
    """
    ours = update(PlanningJob).where(PlanningJob.site == claim.site, PlanningJob.worker == claim.worker)
    renewed = ours.values(until=real + LEASE_S, numbered=PlanningJob.numbered + numbers).returning(PlanningJob)
    session.flush()
    job = session.scalars(renewed, execution_options={"populate_existing": True}).one_or_none()
    if job is None:
        raise ClaimLost(claim.site)
    return job


def give_back(session: Session, claim: Claim) -> None:
    """Let go of a claim with its work undone: it stays due, and the next to ask gets it."""
    with session.begin():
        session.execute(_ours(claim).values(worker=None, until=None))


def put_off(session: Session, claim: Claim, revision: int, now: int, fault: str) -> None:
    """Let go of a claim after a failure: the site waits, longer each time, unless it has been edited meanwhile."""
    with session.begin():
        job = session.get(PlanningJob, claim.site, with_for_update=True)
        if job is None or job.worker != claim.worker:
            return
        job.worker = job.until = None
        job.fault, job.tries = fault[:80], job.tries + 1
        if job.wanted <= revision:
            job.due = now + min(LONGEST_PAUSE_S, FIRST_PAUSE_S * 2 ** min(job.tries - 1, 10))


def _ours(claim: Claim) -> Any:
    return update(PlanningJob).where(PlanningJob.site == claim.site, PlanningJob.worker == claim.worker)
