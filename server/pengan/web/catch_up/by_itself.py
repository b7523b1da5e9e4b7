"""The site's own rule accepts the rest of the night once an interruption is over, where a person has set it.

It is carried out by the process that watches, after a look: that one hears of an interruption's end at once and looks
again every half minute, while the one that plans wakes up for edits. Thinking holds no lock, and nights are planned
meanwhile. A site without the rule costs nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from sqlalchemy.orm import Session

from pengan.engine.catch_up.rest import Way
from pengan.engine.clock.nights import Night
from pengan.engine.document.document import Document
from pengan.engine.document.tables import NEVER
from pengan.engine.journal.alarm import made_id
from pengan.engine.journal.before import OF_OUTAGES
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.journal.outages import Outages, outages
from pengan.engine.message import saying
from pengan.engine.plan.problem import Span

from ..ahead.queue import lock_for_sheets
from ..database import reading
from ..journal.finding import happened
from ..journal.names import SERVER
from ..journal.storing import store
from ..journal.wording import saying_so
from ..sites.operations import document_of
from .accepting import wake
from .kept import Accepted, accepted_of, keep
from .offering import EFFORT, in_force, is_news
from .tonight import Stood, stood

SETTLES_S = 120
"""Power that flickers comes back more than once: so long after an end nothing has to have failed again. Common
practice, no source."""

RULE_KEEPS = saying(
    "catch_up.rule_keeps", "By the site’s rule, the rest of the night is accepted: it keeps to the clock."
)
RULE_RECOVERS = saying(
    "catch_up.rule_recovers",
    "By the site’s rule, the rest of the night is accepted: what was missed is made up for, as far as it fits.",
)


@dataclass
class ByItself:
    """What one watching process has judged and said already, so that no rest is worked out twice for nothing.

    What it judges lasts as long as the site's interruptions stay what they were.
    """

    judged: dict[str, tuple[Span, ...]] = field(default_factory=dict)
    said: set[tuple[str, str]] = field(default_factory=set)

    def look(self, session: Session, document: Document, night: Night, now: int) -> bool:
        """Accept tonight's rest if the rule says so and there is one; whether it did.

        Once for each end of interruptions: several processes, or one that is killed and comes back, find it done.
        Until a night is interrupted, a look is one question to the journal. `document` may be a little old.
        """
        if document.site.catch_up_by_itself == NEVER or not night.starts <= now < night.ends:
            return False
        site = document.site.id
        with reading(session):
            told = happened(session, site, night.starts, night.ends, OF_OUTAGES)
            known = Stood(document, night, accepted_of(session, site, night.date) if told else (), told)
        self._say_so(session, site, known.accepted, now)
        spans = _spans(outages(document, told))
        if over_since(known, now) is None or self.judged.get(site) == spans:
            return False
        return self._accept_what_is_news(session, site, night, now)

    def _accept_what_is_news(self, session: Session, site: str, night: Night, now: int) -> bool:
        """What is read here is of one moment, and is read again before anything is written."""
        found = document_of(session, site)
        rule = found.document.site.catch_up_by_itself
        with reading(session):
            as_it_is = stood(session, found.document, night.date, accepted_of(session, site, night.date))
            sheet = in_force(session, found, as_it_is)
        ended = over_since(as_it_is, now)
        if rule == NEVER or ended is None or sheet is None:
            return False
        if not is_news(sheet, as_it_is.rest(sheet, now, Way.KEEP, EFFORT)):
            self.judged[site] = _spans(outages(found.document, as_it_is.entries))
            return False
        done = _accept(session, as_it_is, Way(rule), ended, now)
        with reading(session):
            accepted = accepted_of(session, site, night.date)
        self._say_so(session, site, accepted, now)
        return done

    def _say_so(self, session: Session, site: str, accepted: Sequence[Accepted], now: int) -> None:
        """Each is told in the journal; once more by a process that has just begun, for the one before may have been
        killed in between. The journal takes an id once."""
        for one in accepted:
            if one.by == SERVER and (site, one.id) not in self.said:
                with session.begin():  # of its own, so that whoever fills the journal never keeps a night waiting
                    store(session, site, [_note(one)], now)
                self.said.add((site, one.id))


def over_since(as_it_is: Stood, now: int) -> int | None:
    """The instant at which tonight's last interruption ended; None while one goes on or has only just ended, and where
    somebody has accepted a rest since.

    A night's journal begins with the night: what was shut before and still is holds nothing up.
    """
    spans = _spans(outages(as_it_is.document, as_it_is.entries))
    ended = max((end for _, end in spans if end <= now), default=None)
    goes_on = any(end > now for _, end in spans)
    if ended is None or goes_on or now - ended < SETTLES_S:
        return None
    return None if any(one.at >= ended for one in as_it_is.accepted) else ended


def _spans(out: Outages) -> tuple[Span, ...]:
    return tuple(
        sorted({*out.stopped, *(span for each in (out.power, out.shut) for spans in each.values() for span in spans)})
    )


def _accept(session: Session, as_it_is: Stood, way: Way, ended: int, now: int) -> bool:
    site, night = as_it_is.document.site.id, as_it_is.night.date.isoformat()
    id = made_id("catch-up-by-itself", night, str(ended))
    with session.begin():
        lock_for_sheets(session, site)
        accepted = accepted_of(session, site, as_it_is.night.date)
        if any(one.at >= ended for one in accepted):
            return False
        by_rule = Accepted(id, now, way, EFFORT, (), SERVER, worked_out=False)
        if not keep(session, site, night, by_rule, now):
            return False
        wake(session, site)
    return True


def _note(one: Accepted) -> Entry:
    said = RULE_KEEPS if one.way is Way.KEEP else RULE_RECOVERS
    return saying_so(Entry(f"catch-up-{one.id}", one.at, Kind.NOTE, SERVER), said())
