"""What was used, for whoever has the server itself: of a span of nights, or of a month."""

from __future__ import annotations

from datetime import date, timedelta

from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.clock.nights import night_at
from pengan.engine.clock.zones import clock_of

from ..database import reading
from ..sites.operations import document_in
from .operations import By, Used, used_in


def used_between(session: Session, site: str, first: date | None, last: date | None, by: By, now: Instant) -> Used:
    """From one night to another; without them, since the year began. Raises `Problem`."""
    with reading(session):
        return used_in(session, site, first, last, by, now)


def used_in_month(session: Session, site: str, month: date, by: By, now: Instant) -> Used:
    """The nights that begin in the month of this day; up to last night where it is not over, so that it is held against
    as much of the year before. Raises `Problem`."""
    first = month.replace(day=1)
    end = (first + timedelta(days=31)).replace(day=1) - timedelta(days=1)
    with reading(session):
        last_night = night_at(clock_of(document_in(session, site).document.site), now).date - timedelta(days=1)
        return used_in(session, site, first, min(end, max(first, last_night)), by, now)
