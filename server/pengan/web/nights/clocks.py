"""A site's clock over one night: with it a reader writes the sheet's instants as the wall shows them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.clock.nights import night_on
from pengan.engine.clock.rules import Change
from pengan.engine.clock.sun import place_of
from pengan.engine.clock.times import moment_on
from pengan.engine.clock.zones import clock_of
from pengan.engine.document.tables import Site

from ..sites.operations import document_in


@dataclass(frozen=True, slots=True)
class NightClock:
    """What the site's wall shows over one night, and when the light goes and comes; None where the sun does neither."""

    night: str
    starts: Instant
    ends: Instant
    offset_s: int
    changes: tuple[Change, ...]
    sunset: Instant | None
    sunrise: Instant | None


def clock_on(site: Site, night: date) -> NightClock:
    """The site's clock over the night on whose date its noon falls."""
    clock, place = clock_of(site), place_of(site)
    wanted = night_on(clock, night)
    return NightClock(
        night=wanted.date.isoformat(),
        starts=wanted.starts,
        ends=wanted.ends,
        offset_s=clock.offset(wanted.starts),
        changes=clock.changes(wanted.starts, wanted.ends),
        sunset=moment_on("sunset", wanted.date, clock, place) if place else None,
        sunrise=moment_on("sunrise", wanted.date + timedelta(1), clock, place) if place else None,
    )


def clocks_in(session: Session, site: str, nights: Sequence[date]) -> tuple[NightClock, ...]:
    """The site's clock over each of these nights. Belongs to the caller's transaction."""
    if not nights:
        return ()
    record = document_in(session, site).document.site
    return tuple(clock_on(record, night) for night in nights)
