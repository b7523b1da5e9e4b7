"""What a site's night is watched by: its document, its sheet, its limits, and what earlier nights taught."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from pengan.engine.clock.nights import Night, night_on
from pengan.engine.clock.zones import SiteClock, clock_of
from pengan.engine.document.document import Document
from pengan.engine.journal.before import ACROSS_S, OF_OUTAGES, OUTAGES_S, still_in_force, with_late_runs
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.journal.learned import KEPT_NIGHTS, Learned
from pengan.engine.journal.own_limits import limits_of
from pengan.engine.journal.thresholds import Limits
from pengan.engine.journal.watch import Known
from pengan.engine.plan.sheet import NightSheet

from ..journal.finding import happened
from ..journal.inserting import ENTRIES
from ..need.waterings import sheets_in_force
from ..nights.models import StoredSheet
from ..nights.stored import sheet_in
from ..sites.models import SiteCopy
from ..sites.operations import document_in
from .models import LearnedFlow, WatchedNight

KNOWN_FOR = 3
"""Who told of valves, and which meters there are, is known from so many nights."""
WATCHED_KINDS = (
    Kind.OPENED, Kind.CLOSED, Kind.FLOW, Kind.POWER_LOST, Kind.POWER_BACK, Kind.SHUT, Kind.FREED, Kind.STOPPED,
    Kind.LIFTED, Kind.ALIVE,
)  # fmt: skip
"""What the watch looks at. Its own alarms are not among them."""
Mark = tuple[object, ...]


@dataclass(frozen=True, slots=True)
class Ground:
    """`mark` tells whether any of it has changed since. `before` holds words from before noon that still count."""

    mark: Mark
    document: Document
    clock: SiteClock
    night: Night
    sheet: NightSheet | None
    limits: Limits
    known: Known
    before: tuple[Entry, ...]


def clock_at(session: Session, site: str) -> SiteClock:
    """The site's clock. Inside a transaction. Raises `Problem` where there is no such site."""
    return clock_of(document_in(session, site).document.site)


def mark_of(session: Session, site: str, night: date) -> Mark:
    """What the night's ground goes by, cheaply asked for. Inside a transaction."""
    copy = session.execute(select(SiteCopy.epoch, SiteCopy.revision).where(SiteCopy.site == site)).one_or_none()
    days = (night - timedelta(days=1)).isoformat(), night.isoformat()
    sheets = (
        select(StoredSheet.night, func.max(StoredSheet.revision), func.max(StoredSheet.number))
        .where(StoredSheet.site == site, StoredSheet.night.in_(days))
        .group_by(StoredSheet.night)
        .order_by(StoredSheet.night)
    )
    found = tuple(tuple(row) for row in session.execute(sheets))
    return (copy and tuple(copy), night, found)


def ground_of(session: Session, site: str, night: date) -> Ground:
    """The night's ground, inside a transaction that reads. Raises `Problem` where there is no such site."""
    document = document_in(session, site).document
    clock = clock_of(document.site)
    span = night_on(clock, night)
    sheets = {day: sheet_in(stored) for day, stored in sheets_in_force(session, site, night - timedelta(days=1), night)}
    sheet = with_late_runs(sheets.get(night), sheets.get(night - timedelta(days=1)), span.starts)
    known = Known(learned_before(session, site, night).flows(), *_voices(session, site, night))
    before = tuple(_before(session, site, span.starts))
    return Ground(mark_of(session, site, night), document, clock, span, sheet, limits_of(document), known, before)


def learned_before(session: Session, site: str, night: date, *, firm: bool = False) -> Learned:
    """The flows that the nights before this one taught, for each station the latest; those alone that are `firm`, where
    that is asked. Inside a transaction."""
    rows = (
        select(LearnedFlow.station, LearnedFlow.night, LearnedFlow.flow_lpm)
        .where(LearnedFlow.site == site, LearnedFlow.night < night.isoformat())
        .order_by(LearnedFlow.station, LearnedFlow.night)
    )
    if firm:
        rows = rows.where(LearnedFlow.firm)
    nights: dict[str, list[tuple[str, float]]] = {}
    for row in session.execute(rows):
        nights.setdefault(row.station, []).append((row.night, row.flow_lpm))
    return Learned({station: tuple(found[-KEPT_NIGHTS:]) for station, found in nights.items()})


def _voices(session: Session, site: str, night: date) -> tuple[frozenset[str], frozenset[str]]:
    """The controllers that told of their valves, and the supplies with a meter."""
    earliest = (night - timedelta(days=2 * KNOWN_FOR)).isoformat()
    latest = (
        select(WatchedNight)
        .where(WatchedNight.site == site, WatchedNight.night < night.isoformat(), WatchedNight.night >= earliest)
        .order_by(WatchedNight.night.desc())
        .limit(KNOWN_FOR)
    )
    rows = session.scalars(latest).all()
    return _all(row.heard for row in rows), _all(row.metered for row in rows)


def _all(lists: Iterable[str]) -> frozenset[str]:
    return frozenset(id for one in lists for id in json.loads(one))


def _before(session: Session, site: str, noon: int) -> list[Entry]:
    outages = happened(session, site, noon - OUTAGES_S, noon, OF_OUTAGES)
    words = happened(session, site, noon - ACROSS_S, noon, (Kind.OPENED, Kind.CLOSED))
    return [*still_in_force(outages), *words]


def entries_of(session: Session, site: str, night: Night) -> list[Entry]:
    """All that the watch looks at of a night. Inside a transaction."""
    return happened(session, site, night.starts, night.ends, WATCHED_KINDS)


def newest_looked(session: Session, site: str) -> int:
    """The newest number of the journal. Inside the transaction that reads the entries."""
    return session.scalar(select(func.max(ENTRIES.c.number)).where(ENTRIES.c.site == site)) or 0
