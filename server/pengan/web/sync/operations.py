"""What a phone asks of the server: hello, push, pull; and what people decide about edits that wait."""

from __future__ import annotations

import logging
from collections.abc import Callable, Mapping
from typing import Any

from sqlalchemy import select
from sqlalchemy.exc import InterfaceError, OperationalError
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.document.tables import FORMAT
from pengan.engine.message import saying

from ..ahead.notices import notices_of
from ..ahead.operations import sheets_since
from ..alarms.finding import alarms_for_copy, newest_change
from ..database import Database, reading
from ..people.profile import signed
from ..people.rights import Actor, require
from ..problems import Problem, no_such_site
from ..sites.models import SiteCopy
from . import trays
from .answering import with_names
from .arriving import arriving_set
from .pulling import page_of, scope_of
from .pushing import take_set
from .schemas import MOST_EDITS, PROTOCOL
from .taking import Sender

Sent = Mapping[str, Any]
"""A call as its schema read it."""

logger = logging.getLogger(__name__)
other_person = saying("sync.other_person", "These edits are somebody else's. They wait on this phone for that person.")
other_copy = saying("sync.other_copy", "This copy is somebody else's. It waits on this phone for that person.")
too_many_edits = saying("sync.too_many_edits", "This push has {given} edits; {most} is the most at once.")


def hello(session: Session, actor: Actor | None, asked: Sent, now: Instant) -> dict[str, object]:
    """How the phone is to go on: ok, update_needed, start_over or signed_out.

    Raises `Problem` where the person may not read the site.
    """
    signed_in = None if actor is None else signed(session, actor)
    told: dict[str, object] = {"protocol": PROTOCOL, "format": FORMAT, "now": now, "signed_in": signed_in}
    nothing = {"scope": None, "revision": None, "role": None}
    if asked["protocol"] != PROTOCOL:
        return {"outcome": "update_needed", **told, **nothing}
    if actor is None or asked.get("person") not in (None, actor.person):
        return {"outcome": "signed_out", **told, **nothing}
    if asked.get("site") is None:
        return {"outcome": "ok", **told, **nothing}
    with reading(session):
        role = require(session, actor, asked["site"], "read")
        copy = copy_of(session, asked["site"])
        scope = scope_of(session, copy, actor)
    cursor = asked.get("cursor")
    starts_over = cursor is not None and (asked.get("scope") != scope or not copy.kept_from <= cursor <= copy.counter)
    outcome = "start_over" if starts_over else "ok"
    return {"outcome": outcome, **told, "scope": scope, "revision": copy.counter, "role": role}


def push(session: Session, actor: Actor, sent: Sent, now: Instant) -> dict[str, object]:
    """Judge the sets in the order in which they came, each in a transaction of its own; an answer for each edit.

    A set at which the server itself fails is left unanswered, so that the phone keeps it and all others go on; where
    there are no others, the failure is raised.
    """
    if sent.get("person") not in (None, actor.person):
        raise Problem(401, other_person())
    count = sum(len(item["edits"]) for item in sent["sets"])
    if count > MOST_EDITS:
        raise Problem(413, too_many_edits(given=count, most=MOST_EDITS))
    sender = Sender(actor.person, actor.device, now)
    answers: list[dict[str, Any]] = []
    failures: dict[str, Exception] = {}
    for item in sent["sets"]:
        try:
            answers.extend(take_set(session, actor, arriving_set(item), sender))
        except (OperationalError, InterfaceError):  # the database is away or busy: nothing else would fare better
            raise
        except Exception as failure:
            logger.error("a set could not be judged", exc_info=failure, extra={"site": item["site"]})
            session.expunge_all()
            failures[item["id"]] = failure
    if failures and not answers:
        raise next(iter(failures.values()))
    return {"protocol": PROTOCOL, "answers": with_names(session, answers), "unanswered": list(failures)}


def pull(session: Session, actor: Actor | None, asked: Sent, now: Instant | None = None) -> dict[str, Any]:
    """A page of what has changed since the cursor, or of a fresh copy; on the last page the nights ahead as well.

    `sheets` is what `ahead` gives: sheets after the cursor of their own; `alarms` a page of those that changed after
    theirs, given `now`. Raises `Problem` where the copy is somebody else's.
    """
    site = asked["site"]
    if asked.get("person") is not None and (actor is None or asked["person"] != actor.person):
        raise Problem(401, other_copy())
    with reading(session):
        role = require(session, actor, site, "read")
        copy = copy_of(session, site)
        page = page_of(session, copy, actor, role, asked)
        ahead: dict[str, Any] = {"sheets": None, "notices": [], "alarms": None}
        if page["next"] is None:
            since = 0 if page["fresh"] else asked.get("sheets") or 0
            notices = notices_of(session, site, actor.person if actor else None)
            known, alarms = asked.get("alarms"), None
            if now is not None and known is not None:
                alarms = alarms_for_copy(session, site, 0 if page["fresh"] else known, now, role is not None)
            sheets = sheets_since(session, site, since)
            ahead = {"sheets": sheets, "notices": [item.as_json() for item in notices], "alarms": alarms}
        return {"protocol": PROTOCOL, "role": role, **page, **ahead}


def decide(session: Session, actor: Actor, site: str, edit: str, decision: str, now: Instant) -> dict[str, object]:
    """Accept or decline what is held (managers), or discard what waits otherwise; the whole set goes together."""
    sender = Sender(actor.person, actor.device, now)
    answers = trays.decide(session, actor, site, edit, decision, sender)
    return {"protocol": PROTOCOL, "answers": with_names(session, answers), "unanswered": []}


def revision_of(session: Session, actor: Actor | None, site: str) -> tuple[int, int]:
    """The newest cursor there is, and the count of the changes of the site's alarms."""
    with reading(session):
        require(session, actor, site, "read")
        return copy_of(session, site).counter, newest_change(session, site)


def newest(session: Session, site: str) -> int:
    """The newest cursor there is, for somebody who was let in a moment ago."""
    with reading(session):
        return session.scalar(select(SiteCopy.counter).where(SiteCopy.site == site)) or 0


def copy_of(session: Session, site: str) -> SiteCopy:
    """The site's counter, as it is. Raises `Problem` where there is no such site."""
    copy = session.get(SiteCopy, site, populate_existing=True)
    if copy is None:
        raise Problem(404, no_such_site(site_id=site))
    return copy


def alarms_looker(database: Database, site: str) -> Callable[[], int]:
    """Asks for the count of the alarms' changes again and again, in sessions of its own."""

    def look() -> int:
        with database.session() as session, reading(session):
            return newest_change(session, site)

    return look


def looker(database: Database, site: str) -> Callable[[], int]:
    """Asks for the newest cursor again and again, in sessions of its own."""

    def look() -> int:
        with database.session() as session:
            return newest(session, site)

    return look
