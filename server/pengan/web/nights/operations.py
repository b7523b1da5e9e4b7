"""Working out a site's nights on demand, and keeping what was worked out."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.clock.nights import night_at
from pengan.engine.clock.zones import clock_of
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.sheet import NightSheet

from ..database import reading
from ..people.rights import Actor
from ..problems import Problem, night_out_of_reach
from ..sites.operations import SiteDocument, document_for
from .clocks import NightClock, clock_on
from .inputs import NightInputs
from .models import StoredSheet
from .stored import PLANNER, body_of, packed, sheet_at, sheet_before, sheet_in

DAYS_BACK = 7
DAYS_AHEAD = 366


@dataclass(frozen=True, slots=True)
class WrittenSheet:
    """A night sheet as the canonical JSON text the engine writes."""

    night: date
    revision: int
    body: str


def sheet_for(
    session: Session, actor: Actor | None, site: str, night: date | None, now: Instant, effort: int | None
) -> WrittenSheet:
    """The sheet of one night (None: the one that `now` falls in on the site's clock), stored or worked out and stored.

    Raises `Problem` where the actor may not read the site, or the night lies out of reach.
    """
    found = document_for(session, actor, site)
    tonight = night_at(clock_of(found.document.site), now).date
    wanted = _within_reach(night or tonight, tonight)
    body = _stored_body(session, found, wanted)
    if body is None:
        sheet = plan_night(found.document, wanted, effort=effort, before=_before(session, found, wanted))
        inputs = NightInputs(found.document, PLANNER).of(wanted)
        body = _keep(session, found, sheet, inputs)
    return WrittenSheet(wanted, found.revision, body)


def clock_over(session: Session, actor: Actor | None, site: str, night: date | None, now: Instant) -> NightClock:
    """The site's clock over one night (None: the one that `now` falls in). Raises `Problem` as `sheet_for` does."""
    found = document_for(session, actor, site).document.site
    tonight = night_at(clock_of(found), now).date
    return clock_on(found, _within_reach(night or tonight, tonight))


def _within_reach(night: date, tonight: date) -> date:
    earliest, latest = tonight - timedelta(DAYS_BACK), tonight + timedelta(DAYS_AHEAD)
    if not earliest <= night <= latest:
        raise Problem(
            404,
            night_out_of_reach(
                night_date=night.isoformat(), earliest_date=earliest.isoformat(), latest_date=latest.isoformat()
            ),
        )
    return night


def _stored_body(session: Session, found: SiteDocument, night: date) -> str | None:
    with reading(session):
        stored = sheet_at(session, found.site, night, found.revision)
        return None if stored is None else body_of(stored)


def _before(session: Session, found: SiteDocument, night: date) -> NightSheet | None:
    """The sheet of this night before the document's last change, so that a small change moves little."""
    with reading(session):
        stored = sheet_before(session, found.site, night, found.revision)
        return None if stored is None else sheet_in(stored)


def _keep(session: Session, found: SiteDocument, sheet: NightSheet, inputs: str) -> str:
    """Store a sheet. Where somebody else has stored one meanwhile, theirs stays."""
    stored = StoredSheet(
        site=found.site,
        night=sheet.night,
        revision=found.revision,
        planner=PLANNER,
        good_for=found.revision,
        inputs=inputs,
        constructions=sheet.constructions,
        packed=packed(sheet),
    )
    body = body_of(stored)
    try:
        with session.begin():
            session.add(stored)
    except IntegrityError:
        session.rollback()
    return body
