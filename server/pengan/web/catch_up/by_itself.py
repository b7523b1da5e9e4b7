"""The site's own rule accepts the rest of the night once an interruption is over, where a person has set it.

It is carried out by the process that watches, after a look: thinking holds no lock, and nights are planned meanwhile.
A site without the rule costs nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from sqlalchemy.orm import Session

from pengan.engine.catch_up.rest import Way
from pengan.engine.clock.nights import Night
from pengan.engine.document.document import Document
from pengan.engine.document.tables import NEVER
from pengan.engine.journal.alarm import made_id
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.journal.outages import FOREVER, Outages, outages
from pengan.engine.message import saying
from pengan.engine.plan.problem import Span

from ..ahead.queue import lock_for_sheets
from ..database import reading
from ..journal.names import SERVER
from ..journal.storing import store
from ..journal.wording import saying_so
from ..sites.operations import document_of
from .accepting import wake
from .kept import accepted_of
from .models import CaughtUp
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
    """What one watching process has judged already, so that no rest is worked out twice for nothing."""

    judged: dict[str, tuple[object, ...]] = field(default_factory=dict)

    def look(self, session: Session, document: Document, night: Night, now: int) -> bool:
        """Accept tonight's rest if the rule says so and there is one; whether it did.

        Once for each end of interruptions: several processes, or one that is killed and comes back, find it done.
        """
        if document.site.catch_up_by_itself == NEVER:
            return False
        site = document.site.id
        found = document_of(session, site)
        with reading(session):
            as_it_is = stood(session, found.document, night.date, accepted_of(session, site, night.date))
            ended = over_since(as_it_is, now)
            sheet = None if ended is None else in_force(session, found, as_it_is)
        if ended is None or sheet is None or self.judged.get(site) == (ended, found.revision):
            return False
        self.judged[site] = (ended, found.revision)
        if not is_news(sheet, as_it_is.rest(sheet, now, Way.KEEP, EFFORT)):
            return False
        return _accept(session, as_it_is, Way(found.document.site.catch_up_by_itself), ended, now)


def over_since(as_it_is: Stood, now: int) -> int | None:
    """The instant at which tonight's last interruption ended; None while one goes on or has only just ended, and where
    somebody has accepted a rest since.

    What was shut before tonight and still is holds nothing up: the sheet's rest keeps clear of it.
    """
    spans = list(_spans(outages(as_it_is.document, as_it_is.entries)))
    tonight = [(start, end) for start, end in spans if end > as_it_is.night.starts]
    ended = max((end for _, end in tonight if end <= now), default=None)
    goes_on = any(start >= as_it_is.night.starts and end > now for start, end in tonight)
    if ended is None or goes_on or now - ended < SETTLES_S:
        return None
    return None if any(one.at >= ended for one in as_it_is.accepted) else ended


def _spans(out: Outages) -> Iterator[Span]:
    for spans in (*out.power.values(), *out.shut.values(), out.stopped):
        yield from ((start, min(end, FOREVER)) for start, end in spans)


def _accept(session: Session, as_it_is: Stood, way: Way, ended: int, now: int) -> bool:
    site, night = as_it_is.document.site.id, as_it_is.night.date.isoformat()
    id = made_id("catch-up-by-itself", night, str(ended))
    with session.begin():
        lock_for_sheets(session, site)
        accepted = accepted_of(session, site, as_it_is.night.date)
        if session.get(CaughtUp, (site, night, id)) is not None or any(one.at >= ended for one in accepted):
            return False
        session.add(
            CaughtUp(
                site=site, night=night, id=id, at=now, way=way.value, effort=EFFORT, promised="[]", by=SERVER,
                arrived_at=now, worked_out=False,
            )
        )  # fmt: skip
        session.flush()
        wake(session, site)
    with session.begin():
        store(session, site, [_note(id, way, now)], now)
    return True


def _note(id: str, way: Way, now: int) -> Entry:
    said = RULE_KEEPS if way is Way.KEEP else RULE_RECOVERS
    return saying_so(Entry(f"catch-up-{id}", now, Kind.NOTE, SERVER), said())
