"""What each side of a dispute would do to tonight, worked out as soon as there is time for it.

Both nights are planned alike and with little effort: what counts is the difference. People then choose with both
finishes before their eyes.
"""

from __future__ import annotations

import json
import logging
from datetime import date

from sqlalchemy import select
from sqlalchemy.orm import Session

from pengan.engine.catch_up.under_way import edited_night, is_under_way
from pengan.engine.clock.nights import night_at
from pengan.engine.clock.zones import clock_of
from pengan.engine.document.document import Document
from pengan.engine.plan.sheet import NightSheet

from ..database import reading
from ..nights.stored import sheet_before, sheet_in
from ..sites.operations import SiteDocument, document_of
from ..sync.models import Edit, Waiting
from ..sync.nudges import nudge
from ..sync.proposals import proposed
from ..sync.pushing import lock
from .effects import figures
from .planning import SECOND_LOOK

logger = logging.getLogger(__name__)
Effect = dict[str, object]


def weigh_one(session: Session, now: int, effort: int = SECOND_LOOK) -> bool:
    """Weigh the open dispute that came first; False where none is left. A second process at it does no harm."""
    first = (
        select(Edit)
        .join(Waiting, (Waiting.site == Edit.site) & (Waiting.edit == Edit.id))
        .where(Waiting.tray == "disputed", Waiting.open, Waiting.effect.is_(None))
        .order_by(Waiting.site, Waiting.changed, Waiting.edit)
        .limit(1)
    )
    with reading(session):
        dispute = session.scalar(first)
    if dispute is None:
        return False
    found = document_of(session, dispute.site)
    with reading(session):
        other = proposed(session, found.document, dispute)
    _keep(session, dispute, _weighed(session, found, other, now, effort) | {"revision": found.revision})
    return True


def _weighed(session: Session, found: SiteDocument, mine: Document | None, now: int, effort: int) -> Effect:
    """Nothing for a side that cannot be planned: whoever decides sees that it is not known."""
    theirs = found.document
    try:
        night = night_at(clock_of(theirs.site), now).date
        kept = edited_night(theirs, night, _under_way(session, found, night, now), now, effort)
        taken = None if mine is None else edited_night(mine, night, kept, now, effort)
    except Exception as fault:
        logger.error("a dispute could not be weighed", exc_info=fault)
        return {"night": None, "theirs": None, "mine": None}
    return {
        "night": night.isoformat(),
        "theirs": figures(kept),
        "mine": None if taken is None else figures(taken),
    }


def _under_way(session: Session, found: SiteDocument, night: date, now: int) -> NightSheet | None:
    """The sheet in force once its water runs: neither side changes what ran. Before, both are planned as a whole."""
    with reading(session):
        stored = sheet_before(session, found.site, night, found.revision)
    sheet = None if stored is None else sheet_in(stored)
    return sheet if sheet is not None and is_under_way(sheet, now) else None


def _keep(session: Session, dispute: Edit, effect: Effect) -> None:
    """Phones pull it as a change of the tray."""
    with session.begin():
        copy = lock(session, dispute.site)
        waits = session.get(Waiting, (dispute.site, dispute.id), populate_existing=True)
        if copy is None or waits is None or not waits.open or waits.effect is not None:
            return
        copy.counter += 1
        waits.changed, waits.effect = copy.counter, json.dumps(effect, sort_keys=True, separators=(",", ":"))
        counter = copy.counter
    nudge(dispute.site, counter)
