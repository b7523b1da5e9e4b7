"""Reckons up nights that are over, and anew those about which something was told late.

Beside planning, on a thread of its own: it takes no lock that planning or sync takes. What it finds out is written in
one transaction a night, and may be written twice. A night without a stored sheet cannot be reckoned up.
"""

from __future__ import annotations

import json
import logging
from collections.abc import Callable, Iterable
from datetime import UTC, date, datetime, timedelta
from typing import Any, cast

from sqlalchemy import CursorResult, delete, func, insert, select, update
from sqlalchemy.exc import OperationalError
from sqlalchemy.orm import Session

from pengan.engine.clock.nights import Night, night_at, night_on
from pengan.engine.clock.zones import SiteClock, clock_of
from pengan.engine.document.document import Document
from pengan.engine.document.read import read_document
from pengan.engine.journal.before import OF_OUTAGES
from pengan.engine.journal.delivered import Lost
from pengan.engine.journal.entry import Kind
from pengan.engine.journal.used import BY_LEARNED_FLOWS, NightUsed, Water, night_used
from pengan.engine.message import Message

from ..ahead.queue import upsert
from ..alarms.ground import learned_before
from ..database import reading
from ..history.replay import document_of_records, replayed
from ..journal.finding import newest_number
from ..journal.inserting import insert_into
from ..journal.models import JournalEntry, JournalHead
from ..need.waterings import KEPT_DAYS, sheets_in_force
from ..nights.models import StoredSheet
from ..nights.stored import sheet_in
from ..sites.models import SiteCopy
from ..sites.operations import SiteDocument, document_in
from .models import UsedHead, UsedMeter, UsedNight, UsedWater
from .nights import OUTAGE_DAYS, told_of_night

LEASE_S = 300
NIGHTS_AT_ONCE = 20
"""Of one site in one look, so that other sites have their turn too."""
NOTHING_SAID = "[]"
QUARTER_S = 900
TOLD = (*OF_OUTAGES, Kind.OPENED, Kind.CLOSED, Kind.FLOW, Kind.COUNT, Kind.REPLACED, Kind.ALIVE)
logger = logging.getLogger(__name__)


def reckon_due(session: Session, now: int, real: int, stopping: Callable[[], bool] = bool) -> int:
    """Reckon up what is due at all sites; how many nights. A fault of one site is logged and holds up no other.

    `now` is the server's clock, `real` the machine's.
    """
    done = 0
    for site in _sites(session, now):
        if stopping():
            return done
        try:
            if _claimed(session, site, real):
                done += _site(session, site, now, stopping)
        except OperationalError:
            raise
        except Exception as fault:
            session.rollback()
            logger.error("nights could not be reckoned up", exc_info=fault, extra={"site": site})
        session.expunge_all()
    return done


def _sites(session: Session, now: int) -> list[str]:
    """Sites that may have something to reckon up: a night before today's that is not, or entries not looked at."""
    today = datetime.fromtimestamp(now, UTC).date().isoformat()
    fresh = select(UsedNight.site).where(
        UsedNight.site == StoredSheet.site, UsedNight.night == StoredSheet.night, UsedNight.stale.is_(False)
    )
    planned = select(StoredSheet.site).where(StoredSheet.night < today, ~fresh.exists())
    seen = func.coalesce(UsedHead.newest, 0)
    told = (
        select(JournalHead.site).outerjoin(UsedHead, UsedHead.site == JournalHead.site).where(JournalHead.newest > seen)
    )
    wanted = select(SiteCopy.site).where(SiteCopy.site.in_(planned) | SiteCopy.site.in_(told))
    with reading(session):
        return list(session.scalars(wanted.order_by(SiteCopy.site)))


def _claimed(session: Session, site: str, real: int) -> bool:
    """Whether this process alone reckons the site up for a while."""
    free = update(UsedHead).where(UsedHead.site == site, UsedHead.until <= real).values(until=real + LEASE_S)
    with session.begin():
        session.execute(insert_into(session)(UsedHead).values(site=site).on_conflict_do_nothing())
        taken = session.execute(free, execution_options={"synchronize_session": False})
        return cast(CursorResult[Any], taken).rowcount == 1


def _site(session: Session, site: str, now: int, stopping: Callable[[], bool]) -> int:
    with reading(session):
        found = document_in(session, site)
    clock = clock_of(found.document.site)
    _mark_stale(session, found, clock)
    documents, done = dict[int, Document](), 0
    for night in _due(session, site, night_at(clock, now).date)[:NIGHTS_AT_ONCE]:
        if stopping():
            break
        _night(session, found, night_on(clock, night), documents, now)
        done += 1
    with session.begin():
        session.execute(update(UsedHead).where(UsedHead.site == site).values(until=0))
    return done


def _mark_stale(session: Session, found: SiteDocument, clock: SiteClock) -> None:
    """Say of nights about which something came since, that they are to be reckoned up anew."""
    site = found.site
    with session.begin():
        since = session.scalar(select(UsedHead.newest).where(UsedHead.site == site)) or 0
        newest = newest_number(session, site)
        anew = _told_since(session, site, clock, since) | _read_otherwise(session, found)
        mine = update(UsedNight).where(UsedNight.site == site, UsedNight.night.in_(sorted(anew)))
        session.execute(mine.values(stale=True), execution_options={"synchronize_session": False})
        session.execute(update(UsedHead).where(UsedHead.site == site).values(newest=newest))


def _due(session: Session, site: str, tonight: date) -> list[date]:
    """Nights that are over, have a sheet, and are not reckoned up as things stand; the oldest first."""
    first, last = tonight - timedelta(days=KEPT_DAYS), tonight - timedelta(days=1)
    span = (first.isoformat(), last.isoformat())
    fresh = select(UsedNight.night).where(UsedNight.site == site, UsedNight.stale.is_(False))
    planned = select(StoredSheet.night).where(StoredSheet.site == site, StoredSheet.night.between(*span))
    with reading(session):
        nights = session.scalars(planned.where(StoredSheet.night.not_in(fresh)).distinct())
        return sorted(date.fromisoformat(night) for night in nights)


def _told_since(session: Session, site: str, clock: SiteClock, since: int) -> set[str]:
    """Nights that entries beyond the number `since` are about; an outage is about those after it too."""
    begun = JournalEntry.at // QUARTER_S * QUARTER_S
    outage = JournalEntry.kind.in_([kind.value for kind in OF_OUTAGES])
    told = select(begun.label("begun"), outage.label("outage")).distinct()
    nights: set[str] = set()
    for row in session.execute(told.where(JournalEntry.site == site, JournalEntry.number > since)):
        first, last = (night_at(clock, int(row.begun) + more).date for more in (0, QUARTER_S - 1))
        days = (last - first).days + (OUTAGE_DAYS if row.outage else 0)
        nights.update((first + timedelta(days=number)).isoformat() for number in range(days + 1))
    return nights


def _read_otherwise(session: Session, found: SiteDocument) -> set[str]:
    """Nights whose odd readings may fit together now that it is stated where a counter begins again."""
    odd = select(UsedMeter.night, UsedMeter.supply, UsedMeter.ends_ml).where(
        UsedMeter.site == found.site, UsedMeter.said != NOTHING_SAID
    )
    ends = counters_ml(found.document)
    return {row.night for row in session.execute(odd) if ends.get(row.supply) != row.ends_ml}


def counters_ml(document: Document) -> dict[str, int]:
    """Where supplies' counters begin again, as far as that is stated."""
    return {
        supply.id: round(supply.counter_l * 1000)
        for supply in document.supplies.values()
        if supply.counter_l is not None
    }


def _night(session: Session, found: SiteDocument, night: Night, documents: dict[int, Document], now: int) -> None:
    """Reckon up one night."""
    site = found.site
    with reading(session):
        stored = next(sheet for _day, sheet in sheets_in_force(session, site, night.date, night.date))
        sheet = sheet_in(stored)
        document = _document_at(session, found, stored.good_for, documents)
        entries = told_of_night(session, site, night, TOLD)
        flows = _flows(session, site, night.date)
    ends = counters_ml(found.document)
    _keep(session, site, night_used(document, sheet, entries, ends, flows), ends, now)


def _flows(session: Session, site: str, night: date) -> dict[str, float]:
    """The flows to reckon a night by: learned in nights before it, of stations seen alone, on `LEAST_NIGHTS` at least.

    So a night that is reckoned up anew goes by the same flows. One that first went by the document's alone stays with
    them, whatever was learned since of nights before it: what stands in a closed month is not made another by itself.
    """
    said = session.scalar(select(UsedNight.said).where(UsedNight.site == site, UsedNight.night == night.isoformat()))
    if said is not None and BY_LEARNED_FLOWS.code not in {message["code"] for message in json.loads(said)}:
        return {}
    return learned_before(session, site, night, firm=True).flows()


def _document_at(session: Session, found: SiteDocument, revision: int, known: dict[int, Document]) -> Document:
    """The document as it stood when the night's sheet last held: stations may have gone to other plants since."""
    if revision >= found.revision:
        return found.document
    if revision not in known:
        known[revision] = read_document(document_of_records(replayed(session, found.site, revision)))
    return known[revision]


def _keep(session: Session, site: str, night: NightUsed, ends: dict[str, int], now: int) -> None:
    """Write a night in the place of what was written of it before."""
    key = {"site": site, "night": night.night}
    rows = [
        {**key, "supply": where.supply, "program": where.program, "hydrozone": where.hydrozone, **_amounts(water)}
        for where, water in sorted(night.rows.items())
    ]
    meters = [
        {
            **key, "supply": supply, "first_at": one.first.at, "first_ml": one.first.count_ml,
            "first_is_new": one.first.is_new, "last_at": one.last.at, "last_ml": one.last.count_ml,
            "counted_ml": one.counted_ml, "came_ml": one.came_ml, "before_ml": one.before_ml,
            "after_ml": one.after_ml, "ends_ml": ends.get(supply), "said": _as_text(one.says),
        }
        for supply, one in night.meters.items()
    ]  # fmt: skip
    with session.begin():
        said = {"told": night.is_told, "stale": False, "said": _as_text(night.says), "reckoned_at": now}
        upsert(session, UsedNight, key, said)  # first: whoever else writes this night waits for its row
        for table, new in ((UsedWater, rows), (UsedMeter, meters)):
            session.execute(
                delete(table).where(table.site == site, table.night == night.night),
                execution_options={"synchronize_session": False},
            )
            if new:
                session.execute(insert(table), new)


def _amounts(water: Water) -> dict[str, int]:
    lost = {f"{why.value}_ml": water.lost.get(why, 0) for why in Lost}
    return {
        "planned_ml": water.planned_ml,
        "delivered_ml": water.delivered_ml,
        "assumed_ml": water.assumed_ml,
        "beyond_ml": water.beyond_ml,
        **lost,
    }


def _as_text(messages: Iterable[Message]) -> str:
    return json.dumps([message.as_json() for message in messages])
