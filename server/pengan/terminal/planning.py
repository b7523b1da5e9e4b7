"""Works nights out for the command line: which night is meant, with progress where it takes a while."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from pengan.engine.clock.fault import ClockFault
from pengan.engine.clock.instants import Policy
from pengan.engine.clock.nights import night_at, night_on
from pengan.engine.clock.zones import SiteClock, clock_of
from pengan.engine.document.document import Document
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.sheet import NightSheet
from pengan.words import WordsFault, _, ngettext, say
from pengan.words.moments import read_date
from pengan.words.reader import current_reader
from pengan.words.wall import SiteWall

from .night_page import View
from .opening import stopped
from .progress import Progress

GLANCE, SECOND_LOOK = 1, 3
"""Orders tried for a night of a look ahead. A rule of thumb, no source: three found what fits on the demo site."""


@dataclass(frozen=True, slots=True)
class Site:
    """A document with its clock, and the instant the command takes for now."""

    document: Document
    clock: SiteClock
    now: int

    def view(self, sheet: NightSheet) -> View:
        """A sheet of this site, ready to be read by the current reader."""
        wall = SiteWall(self.clock, sheet.starts, sheet.ends)
        return View(sheet, self.document, wall, current_reader(), self.now)


def site_of(document: Document, now: str | None) -> Site:
    """The site, at the moment given or, without one, the machine's."""
    try:
        clock = clock_of(document.site)
    except ClockFault as fault:
        raise stopped(say(fault.message)) from None
    return Site(document, clock, int(time.time()) if now is None else _instant(now, clock))


def _instant(text: str, clock: SiteClock) -> int:
    """A moment typed as `2026-11-25T23:30`, on the site's wall unless it carries an offset."""
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        raise stopped(
            _("“{text}” is not a date and time. Write it like {example}.", text=text, example="2026-11-25T23:30")
        ) from None
    return int(moment.timestamp()) if moment.tzinfo else clock.instant(moment, Policy.COMPATIBLE)


def day_of(site: Site, typed: str | None) -> date:
    """The date on which the night meant begins: the one typed, or the night that now belongs to."""
    try:
        return night_at(site.clock, site.now).date if typed is None else night_on(site.clock, read_date(typed)).date
    except (WordsFault, ClockFault) as fault:
        raise stopped(say(fault.message)) from None


def plan(site: Site, day: date, effort: int | None = None, before: NightSheet | None = None) -> NightSheet:
    """One night's sheet, with progress on standard error when it takes more than a second."""
    progress = Progress(_tried)
    try:
        return plan_night(site.document, day, effort=effort, before=before, on_construction=progress)
    except ClockFault as fault:
        raise stopped(say(fault.message)) from None
    finally:
        progress.end()


def _tried(count: int) -> str:
    return ngettext("Working the night out: {count} order tried", "Working the night out: {count} orders tried", count)


def plan_ahead(site: Site, first: date, days: int, effort: int | None) -> list[NightSheet]:
    """The sheets of so many nights, the given one first."""
    progress = Progress(lambda count: _("Working ahead: night {count} of {days}", count=count, days=days))
    try:
        return [_numbered(site, first, index, effort, progress) for index in range(days)]
    except ClockFault as fault:
        raise stopped(say(fault.message)) from None
    finally:
        progress.end()


def _numbered(site: Site, first: date, index: int, effort: int | None, told: Callable[[int], None]) -> NightSheet:
    told(index + 1)
    day = first + timedelta(days=index)
    return _quick(site, day) if effort is None else plan_night(site.document, day, effort=effort)


def _quick(site: Site, day: date) -> NightSheet:
    """One construction tells the night's end within a few per cent; only what seems not to fit is tried again."""
    sheet = plan_night(site.document, day, effort=GLANCE)
    return plan_night(site.document, day, effort=SECOND_LOOK) if sheet.shortfalls else sheet
