"""Working out a site's nights on demand, and keeping what was worked out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from pengan.engine.catch_up.effect import Effect
from pengan.engine.clock.instants import Instant
from pengan.engine.clock.nights import night_at
from pengan.engine.clock.zones import clock_of
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.sheet import NightSheet

from ..catch_up.kept import accepted_of, keep_worked_out
from ..catch_up.tonight import Resting, inputs_with, only_its_rest, to_plan
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
EDITED = 8
"""Constructions for what an edit changes in the rest of a night, where the settings do not say."""


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
        body = _rest(session, found, wanted, now, effort) or _whole(session, found, wanted, effort)
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


def _whole(session: Session, found: SiteDocument, night: date, effort: int | None) -> str:
    before = _before(session, found, night)
    sheet = plan_night(found.document, night, effort=effort, before=None if before is None else sheet_in(before))
    return _keep(session, found, sheet, NightInputs(found.document, PLANNER).of(night), {})


def _rest(session: Session, found: SiteDocument, night: date, now: Instant, effort: int | None) -> str | None:
    """The sheet of a night of which only the rest is planned: from the one it has. None for other nights."""
    before = _before(session, found, night)
    if before is None:
        return None
    with reading(session):
        accepted = accepted_of(session, found.site, night)
        in_force = sheet_in(before)
        if not only_its_rest(found.document, in_force, accepted, now):
            return None
        as_it_is = to_plan(session, found.document, night, accepted)
    inputs = NightInputs(found.document, PLANNER).of(night)
    resting = Resting(as_it_is, now, inputs, effort or EDITED)
    sheet = resting.sheet(in_force, before.inputs)
    return _keep(session, found, sheet, inputs_with(inputs, as_it_is.accepted), resting.effects)


def _before(session: Session, found: SiteDocument, night: date) -> StoredSheet | None:
    """The sheet of this night before the document's last change, so that a small change moves little."""
    with reading(session):
        return sheet_before(session, found.site, night, found.revision)


def _keep(session: Session, found: SiteDocument, sheet: NightSheet, inputs: str, effects: Mapping[str, Effect]) -> str:
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
            session.flush()
            keep_worked_out(session, found.site, date.fromisoformat(sheet.night), effects)
    except IntegrityError:
        session.rollback()
    return body
