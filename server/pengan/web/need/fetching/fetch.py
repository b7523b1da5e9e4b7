"""One site's forecast: asked for, read, and written as its weather. Whatever goes wrong is written down and waited out.

No transaction is open while a service is asked. A site without a place is left out, and so is one whose managers have
ended the weather station that bears the service's name: it is made with the first answer, and a new one of that name
lets the service in again.
"""

from __future__ import annotations

import logging
import secrets
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date

from sqlalchemy import select
from sqlalchemy.exc import OperationalError
from sqlalchemy.orm import Session

from pengan.engine import ENGINE_VERSION
from pengan.engine.clock.instants import Instant
from pengan.engine.clock.zones import SiteClock, clock_of

from ...database import reading
from ...people.teams import team_of
from ...people.tokens import new_id
from ...settings import Settings
from ...sites.models import SiteCopy
from ...sites.operations import document_in
from ...sync.groups import Values as Record
from ...sync.importing import edit_records
from ...sync.nudges import nudge
from ...sync.taking import Sender
from ...sync.working import Held, Key
from ..models import WeatherStation
from ..readings import Values
from .asking import Answer, NoAnswer, ask
from .days import days_of
from .services import SERVICES, Place, Service, rounded
from .steps import HOUR_S, Malformed
from .turns import LONGEST_S, Turn, pause_s, take_turn, wait_s, went_well, went_wrong
from .writing import sound, wanted

MOST_AT_A_TIME = 20
"""Sites in one go, so that whoever stops the process waits for a moment only."""
JITTER_S = HOUR_S // 2
GOOD, UNCHANGED, ON_ITS_WAY_OUT, BARRED = 200, 304, 203, 403
NO_TOKEN = "0" * 64
"""No token hashes to it: nobody can report as the service."""
logger = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Fetcher:
    """A service, how it is told who asks, and by chance how much later the next question is (seconds up to a most)."""

    service: Service
    agent: str
    chance: Callable[[int], int]
    asking: Callable[[str, dict[str, str]], Answer] = ask


@dataclass(frozen=True, slots=True)
class Fetched:
    """What came of one turn: the days that have changed; or the fault that was waited out instead."""

    site: str
    changed: tuple[str, ...] = ()
    fault: str = ""


@dataclass(frozen=True, slots=True)
class _Asked:
    """A site that can be asked for."""

    place: Place
    clock: SiteClock


def fetch_next(session: Session, fetcher: Fetcher, now: int) -> Fetched | None:
    """Ask for the site that has waited longest; None where none is due."""
    turn = take_turn(session, fetcher.service.name, now)
    if turn is None:
        return None
    asked = _asked(session, turn.site, fetcher.service.name)
    if asked is None:
        return _wait(session, fetcher, turn, now)
    try:
        answer = fetcher.asking(_address(fetcher.service, asked.place), _headers(fetcher, turn))
    except NoAnswer as fault:
        return _put_off(session, fetcher, turn, now, str(fault), pause_s(turn.tries))
    return _answered(session, fetcher, turn, asked, answer, now)


def _asked(session: Session, site: str, name: str) -> _Asked | None:
    with reading(session):
        if session.get(SiteCopy, site) is None or _shut_out(session, site, name):
            return None
        known = document_in(session, site).document.site
    if known.latitude_deg is None or known.longitude_deg is None:
        return None
    return _Asked(Place(known.latitude_deg, known.longitude_deg, known.elevation_m), clock_of(known))


def _shut_out(session: Session, site: str, name: str) -> bool:
    """Whether a manager has ended a weather station of this name, and none has taken its place.

    One that came with its site from another server was ended by nobody.
    """
    named = select(WeatherStation.ended_at, WeatherStation.ended_by)
    rows = session.execute(named.where(WeatherStation.site == site, WeatherStation.name == name)).all()
    return any(row.ended_by for row in rows) and all(row.ended_at for row in rows)


def _address(service: Service, place: Place) -> str:
    told = rounded(place)
    return service.address(told.latitude_deg, told.longitude_deg, told.elevation_m)


def _headers(fetcher: Fetcher, turn: Turn) -> dict[str, str]:
    since = {"If-Modified-Since": turn.modified} if turn.modified else {}
    return {"User-Agent": fetcher.agent, **since}


def _answered(session: Session, fetcher: Fetcher, turn: Turn, asked: _Asked, answer: Answer, now: int) -> Fetched:
    if answer.status == UNCHANGED:
        return _take(session, fetcher, turn, {}, answer, now)
    if answer.status == BARRED:
        return _put_off(session, fetcher, turn, now, "HTTP 403", LONGEST_S)
    if answer.status not in (GOOD, ON_ITS_WAY_OUT):
        return _put_off(session, fetcher, turn, now, f"HTTP {answer.status}", pause_s(turn.tries, answer.headers))
    if answer.status == ON_ITS_WAY_OUT:
        logger.warning("the weather service will soon be another", extra={"service": fetcher.service.name})
    try:
        steps = fetcher.service.read(answer.body)
    except Malformed as fault:
        return _put_off(session, fetcher, turn, now, str(fault), pause_s(turn.tries))
    days = sound(days_of(steps, asked.clock, asked.clock.wall(now).date()))
    return _take(session, fetcher, turn, days, answer, now)


def _take(
    session: Session, fetcher: Fetcher, turn: Turn, days: dict[date, Values], answer: Answer, now: int
) -> Fetched:
    service, written = fetcher.service, dict[Key, Record]()
    due = now + wait_s(answer.headers) + fetcher.chance(JITTER_S)
    with session.begin():
        sender = _heard(session, turn.site, service.name, now)
        went_well(session, turn, due, answer.headers.get("last-modified", turn.modified))
        copy = None
        if sender is not None and days:

            def edits(records: Mapping[Key, Held]) -> dict[Key, Record]:
                written.update(wanted(records, days, service.name, service.wind_height_m))
                return written

            copy = edit_records(session, turn.site, edits, sender)
    if copy is not None:
        nudge(turn.site, copy.counter)
    return Fetched(turn.site, tuple(str(values["day"]) for values in written.values()))


def _heard(session: Session, site: str, name: str, now: int) -> Sender | None:
    """The weather station in whose name the service edits, made where there is none; None where the site is gone."""
    team = team_of(session, site)
    if team is None:
        return None
    mine = select(WeatherStation).where(
        WeatherStation.site == site, WeatherStation.name == name, WeatherStation.ended_at.is_(None)
    )
    station = session.scalars(mine.order_by(WeatherStation.made_at, WeatherStation.id).limit(1)).one_or_none()
    if station is None:
        station = WeatherStation(
            team=team, id=new_id(), site=site, name=name, token_hash=NO_TOKEN, made_by="", made_at=now
        )  # fmt: skip
        session.add(station)
    station.heard_at = now
    session.flush()
    return Sender(station.id, None, Instant(now))


def _wait(session: Session, fetcher: Fetcher, turn: Turn, now: int) -> Fetched:
    """Nothing to ask for yet."""
    with session.begin():
        went_well(session, turn, now + wait_s({}) + fetcher.chance(JITTER_S), None)
    return Fetched(turn.site)


def _put_off(session: Session, fetcher: Fetcher, turn: Turn, now: int, fault: str, pause: int) -> Fetched:
    with session.begin():
        went_wrong(session, turn, now + pause + fetcher.chance(JITTER_S), fault)
    return Fetched(turn.site, fault=fault)


def fetch_due(session: Session, fetcher: Fetcher, now: int, stopping: Callable[[], bool]) -> list[Fetched]:
    """Ask for the sites that are due, a bounded number in one go. A site that breaks holds up no other."""
    done: list[Fetched] = []
    for _turn in range(MOST_AT_A_TIME):
        if stopping():
            break
        try:
            fetched = fetch_next(session, fetcher, now)
        except OperationalError:
            raise
        except Exception as fault:
            session.rollback()
            logger.error("a forecast could not be taken in", exc_info=fault)
            continue
        if fetched is None:
            break
        done.append(fetched)
    return done


def fetcher_by(settings: Settings) -> Fetcher | None:
    """How forecasts are fetched by the settings; None where they name no service."""
    make = SERVICES.get(settings.weather_service)
    if make is None:
        return None
    return Fetcher(make(), f"Pengan/{ENGINE_VERSION} {settings.weather_contact}", secrets.randbelow)
