"""Weather stations of a site: made by its managers with a token that is told once, listed, and ended."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.message import saying

from ..database import reading
from ..people.rights import Actor, require
from ..people.teams import team_of
from ..people.tokens import new_token, read_token
from ..problems import Problem
from .models import WeatherStation

MOST_STATIONS = 50
_NOBODYS = "0" * 64
"""Compared with where there is no such station, so that the answer takes as long."""

no_such_station = saying("weather.no_such_station", "There is no such weather station.")
too_many_stations = saying("weather.too_many_stations", "A site has {most} weather stations at most.")
not_a_station = saying(
    "weather.not_a_station", "This needs the token of a weather station, as “Authorization: Bearer …”."
)


@dataclass(frozen=True, slots=True)
class MadeStation:
    """A new weather station. Its token is told this once."""

    id: str
    name: str
    token: str


@dataclass(frozen=True, slots=True)
class StationLine:
    """A weather station as the managers of its site see it."""

    id: str
    name: str
    made_at: int
    heard_at: int | None


@dataclass(frozen=True, slots=True)
class Reporter:
    """The weather station that sends something: it may send its own site's weather, and nothing else."""

    team: str
    id: str
    site: str
    name: str


def make_station(session: Session, actor: Actor, site: str, name: str, now: Instant) -> MadeStation:
    """Let a station report. Raises `Problem` unless the actor manages the site."""
    with session.begin():
        require(session, actor, site, "manage")
        if len(_open(session, site)) >= MOST_STATIONS:
            raise Problem(409, too_many_stations(most=MOST_STATIONS))
        token = new_token(actor.team)
        session.add(
            WeatherStation(
                team=actor.team, id=token.device, site=site, name=name, token_hash=token.hashed(),
                made_by=actor.person, made_at=now,
            )
        )  # fmt: skip
    return MadeStation(token.device, name, str(token))


def stations_at(session: Session, actor: Actor, site: str) -> list[StationLine]:
    """The stations that may report, the oldest first. Raises `Problem` unless the actor manages the site."""
    with reading(session):
        require(session, actor, site, "manage")
        return [StationLine(one.id, one.name, one.made_at, one.heard_at) for one in _open(session, site)]


def end_station(session: Session, actor: Actor, site: str, station: str, now: Instant) -> None:
    """Let a station report no more; what it sent stays. Raises `Problem`."""
    with session.begin():
        require(session, actor, site, "manage")
        found = session.get(WeatherStation, (actor.team, station))
        if found is None or found.site != site:
            raise Problem(404, no_such_station())
        if found.ended_at is None:
            found.ended_at, found.ended_by = now, actor.person


def reporter(session: Session, header: str) -> Reporter:
    """The station behind an `Authorization` header. Raises a 401 `Problem` where there is none that may report."""
    kind, _space, given = header.partition(" ")
    token = read_token(given.strip()) if kind.casefold() == "bearer" else None
    if token is None:
        raise Problem(401, not_a_station())
    with reading(session):
        found = session.get(WeatherStation, (token.team, token.device))
        known = token.matches(found.token_hash if found else _NOBODYS) and found is not None
        if not known or found is None or found.ended_at is not None or team_of(session, found.site) != found.team:
            raise Problem(401, not_a_station())
        return Reporter(found.team, found.id, found.site, found.name)


def _open(session: Session, site: str) -> list[WeatherStation]:
    held = select(WeatherStation).where(WeatherStation.site == site, WeatherStation.ended_at.is_(None))
    return list(session.scalars(held.order_by(WeatherStation.made_at, WeatherStation.id)))
