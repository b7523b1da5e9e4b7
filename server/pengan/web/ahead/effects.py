"""What edits did to tonight, written into the history as soon as it is known: the finish and what does not fit.

Edits that came while others were still waiting to be planned were planned together; `revisions` says from which to
which, so that nobody takes the effect of all for that of one.
"""

from __future__ import annotations

import json

from sqlalchemy import Update, select, update
from sqlalchemy.orm import Session

from pengan.engine.plan.sheet import NightSheet

from ..sync.models import Edit
from .notices import TAKEN
from .told import short_l


def write_effect(
    session: Session, site: str, before: NightSheet, after: NightSheet, *, since: int, revision: int
) -> None:
    """Write into the edits taken after revision `since`, up to `revision`, what tonight was and what it became."""
    effect = {
        "night": after.night,
        "revisions": [since + 1, revision],
        "before": figures(before),
        "after": figures(after),
    }
    session.execute(_taken(site, since + 1, revision).values(effect=_text(effect)))


def amend_effect(session: Session, site: str, after: NightSheet, revision: int) -> None:
    """Tonight has got a better sheet of the same revision: that is what the edits led to."""
    found = select(Edit.effect).where(Edit.site == site, Edit.revision == revision, Edit.effect.is_not(None)).limit(1)
    written = session.scalar(found)
    effect = None if written is None else json.loads(written)
    if effect and effect["night"] == after.night:
        effect["after"] = figures(after)
        session.execute(_taken(site, *effect["revisions"]).values(effect=_text(effect)))


def _taken(site: str, first: int, last: int) -> Update:
    edits = update(Edit).where(Edit.site == site, Edit.outcome == TAKEN, Edit.revision.between(first, last))
    return edits.execution_options(synchronize_session=False)


def figures(sheet: NightSheet) -> dict[str, float | None]:
    """The finish as an instant (None: no water), and litres."""
    return {"finish": sheet.finish, "volume_l": sheet.volume_l, "short_l": round(short_l(sheet), 3)}


def _text(effect: object) -> str:
    return json.dumps(effect, sort_keys=True, separators=(",", ":"))
