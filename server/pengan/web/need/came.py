"""What nights that are over really brought each hydrozone, by the journal where it told of them.

Asked once a night, when the night is written down: of its openings, outages and signs of life alone, by an index, so
that no planning waits for a journal's readings. What is told later than that, but within the day after, is taken in
when the next night is written down (`told_late`); what is told later still changes the used page, and not the balance.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from pengan.engine.clock.nights import Night, night_on
from pengan.engine.clock.zones import clock_of
from pengan.engine.document.document import Document
from pengan.engine.journal.before import OF_OUTAGES
from pengan.engine.journal.came import came
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.need.site.watered import watered_by

from ..alarms.models import WatchedNight
from ..journal.finding import newest_number
from ..journal.inserting import ENTRIES
from ..nights.models import StoredSheet
from ..nights.stored import sheet_in
from ..used.nights import told_of_night
from .waterings import Watering, of_sheet, sheets_in_force

TOLD = (*OF_OUTAGES, Kind.OPENED, Kind.CLOSED, Kind.ALIVE)
ASKED_NIGHTS = 14
"""Nights longer ago count as their sheets had them: a server that was off for longer was told nothing either, and a
balance that begins with a year of sheets does not read a year of journal. Common practice, no source."""
KNOWN_FOR_DAYS = 14
"""A controller that told of a valve within so many days is one that tells. Common practice, no source."""


def as_they_came(session: Session, document: Document, sheets: Sequence[tuple[date, StoredSheet]]) -> list[Watering]:
    """What these nights brought, by their sheets in force. Belongs to the caller's transaction.

    A night of which nothing was told is as its sheet had it, to the last digit; so is a run whose controller was
    silent, but for the outages. Stations are those of the document as it stands, whatever they belonged to then.
    """
    if not sheets or newest_number(session, document.site.id) == 0:
        return [one for _night, stored in sheets for one in of_sheet(document, stored)]
    first = max(night for night, _stored in sheets) - timedelta(days=ASKED_NIGHTS)
    return [
        one
        for night, stored in sheets
        for one in (_came(session, document, stored, night) if night > first else of_sheet(document, stored))
    ]


def told_late(session: Session, document: Document, night: date) -> list[Watering]:
    """Once more a night that was written down, if something that happened in it was told after it closed; else nothing.

    Belongs to the caller's transaction.
    """
    span = night_on(clock_of(document.site), night)
    heard = (
        select(func.max(ENTRIES.c.arrived_at))
        .where(ENTRIES.c.site == document.site.id, ENTRIES.c.kind.in_([kind.value for kind in TOLD]))
        .where(ENTRIES.c.at >= span.starts, ENTRIES.c.at < span.ends)
    )
    if (session.scalar(heard) or 0) < span.ends:
        return []
    stored = [sheet for _night, sheet in sheets_in_force(session, document.site.id, night, night)]
    return [one for sheet in stored for one in _came(session, document, sheet, night)]


def _came(session: Session, document: Document, stored: StoredSheet, night: date) -> list[Watering]:
    span = night_on(clock_of(document.site), night)
    told = told_of_night(session, document.site.id, span, TOLD)
    if not told:
        return of_sheet(document, stored)
    told = _of_tellers(told, _tellers(session, document, told, span))
    brought = watered_by(document, came(document, sheet_in(stored), told))
    return [Watering(zone, night, one.volume_l, one.inflow) for zone, one in brought.items()]


def _of_tellers(told: Iterable[Entry], tellers: frozenset[str]) -> list[Entry]:
    """Without the signs of life of controllers that never tell of valves: their silence of one says nothing."""
    return [one for one in told if one.kind is not Kind.ALIVE or one.controller in tellers]


def _tellers(session: Session, document: Document, told: Iterable[Entry], night: Night) -> frozenset[str]:
    """The controllers that told of valves, in this night or in watched ones not long before it."""
    words = (one.station or "" for one in told if one.kind in (Kind.OPENED, Kind.CLOSED))
    now = {document.stations[station].controller for station in words if station in document.stations}
    earliest = (night.date - timedelta(days=KNOWN_FOR_DAYS)).isoformat()
    watched = select(WatchedNight.heard).where(
        WatchedNight.site == document.site.id, WatchedNight.night.between(earliest, night.date.isoformat())
    )
    before = (id for heard in session.scalars(watched) for id in json.loads(heard))
    return frozenset({*before, *(controller for controller in now if controller)})
