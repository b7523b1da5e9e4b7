"""A site's file taken into a database, in one transaction: the site with all its history, or nothing."""

from __future__ import annotations

from sqlalchemy import Connection, delete, select, update
from sqlalchemy.orm import Session

from ..ahead.operations import queue
from ..alarms.models import Order, Watched
from ..catch_up.models import CaughtUp
from ..journal.models import JournalAside, JournalEntry, JournalHead, Reporter
from ..need.models import WeatherStation
from ..people.models import Person
from ..people.teams import adopt
from ..photos.models import Photo
from ..sites.models import SiteCopy, new_epoch
from ..sites.operations import document_in
from ..used.models import USED
from .faults import MovingFault, not_ours, site_there
from .rows import put_rows
from .site_file import LONG, TABLES, WATCHED, SiteFile
from .steps import Stored, at_todays_step

NO_TOKEN = "0" * 64
"""No token hashes to it."""
IN_ENGLISH, IN_METRIC = "en", "metric"


def load_site(session: Session, file: SiteFile, now: int, replace: bool = False) -> int:
    """Take the site in; the revision it stands at. Raises `MovingFault` where the site is here already and is not to be
    replaced, or where the file's rows do not give its document."""
    try:
        with at_todays_step(file.stored(), file.steps, file.site) as stored, session.begin():
            return _take_in(session, file, stored, now, replace)
    except ValueError:
        raise MovingFault(not_ours(file=file.site)) from None


def _take_in(session: Session, file: SiteFile, stored: Stored, now: int, replace: bool) -> int:
    there = session.scalar(select(SiteCopy.site).where(SiteCopy.site == file.site).with_for_update())
    if there is not None and not replace:
        raise MovingFault(site_there(site_id=file.site))
    line = session.connection()
    line.execute(delete(SiteCopy).where(SiteCopy.site == file.site))
    for untied in (JournalEntry, JournalAside, JournalHead, Photo, *USED, *WATCHED, Order):  # tied to no site's row
        line.execute(delete(untied).where(untied.site == file.site))
    for table in (*TABLES, *LONG):
        put_rows(line, table, stored[table.name]())
    line.execute(update(SiteCopy).where(SiteCopy.site == file.site).values(epoch=new_epoch()))
    _begin_anew(line, file.site)
    found = document_in(session, file.site)
    if found.document != file.document:
        raise ValueError("the rows do not give the document")
    team = adopt(session, file.site)
    _keep_names(session, file, team, now)
    _keep_stations(session, file, team, now)
    _keep_reporters(session, file, team, now)
    queue(session, file.site, found.revision)
    return found.revision


def _begin_anew(line: Connection, site: str) -> None:
    """What was the other server's: who was watching, and when by its clock; and which of its sheets knew of the rests
    that were accepted, since sheets are worked out anew. What each rest did stays with it."""
    line.execute(update(Watched).where(Watched.site == site).values(worker=None, until=None, tries=0, fault=None))
    line.execute(update(Watched).where(Watched.site == site).values(looked_at=0, due=0))
    line.execute(update(CaughtUp).where(CaughtUp.site == site).values(worked_out=False))


def _keep_names(session: Session, file: SiteFile, team: str, now: int) -> None:
    """People that the history names and this server does not know: kept as names, without a way in."""
    known = set(session.scalars(select(Person.id).where(Person.id.in_(list(file.people)))))
    for person, name in file.people.items():
        if person not in known:
            session.add(
                Person(
                    team=team, id=person, name=name, language=IN_ENGLISH, units=IN_METRIC, joined_at=now, removed_at=now
                )
            )


def _keep_stations(session: Session, file: SiteFile, team: str, now: int) -> None:
    """Weather stations that the history names: kept as names, ended by nobody; their tokens stayed behind."""
    known = set(session.scalars(select(WeatherStation.id).where(WeatherStation.id.in_(list(file.weather_stations)))))
    for station, name in file.weather_stations.items():
        if station not in known:
            session.add(
                WeatherStation(
                    team=team, id=station, site=file.site, name=name, token_hash=NO_TOKEN, made_by="", made_at=now,
                    ended_at=now,
                )
            )  # fmt: skip


def _keep_reporters(session: Session, file: SiteFile, team: str, now: int) -> None:
    """Reporters that the journal names, kept in the same way."""
    known = set(session.scalars(select(Reporter.id).where(Reporter.id.in_(list(file.reporters)))))
    for reporter, name in file.reporters.items():
        if reporter not in known:
            session.add(
                Reporter(
                    team=team, id=reporter, site=file.site, name=name, token_hash=NO_TOKEN, made_by="", made_at=now,
                    taken=0, aside=0, ended_at=now,
                )
            )  # fmt: skip
