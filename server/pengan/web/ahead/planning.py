"""Planning a claimed site: tonight first, then the nights after it, and at last tonight once more with all its effort.

What has not changed is not worked out again (see `nights/inputs.py`), and sheets are stored as they are made, in
transactions that fail where the claim is no longer ours. So a process that is killed leaves only whole sheets
behind, and whoever claims the site next goes on where it stopped.

Once water has begun to run tonight, or somebody has accepted the rest of it after an interruption, tonight is never
planned as a whole again: its sheet is worked out from the one it has, from what ran and from now on (see
`catch_up/tonight.py`).
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

from sqlalchemy import select
from sqlalchemy.orm import Session

from pengan.engine.clock.nights import Night, night_at
from pengan.engine.document.document import Document
from pengan.engine.plan.asked_first import asked_first
from pengan.engine.plan.build import Built
from pengan.engine.plan.night import plan_night as plan_anew
from pengan.engine.plan.night import sheet_of
from pengan.engine.plan.sheet import NightSheet
from pengan.engine.plan.solve import solve

from ..catch_up.kept import accepted_of, keep_worked_out
from ..catch_up.tonight import Resting, inputs_with, only_its_rest, to_plan
from ..database import reading
from ..need.noon import brought_up_to_date
from ..nights.inputs import NightInputs
from ..nights.models import StoredSheet
from ..nights.stored import (
    PLANNER,
    drop_outdated,
    newest_sheets,
    of_any_planner,
    packed,
    sheet_before,
    sheet_in,
)
from ..sites.operations import SiteDocument, document_of
from .effects import amend_effect, write_effect
from .models import PlanningJob
from .notices import drop_past, keep_changed_nights, keep_clock_changes
from .queue import AT_ONCE, NIGHTS, POLISH, Claim, hold, lock_for_sheets, upsert
from .told import Told

NIGHTS_AHEAD = 14
GLANCE, SECOND_LOOK = 1, 8
"""Constructions for a night to come, and for one where not all fits at a glance or that an edit has changed. A rule of
thumb, no source: eight found what fits on the demo site."""
STORED_RUNS = 1000
"""So many runs of sheets are stored together: a transaction for each sheet of a small site would cost as much as a
tenth of its planning."""
KEPT_DAYS = 400
"""How long the sheet in force is kept after its night."""


def machine_clock() -> int:
    """The machine's time, for leases: whole seconds since 1970-01-01T00:00Z."""
    return int(time.time())


@dataclass(frozen=True, slots=True)
class Orders:
    """How a worker works: effort for tonight (None: the engine's own), what counts as a change worth telling, when to
    stop, and the clock its leases run by."""

    effort: int | None = None
    told: Told = field(default_factory=Told)
    stopping: Callable[[], bool] = bool
    clock: Callable[[], int] = machine_clock


Made = tuple[NightSheet, str]
"""A sheet and the fingerprint of what decided it."""


class Overtaken(Exception):
    """The document has changed while its nights were planned, or noon has come: only what is now is worth planning."""


@dataclass
class Work:
    """A claimed site with its document as it stands, and its nights from the one that `now` falls in."""

    session: Session
    claim: Claim
    orders: Orders
    now: int
    found: SiteDocument

    def __post_init__(self) -> None:
        self.inputs = NightInputs(self.document, PLANNER)
        self.tonight: Night = night_at(self.inputs.clock, self.now)
        self.nights = [self.tonight.date + timedelta(days) for days in range(NIGHTS_AHEAD)]
        self.changed: dict[date, NightSheet] = {}
        self.resting: Resting | None = None
        with reading(self.session):
            self.accepted = accepted_of(self.session, self.found.site, self.tonight.date)

    @property
    def document(self) -> Document:
        """The site's document."""
        return self.found.document

    def sheets(self) -> dict[str, StoredSheet]:
        """The newest sheet of each night."""
        with reading(self.session):
            return newest_sheets(self.session, self.found.site, self.nights)

    def fingerprint(self, built: Built) -> str:
        """Of all that decides a night: the document, and for tonight what was accepted besides."""
        inputs = self.inputs.of_built(built)
        return inputs_with(inputs, self.accepted) if built.tonight.night == self.tonight else inputs

    def is_newly_accepted(self) -> bool:
        """Whether something was accepted since the work began. Inside a transaction that holds the claim."""
        return len(accepted_of(self.session, self.found.site, self.tonight.date)) > len(self.accepted)


def work(session: Session, claim: Claim, orders: Orders, now: int) -> int:
    """Do what the claim is for, and let go of it. Gives back how many sheets were worked out.

    Raises `ClaimLost`; a fault of the document's clock or a mistake of ours goes through as it is.
    """
    made = 0
    while True:
        found = document_of(session, claim.site)
        if claim.stage == NIGHTS:
            found = brought_up_to_date(session, found, now)
        job = Work(session, claim, orders, now, found)
        try:
            for _sheet in _polish(job) if claim.stage == POLISH else _nights(job):
                made += 1
                if orders.stopping():
                    return made
            return made
        except Overtaken:
            session.expire_all()
            claim = Claim(claim.site, NIGHTS, claim.worker)


def _nights(job: Work) -> Iterator[NightSheet]:
    """Store what has changed, tonight first; then say of the rest that it still holds, and let go."""
    newest = job.sheets()
    same: list[StoredSheet] = []
    made: list[Made] = []
    for night in job.nights:
        built, earlier = job.inputs.built(night), newest.get(night.isoformat())
        inputs = job.fingerprint(built)
        if earlier is not None and earlier.inputs == inputs:
            same.append(earlier)
            continue
        sheet = _rest(job, built, earlier) or _glance(job, built, None if earlier is None else sheet_in(earlier))
        made.append((sheet, inputs))
        if night == job.nights[0] or sum(len(sheet.runs) for sheet, _inputs in made) >= STORED_RUNS:
            yield from _store(job, made)
            made = []
    yield from _store(job, made)
    _let_go(job, same)


def _rest(job: Work, built: Built, earlier: StoredSheet | None) -> NightSheet | None:
    """Tonight where only its rest is planned: from the sheet it has, of whichever planner. None for other nights."""
    if built.tonight.night != job.tonight:
        return None
    with reading(job.session):
        earlier = earlier or of_any_planner(job.session, job.found.site, job.tonight.date)
        if earlier is None:
            return None
        in_force = sheet_in(earlier)
        if not only_its_rest(job.document, in_force, job.accepted, job.now):
            return None
        as_it_is = to_plan(job.session, job.document, job.tonight.date, job.accepted)
    job.resting = Resting(as_it_is, job.now, job.inputs.of_built(built), SECOND_LOOK)
    return job.resting.sheet(in_force, earlier.inputs)


def _glance(job: Work, built: Built, before: NightSheet | None) -> NightSheet:
    """One construction tells a new night's end within a few per cent; only what seems not to fit is tried again.

    After an edit the first constructions keep what they can of the earlier sheet: it takes a second look to see that
    the night could now end clearly sooner.
    """
    night = built.tonight.night.date
    if before is None:
        sheet = plan_night(job.document, night, effort=GLANCE, built=built)
        if not sheet.shortfalls:
            return sheet
    return plan_night(job.document, night, effort=SECOND_LOOK, before=before)


def plan_night(
    document: Document,
    night: date,
    *,
    effort: int | None,
    before: NightSheet | None = None,
    built: Built | None = None,
) -> NightSheet:
    """What the engine makes of a night; for a first look without building it twice, which is a tenth of the work."""
    if built is None or effort is None or before is not None:
        return plan_anew(document, night, effort=effort, before=before)
    return sheet_of(built, solve(asked_first(built.problem), effort), with_relief=effort > 1)


def _store(job: Work, made: Sequence[Made]) -> list[NightSheet]:
    """Store sheets and give them out under the site's next numbers. Raises `Overtaken` after it, if an edit came."""
    if not made:
        return []
    session, found = job.session, job.found
    bodies = [packed(sheet) for sheet, _inputs in made]
    with session.begin():
        lock_for_sheets(session, found.site)
        state = hold(session, job.claim, job.orders.clock(), numbers=len(made))
        first = state.numbered - len(made) + 1
        for number, ((sheet, inputs), body) in enumerate(zip(made, bodies, strict=True), first):
            key = {"site": found.site, "night": sheet.night, "revision": found.revision, "planner": PLANNER}
            said = {"good_for": found.revision, "inputs": inputs, "constructions": sheet.constructions}
            upsert(session, StoredSheet, key, {**said, "number": number, "packed": body})
        if job.resting is not None:
            keep_worked_out(session, found.site, job.tonight.date, job.resting.effects)
        newer = state.wanted > found.revision
    job.changed.update((date.fromisoformat(sheet.night), sheet) for sheet, _inputs in made)
    if newer:
        raise Overtaken
    return [sheet for sheet, _inputs in made]


def _let_go(job: Work, same: list[StoredSheet]) -> None:
    """One transaction: what still holds is said to, people are told, and the claim ends where nothing newer came."""
    session, found = job.session, job.found
    with session.begin():
        unnumbered = [stored for stored in same if stored.number is None]
        for stored in same:
            session.merge(stored).good_for = max(stored.good_for, found.revision)
        _tell(job)
        drop_outdated(session, found.site, job.tonight.date, job.tonight.date - timedelta(KEPT_DAYS))
        state = hold(session, job.claim, job.orders.clock(), numbers=len(unnumbered))
        for place, stored in enumerate(unnumbered):
            session.merge(stored).number = state.numbered - place
        state.planned, state.planner, state.tonight = found.revision, PLANNER, job.nights[0].isoformat()
        if state.wanted > found.revision:
            raise Overtaken
        state.worker = state.until = state.fault = None
        state.tries, state.stage, state.due = 0, POLISH, AT_ONCE


def _tell(job: Work) -> None:
    """Keep notices of what is to come and of what has changed since the site was last planned, and say it in the
    history. Part of the caller's transaction."""
    session, site, revision = job.session, job.found.site, job.found.revision
    keep_clock_changes(session, site, job.inputs.clock, job.nights, job.now)
    drop_past(session, site, job.nights[0])
    since = session.scalar(select(PlanningJob.planned).where(PlanningJob.site == site)) or 0
    if not 0 < since < revision:
        return
    changed = {night: pair for night in job.nights if (pair := _pair(job, night, since)) is not None}
    keep_changed_nights(session, site, changed.values(), job.orders.told, after=since, revision=revision, now=job.now)
    if job.nights[0] in changed:
        write_effect(session, site, *changed[job.nights[0]], since=since, revision=revision)


def _pair(job: Work, night: date, since: int) -> tuple[NightSheet, NightSheet] | None:
    """The sheet a night had when the site was last planned, and the one it has now; None where it had none."""
    before = sheet_before(job.session, job.found.site, night, since)
    if before is None or before.good_for < since:
        return None
    earlier = sheet_in(before)
    return earlier, job.changed.get(night, earlier)


def _polish(job: Work) -> Iterator[NightSheet]:
    """Plan tonight with all the effort it is worth, from the sheet it has; due again at noon, for all nights.

    Not once water runs: what is to come would move again under people's eyes.
    """
    earlier = job.sheets().get(job.nights[0].isoformat())
    inputs = job.fingerprint(job.inputs.built(job.nights[0]))
    if earlier is None or earlier.inputs != inputs or not _planned_today(job):
        raise Overtaken
    if earlier.constructions <= SECOND_LOOK and not only_its_rest(
        job.document, sheet_in(earlier), job.accepted, job.now
    ):
        yield from _better(job, earlier)
    with job.session.begin():
        state = hold(job.session, job.claim, job.orders.clock())
        if state.wanted > job.found.revision or job.is_newly_accepted():
            raise Overtaken
        _rest_until_noon(state, job)


def _better(job: Work, earlier: StoredSheet) -> Iterator[NightSheet]:
    """A better sheet than the glance, or none where it is the same: phones need not fetch it twice."""
    before = sheet_in(earlier)
    sheet = plan_night(job.document, job.nights[0], effort=job.orders.effort, before=before)
    if (sheet.runs, sheet.shortfalls, sheet.bound) != (before.runs, before.shortfalls, before.bound):
        _store(job, [(sheet, earlier.inputs)])
        with job.session.begin():
            amend_effect(job.session, job.found.site, sheet, job.found.revision)
        yield sheet
        return
    with job.session.begin():
        job.session.merge(earlier).constructions = max(sheet.constructions, SECOND_LOOK + 1)
        hold(job.session, job.claim, job.orders.clock())


def _planned_today(job: Work) -> bool:
    """Whether all nights were planned since the noon with which tonight began."""
    with reading(job.session):
        tonight = job.session.scalar(select(PlanningJob.tonight).where(PlanningJob.site == job.found.site))
    return tonight == job.nights[0].isoformat()


def _rest_until_noon(state: PlanningJob, job: Work) -> None:
    state.worker = state.until = state.fault = None
    state.tries, state.stage, state.due = 0, NIGHTS, job.tonight.ends
