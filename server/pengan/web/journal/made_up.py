"""The demo site's made-up field: what its valves and meters would have told by now, so that a newcomer sees a night
with something going on.

It reports like any other reporter, and ends when a manager ends it. No process of its own: job processes play on what
has come up since, from the same sheets that people see. Its troubles are made up, as the site is.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import timedelta

from sqlalchemy import select
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.clock.nights import night_at
from pengan.engine.clock.zones import clock_of
from pengan.engine.document.document import Document
from pengan.engine.journal.entry import Kind
from pengan.engine.journal.fields import MOST_ENTRIES
from pengan.engine.journal.reading import told
from pengan.engine.plan.sheet import NightSheet
from pengan.engine.plan.sheet_json import loads
from pengan.field.nature import Nature
from pengan.field.play import last_counts, tellings
from pengan.field.told import Told
from pengan.field.troubles import Break, DeadValve, Drift, Leak, PowerCut, Trouble

from ..database import reading
from ..nights.operations import sheet_for
from ..people.teams import team_of
from ..sites.operations import document_in
from .models import JournalEntry, Reporter
from .names import REPORTER
from .reporters import Reports, add_reporter
from .taking import REPORTED, Parcel, Teller, take

MAKER = "field"
"""Stands where a reporter says who made it."""
NAME = "Made-up field"
SEED = 1
DAY_S = 86_400
METERED = frozenset({"town", "well", "lagoon", "north-main", "dune-loop", "pitch-main", "glass-main"})
NATURE = Nature(read_every_s=120, alive_every_s=900, metered=METERED)
"""Every two minutes, on few meters: enough to look at, and some six thousand entries a night."""
MENDED_EVERY_DAYS = 14


def add_made_up_field(session: Session, site: str, now: int) -> None:
    """Let the made-up field report to the demo site's journal."""
    with session.begin():
        team = team_of(session, site)
        if team is not None:
            add_reporter(session, team, site, NAME, MAKER, now)


def play_on(session: Session, now: int, effort: int | None) -> int:
    """Tell the journal what the made-up field has to tell since it was heard last; how many entries that is.

    Last night and tonight are played; nothing of earlier nights, and nothing where there is no made-up field.
    Raises `Problem` where its site may no longer be read by anybody.
    """
    with reading(session):
        field = session.scalar(select(Reporter).where(Reporter.made_by == MAKER, Reporter.ended_at.is_(None)))
        if field is None:
            return 0
        site, document = field.site, document_in(session, field.site).document
        heard_at = field.heard_at or 0
        reports = Reports(field.team, field.id, field.site)
    clock = clock_of(document.site)
    tonight = night_at(clock, now)
    waiting: list[Told] = []
    for date in (tonight.date - timedelta(days=1), tonight.date):
        if date < tonight.date and heard_at >= tonight.starts:
            continue
        sheet = loads(sheet_for(session, None, site, date, Instant(now), effort).body)
        with reading(session):
            counts = {**_counts_before(session, reports, sheet.starts), **last_counts(one.entry for one in waiting)}
        played = tellings(document, sheet, SEED, troubles_of(document, sheet), NATURE, counts)
        waiting += [one for one in played if heard_at < one.at <= now]
    _tell(session, reports, waiting, now)
    return len(waiting)


def troubles_of(document: Document, sheet: NightSheet) -> list[Trouble]:
    """What goes wrong in this night: something else in every other, as far as the document has what is meant."""
    if not sheet.runs:
        return []
    begin, end = min(run.start for run in sheet.runs), max(run.end for run in sheet.runs)
    wanted = _even(begin, end, sheet) if sheet.starts // DAY_S % 2 == 0 else _odd(begin, end, sheet)
    days = sheet.starts // DAY_S % MENDED_EVERY_DAYS
    drift = Drift(station="s104", pct_a_night=-1.5, at=sheet.starts - days * DAY_S)
    return [trouble for trouble in (*wanted, drift) if _is_there(document, trouble)]


def _even(begin: int, end: int, sheet: NightSheet) -> Iterator[Trouble]:
    """A loop breaks early in the night; a valve does not open."""
    breaks = begin + (end - begin) // 8
    yield Break(supply="dune-loop", flow_lpm=45, at=breaks, until=end)
    yield DeadValve(station=sheet.runs[len(sheet.runs) // 3].station, at=sheet.starts)


def _odd(begin: int, end: int, sheet: NightSheet) -> Iterator[Trouble]:
    """A tap drips all day; a cabinet is without power for a while."""
    yield Leak(supply="glass-main", flow_lpm=6, at=sheet.starts)
    cut = begin + (end - begin) // 4
    yield PowerCut(controller="cab-terraces", at=cut, until=cut + 40 * 60)


def _is_there(document: Document, trouble: Trouble) -> bool:
    records = {"supply": document.supplies, "station": document.stations, "controller": document.controllers}
    named = {field: getattr(trouble, field, None) for field in records}
    return all(record is None or record in records[field] for field, record in named.items())


def _counts_before(session: Session, reports: Reports, before: int) -> dict[str, float]:
    """What each meter's counter showed last before an instant."""
    counted = (
        select(JournalEntry.supply, JournalEntry.count_l)
        .where(JournalEntry.site == reports.site, JournalEntry.kind == Kind.COUNT.value)
        .where(
            JournalEntry.at < before, JournalEntry.at >= before - 2 * DAY_S, JournalEntry.by == REPORTER + reports.id
        )
        .order_by(JournalEntry.at)
    )
    return {row.supply: row.count_l for row in session.execute(counted)}


def _tell(session: Session, reports: Reports, waiting: Sequence[Told], now: int) -> None:
    """As the reporter would have, when it would have: should this be cut off, the next look goes on from there."""
    teller = Teller(REPORTER + reports.id, REPORTED, reports)
    for first in range(0, len(waiting), MOST_ENTRIES):
        bundle = waiting[first : first + MOST_ENTRIES]
        at = now if first + MOST_ENTRIES >= len(waiting) else bundle[-1].at
        take(session, reports.site, [Parcel(teller, [told(one.entry) for one in bundle])], at)
