"""The site's clock over the nights that are given out."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from sqlalchemy.orm import Session

from pengan.engine.clock.night_clock import NightClock, clock_on

from ..sites.operations import document_in

__all__ = ["NightClock", "clock_on", "clocks_in"]


def clocks_in(session: Session, site: str, nights: Sequence[date]) -> tuple[NightClock, ...]:
    """The site's clock over each of these nights. Belongs to the caller's transaction."""
    if not nights:
        return ()
    record = document_in(session, site).document.site
    return tuple(clock_on(record, night) for night in nights)
