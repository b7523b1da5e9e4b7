"""Nights ahead, for the rest of the server: ask for planning, do some of it, read what was planned."""

from __future__ import annotations

import json
import logging
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from sqlalchemy import select
from sqlalchemy.orm import Session

from pengan.engine.clock.nights import night_on
from pengan.engine.clock.zones import clock_of
from pengan.words.names import SiteNames
from pengan.words.wall import SiteWall

from ..database import reading
from ..nights.clocks import NightClock, clocks_in
from ..nights.models import StoredSheet
from ..nights.operations import WrittenSheet
from ..nights.schemas import NightClockSchema
from ..nights.stored import PLANNER, body_of
from ..people.rights import Actor, require
from ..sites.models import SiteCopy
from ..sites.operations import document_in
from ..sync.arriving import Arriving
from .models import PlanningJob
from .notices import Notice, notices_of
from .planning import NIGHTS_AHEAD, Orders, work
from .queue import Claim, ClaimLost, claim_next, give_back, put_off, queue, queue_outdated

__all__ = [
    "PLANNER",
    "SheetChanges",
    "Worked",
    "notices_for",
    "queue",
    "queue_outdated",
    "queue_taken",
    "sheets_for",
    "sheets_since",
    "work_once",
]

logger = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Worked:
    """One claim, done with: how many sheets were worked out, and the kind of fault that stopped it, if any."""

    site: str
    stage: int
    sheets: int
    fault: str | None = None


@dataclass(frozen=True, slots=True)
class SheetChanges:
    """Sheets given out after a cursor, the newest of each night, and the cursor to ask with next time.

    `revision` is the document's for which all the nights are planned; where the document's own is higher, the rest is
    still to come. `tonight` is the date of the first night. `clocks` are the site's over the nights of the sheets.
    """

    next: int
    revision: int
    tonight: str
    sheets: tuple[WrittenSheet, ...]
    clocks: tuple[NightClock, ...]

    def as_text(self) -> str:
        """As JSON. Night sheets are JSON already, and large: they are put in as they are."""
        head = json.dumps({"next": self.next, "revision": self.revision, "tonight": self.tonight})
        clocks = NightClockSchema(many=True).dumps(self.clocks)
        sheets = ",".join(sheet.body for sheet in self.sheets)
        return f'{head[:-1]},"clocks":{clocks},"sheets":[{sheets}]}}'


def queue_taken(session: Session, site: str, revision: int, _edits: Sequence[Arriving]) -> None:
    """What `on_taken` calls inside the transaction of a push."""
    queue(session, site, revision)


def work_once(session: Session, worker: str, now: int, orders: Orders | None = None) -> Worked | None:
    """Claim the site that has waited longest, plan it, let go of it. None where nothing is due.

    Whatever goes wrong with one site is logged and puts that site off; nothing is raised but the database's own
    failures.
    """
    orders = orders or Orders()
    claim = claim_next(session, worker, now, orders.clock())
    if claim is None:
        return None
    try:
        made = work(session, claim, orders, now)
    except ClaimLost:
        session.rollback()
        return Worked(claim.site, claim.stage, 0, ClaimLost.__name__)
    except Exception as fault:  # noqa: BLE001  (a site that cannot be planned must not hold up the others)
        return _failed(session, claim, now, fault)
    if orders.stopping():
        give_back(session, claim)
    return Worked(claim.site, claim.stage, made)


def _failed(session: Session, claim: Claim, now: int, fault: Exception) -> Worked:
    session.rollback()
    session.expire_all()
    logger.error("a site could not be planned", exc_info=fault, extra={"site": claim.site})
    with session.begin():
        revision = session.scalar(select(SiteCopy.revision).where(SiteCopy.site == claim.site)) or 0
    put_off(session, claim, revision, now, type(fault).__name__)
    return Worked(claim.site, claim.stage, 0, type(fault).__name__)


def sheets_since(session: Session, site: str, cursor: int) -> SheetChanges:
    """The sheets of tonight and the nights ahead that were given out after `cursor`; all of them for a cursor of 0, or
    for one this database never gave out. Belongs to the caller's transaction, who has asked for the right to read."""
    job = session.get(PlanningJob, site)
    if job is None:
        return SheetChanges(0, 0, "", (), ())
    since = cursor if 0 <= cursor <= job.numbered else 0
    found = (
        select(StoredSheet)
        .where(StoredSheet.site == site, StoredSheet.planner == PLANNER, StoredSheet.night >= job.tonight)
        .where(StoredSheet.number > since, StoredSheet.number <= job.numbered)
        .order_by(StoredSheet.number)
    )
    newest = {stored.night: stored for stored in session.scalars(found)}
    sheets = tuple(_written(newest[night]) for night in sorted(newest))
    clocks = clocks_in(session, site, [sheet.night for sheet in sheets])
    return SheetChanges(job.numbered, job.planned, job.tonight, sheets, clocks)


def sheets_for(session: Session, actor: Actor | None, site: str) -> SheetChanges:
    """The nights ahead as they stand: up to fourteen, tonight first. Raises `Problem` where the actor may not read."""
    with reading(session):
        require(session, actor, site, "read")
        changes = sheets_since(session, site, 0)
        return replace(changes, sheets=changes.sheets[:NIGHTS_AHEAD], clocks=changes.clocks[:NIGHTS_AHEAD])


def notices_for(session: Session, actor: Actor | None, site: str) -> tuple[list[Notice], SiteNames]:
    """What the actor should know about the nights ahead, and what they need to be read on the site's own clock.

    Raises `Problem` where they may not read.
    """
    with reading(session):
        require(session, actor, site, "read")
        document = document_in(session, site).document
        notices = notices_of(session, site, None if actor is None else actor.person)
    clock = clock_of(document.site)
    nights = [date.fromisoformat(notice.night) for notice in notices] or [date(2000, 1, 1)]
    wall = SiteWall(clock, night_on(clock, min(nights)).starts, night_on(clock, max(nights)).ends)
    return notices, SiteNames(document, wall)


def _written(stored: StoredSheet) -> WrittenSheet:
    return WrittenSheet(date.fromisoformat(stored.night), stored.revision, body_of(stored))
