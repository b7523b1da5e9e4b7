"""Whose forecast is asked for next: any number of processes take turns, and one that is killed only delays.

Whoever takes a site's turn puts its next one off first, by a lease; how the question went then decides when it is
really due. No site is asked for more than once an hour, whatever a service or a fault says.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from email.utils import parsedate_to_datetime
from typing import Any

from sqlalchemy import select, update
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Session

from ...sites.models import SiteCopy
from ..models import WeatherFetch
from .steps import HOUR_S

LEASE_S = HOUR_S
USUAL_S, LONGEST_S = 3 * HOUR_S, 24 * HOUR_S
"""Common practice, no source: forecasts are made anew a few times a day."""
FIRST_PAUSE_S = HOUR_S
LONGEST_FAULT = 80


@dataclass(frozen=True, slots=True)
class Turn:
    """A site whose forecast this process may ask for now. `modified` is what the last answer said of itself."""

    site: str
    modified: str | None
    tries: int


def take_turn(session: Session, service: str, now: int) -> Turn | None:
    """The site that has waited longest, or None where none is due. What another service said counts for nothing."""
    with session.begin():
        _enrol(session, service)
        first = (
            select(WeatherFetch.site)
            .where(WeatherFetch.due <= now)
            .order_by(WeatherFetch.due, WeatherFetch.site)
            .limit(1)
            .with_for_update(skip_locked=True)
        )
        take = update(WeatherFetch).where(WeatherFetch.site == first.scalar_subquery()).values(due=now + LEASE_S)
        row = session.execute(
            take.returning(WeatherFetch.site, WeatherFetch.modified, WeatherFetch.tries),
            execution_options={"synchronize_session": False},
        ).one_or_none()
    return None if row is None else Turn(row.site, row.modified, row.tries)


def _enrol(session: Session, service: str) -> None:
    """Give sites that have none a row, and let the sites of another service begin anew."""
    missing = select(SiteCopy.site).where(~select(WeatherFetch.site).where(WeatherFetch.site == SiteCopy.site).exists())
    rows = [{"site": site, "service": service} for site in session.scalars(missing)]
    if rows:
        session.execute(_insert(session)(WeatherFetch).on_conflict_do_nothing(), rows)
    other = update(WeatherFetch).where(WeatherFetch.service != service)
    session.execute(
        other.values(service=service, due=0, modified=None, tries=0, fault=None),
        execution_options={"synchronize_session": False},
    )


def _insert(session: Session) -> Any:
    return {"sqlite": sqlite.insert, "postgresql": postgresql.insert}[session.get_bind().dialect.name]


def went_well(session: Session, turn: Turn, due: int, modified: str | None) -> None:
    """Write down that the service answered. Belongs to the caller's transaction."""
    _write(session, turn, due=due, modified=modified and modified[:80], tries=0, fault=None)


def went_wrong(session: Session, turn: Turn, due: int, fault: str) -> None:
    """Write down that nothing came of it. Belongs to the caller's transaction."""
    _write(session, turn, due=due, tries=turn.tries + 1, fault=fault[:LONGEST_FAULT])


def _write(session: Session, turn: Turn, **values: object) -> None:
    row = update(WeatherFetch).where(WeatherFetch.site == turn.site)
    session.execute(row.values(**values), execution_options={"synchronize_session": False})


def wait_s(headers: Mapping[str, str]) -> int:
    """How long an answer is good for: as it says (Expires, by its own Date), within bounds."""
    expires, said = _instant(headers.get("expires")), _instant(headers.get("date"))
    fresh = 0 if expires is None or said is None else expires - said
    return min(LONGEST_S, max(USUAL_S, fresh))


def pause_s(tries: int, headers: Mapping[str, str] | None = None) -> int:
    """How long to leave a service in peace after so many failures before this one: twice as long each time.

    Where it says itself how long (Retry-After, in seconds or as a date), at least so long, within bounds.
    """
    own: int = FIRST_PAUSE_S * 2 ** min(tries, 10)
    return min(LONGEST_S, max(own, _asked_for(headers or {})))


def _asked_for(headers: Mapping[str, str]) -> int:
    given = headers.get("retry-after", "").strip()
    if given.isdecimal() and given.isascii():
        return int(given[:9])
    until, said = _instant(given or None), _instant(headers.get("date"))
    return 0 if until is None or said is None else until - said


def _instant(given: str | None) -> int | None:
    try:
        return None if given is None else int(parsedate_to_datetime(given).timestamp())
    except (ValueError, OverflowError):
        return None
