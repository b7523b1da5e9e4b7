"""How long the queue of sites is, for whoever watches over the server."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import case, func, select
from sqlalchemy.orm import Session

from ..database import reading
from .models import PlanningJob
from .queue import NIGHTS, POLISH


@dataclass(frozen=True, slots=True)
class Waiting:
    """Counts of sites."""

    sites: int
    due: int
    polish: int
    claimed: int
    failing: int


def waiting(session: Session, now: int, real: int) -> Waiting:
    """Count the queue as it is."""
    job = PlanningJob
    due = job.due <= now
    counts = (
        due & (job.stage == NIGHTS),
        due & (job.stage == POLISH),
        job.until.is_not(None) & (job.until > real),
        job.tries > 0,
    )
    asked = select(func.count(), *(func.coalesce(func.sum(case((one, 1), else_=0)), 0) for one in counts))
    with reading(session):
        return Waiting(*(int(count) for count in session.execute(asked.select_from(job)).one()))
