"""Watching: one look at one site. What came into its journal is held against what should flow, and alarms follow.

A look reads, thinks, and writes in one short transaction that first makes sure that the claim is still ours. Nothing
that planning, sync or telling the journal waits for is held meanwhile.
"""

from __future__ import annotations

import logging
import time
from collections import OrderedDict
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy import select
from sqlalchemy.exc import OperationalError
from sqlalchemy.orm import Session

from pengan.engine.clock.nights import Night, night_at, night_on
from pengan.engine.journal.entry import Entry
from pengan.engine.journal.finding import Finding

from ..catch_up.by_itself import ByItself
from ..database import reading
from ..journal.inserting import ENTRIES
from ..journal.storing import entries_in
from .answering import OF_PEOPLE, heed
from .filing import Filing
from .ground import WATCHED_KINDS, Ground, clock_at, entries_of, ground_of, mark_of, newest_looked
from .kept import LAG_S, KeptNight, kept_night
from .learning import write_down
from .models import Alarm, Watched
from .queue import NEVER, Claim, ClaimLost, claim_next, hold, put_off, take_up_new_sites
from .shutting import shut_by_rule

NIGHTS_BACK = 1
"""So many nights before tonight are watched, when a site is new or was not watched for a while."""
MOST_KEPT = 200
"""Nights in memory, in each process."""
MOST_AT_ONCE = 20_000
"""Entries that one look takes in."""
AGAIN_S = 60
"""The night before is read anew for late entries no more often than this."""
TICK_S = 30
"""A site is looked at so often though nothing comes: silence is noticed by looking."""
QUIET_S = 2 * 86_400
"""A site that has told nothing for so long is looked at only when something comes."""
FRESH_S = 120
"""So long after the journal was opened nobody is called silent: what was told meanwhile may still be on its way."""
NEW_SITES_S = 5
"""So often it is asked whether a site's journal has begun."""
Told = Callable[[Session, Filing], None]
logger = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Looked:
    """One look, done with: whose, and which alarms it opened and ended; or the kind of fault that stopped it."""

    site: str
    opened: Sequence[Alarm] = ()
    ended: Sequence[Alarm] = ()
    fault: str | None = None


def tell_nobody(_session: Session, _filing: Filing) -> None:
    """For whoever watches without telling people."""


class Watcher:
    """One process' watching. `told` is called with what was filed, inside its transaction."""

    def __init__(self, worker: str, told: Told = tell_nobody, clock: Callable[[], float] = time.time) -> None:
        self.worker, self._told, self._clock = worker, told, clock
        self._nights: OrderedDict[str, KeptNight] = OrderedDict()
        self._by_itself = ByItself()
        self._said: Sequence[Entry] = ()
        self._asked_at = 0.0

    def look_once(self, session: Session, now: int) -> Looked | None:
        """Look at the site that has waited longest. None where none has anything new.

        Whatever goes wrong with one site is logged and puts that site off; nothing is raised but the database's own
        failures.
        """
        claim = self._claim(session, now)
        if claim is None:
            return None
        try:
            return self._look(session, claim, now)
        except ClaimLost:
            self._forget(session, claim)
            return Looked(claim.site, fault=ClaimLost.__name__)
        except OperationalError:
            self._forget(session, claim)
            raise
        except Exception as fault:  # a site that cannot be watched must not hold up the others
            self._forget(session, claim)
            logger.error("a site could not be watched", exc_info=fault, extra={"site": claim.site})
            put_off(session, claim, int(self._clock()), type(fault).__name__)
            return Looked(claim.site, fault=type(fault).__name__)

    def _claim(self, session: Session, now: int) -> Claim | None:
        """The next site; where none waits, one whose journal has only just begun."""
        real = self._clock()
        claim = claim_next(session, self.worker, now, int(real))
        if claim is not None or real - self._asked_at < NEW_SITES_S:
            return claim
        self._asked_at = real
        take_up_new_sites(session)
        return claim_next(session, self.worker, now, int(real))

    def _forget(self, session: Session, claim: Claim) -> None:
        session.rollback()
        session.expire_all()
        self._nights.pop(claim.site, None)

    def _look(self, session: Session, claim: Claim, now: int) -> Looked:
        kept = self._nights.get(claim.site)
        with reading(session):
            clock = kept.ground.clock if kept else clock_at(session, claim.site)
        tonight = night_at(clock, now - LAG_S)
        night = date.fromisoformat(claim.night) if claim.night else tonight.date - timedelta(days=NIGHTS_BACK)
        night = max(night, tonight.date - timedelta(days=NIGHTS_BACK))
        if night < tonight.date:
            return self._close(session, claim, night_on(clock, night), now)
        return self._go_on(session, claim, tonight, now)

    # --- a night that is over

    def _close(self, session: Session, claim: Claim, night: Night, now: int) -> Looked:
        """Watch it to its end, learn from it, and go on to the next."""
        with reading(session):
            kept, newest = self._read(session, claim.site, night, now)
        kept.watch.tick(night.ends)
        after = (night.date + timedelta(days=1)).isoformat()
        with session.begin():
            watched = hold(session, claim, int(self._clock()), night=after, looked=newest, due=now)
            filing = _filing(session, watched, kept.ground, now)
            filing.findings(night, kept.watch.findings(), is_latest=True)
            write_down(filing, night, kept.watch, now)
            self._end_look(session, filing)
        self._nights.pop(claim.site, None)
        return Looked(claim.site, filing.opened, filing.ended)

    # --- the night that is going on

    def _go_on(self, session: Session, claim: Claim, night: Night, now: int) -> Looked:
        real = self._clock()
        kept, late, newest = self._brought_up(session, claim, night, now, real)
        before = self._night_before(session, claim, kept, night, now, real) if late else None
        found = kept.watch.findings()
        with session.begin():
            due = self._due(session, claim.site, kept, night, now)
            watched = hold(session, claim, int(real), night=night.date.isoformat(), looked=newest, due=due)
            filing = _filing(session, watched, kept.ground, now)
            if before is not None:
                filing.findings(before[0], before[1], is_latest=False)
            filing.findings(night, found, is_latest=True, is_fresh=real - kept.built_at < FRESH_S)
            for entry in self._said:
                heed(filing, entry)
            shut_by_rule(filing)
            self._end_look(session, filing)
        kept.looked = newest
        self._nights[claim.site] = kept
        self._nights.move_to_end(claim.site)
        while len(self._nights) > MOST_KEPT:
            self._nights.popitem(last=False)
        self._by_itself.look(session, kept.ground.document, night, now)
        return Looked(claim.site, filing.opened, filing.ended)

    def _brought_up(
        self, session: Session, claim: Claim, night: Night, now: int, real: float
    ) -> tuple[KeptNight, bool, int]:
        """The night as far as it has been told, whether something came for the one before, and the newest number."""
        kept = self._nights.get(claim.site)
        with reading(session):
            mark = mark_of(session, claim.site, night.date)
            arrived, newest = _arrived(session, claim)
            self._said = [entry for entry in arrived if entry.kind in OF_PEOPLE]
            arrived = [entry for entry in arrived if entry.kind in WATCHED_KINDS]
            late = any(entry.at < night.starts for entry in arrived)
            if kept is None or kept.looked != claim.looked or kept.ground.night != night:
                kept, newest = self._read(session, claim.site, night, now)
                return kept, late, newest
            kept.take([entry for entry in arrived if night.starts <= entry.at < night.ends], now)
            kept.is_stale = kept.is_stale or kept.ground.mark != mark
            if kept.is_stale and kept.may_be_read_anew(real):
                again, newest = self._read(session, claim.site, night, now)
                again.late_at = kept.late_at
                return again, late, newest
        return kept, late, newest

    def _night_before(
        self, session: Session, claim: Claim, kept: KeptNight, night: Night, now: int, real: float
    ) -> tuple[Night, tuple[Finding, ...]] | None:
        """What the night before shows now that something late has come for it; None: it was read a moment ago."""
        if real - kept.late_at < AGAIN_S:
            return None
        kept.late_at = real
        with reading(session):
            before = night_on(kept.ground.clock, night.date - timedelta(days=1))
            again, _newest = self._read(session, claim.site, before, now)
        again.watch.tick(before.ends)
        return before, again.watch.findings()

    def _read(self, session: Session, site: str, night: Night, now: int) -> tuple[KeptNight, int]:
        ground, newest = ground_of(session, site, night.date), newest_looked(session, site)
        return kept_night(ground, entries_of(session, site, night), newest, now, self._clock()), newest

    def _due(self, session: Session, site: str, kept: KeptNight, night: Night, now: int) -> int:
        """When to look though nothing comes: in a while, as long as the site says anything at all."""
        if kept.is_stale or kept.pending:
            return now
        last = select(ENTRIES.c.at).where(ENTRIES.c.site == site, ENTRIES.c.by != "server")
        newest = session.scalar(last.order_by(ENTRIES.c.at.desc(), ENTRIES.c.number.desc()).limit(1))
        open_ones = select(Alarm.id).where(Alarm.site == site, Alarm.ended_at.is_(None)).limit(1)
        is_awake = (newest is not None and now - newest < QUIET_S) or session.scalar(open_ones) is not None
        return min(now + TICK_S, night.ends + LAG_S) if is_awake else NEVER

    def _end_look(self, session: Session, filing: Filing) -> None:
        self._told(session, filing)
        filing.write()


def _filing(session: Session, watched: Watched, ground: Ground, now: int) -> Filing:
    return Filing(session, watched, ground.document, ground.clock, now)


def _arrived(session: Session, claim: Claim) -> tuple[list[Entry], int]:
    """What matters here of what came in since the last look, and the newest number among all that came."""
    numbers = (
        select(ENTRIES)
        .where(ENTRIES.c.site == claim.site, ENTRIES.c.number > claim.looked)
        .order_by(ENTRIES.c.number)
        .limit(MOST_AT_ONCE)
    )
    rows = session.execute(numbers).all()
    kinds = {kind.value for kind in (*WATCHED_KINDS, *OF_PEOPLE)}
    newest = rows[-1].number if rows else newest_looked(session, claim.site)
    return entries_in(row for row in rows if row.kind in kinds), newest
