"""Messages of a broker, taken into the journal: whose they are, what is in them, and what each is answered.

A message says by its topic which reporter sent it and proves it by its token. One that does not is kept aside at that
reporter's site, in one row a reporter that counts: whoever holds no token cannot fill a site's list.
"""

from __future__ import annotations

import logging
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from pengan.engine.document.fault import Fault
from pengan.engine.journal.reading import Batch, Faults, as_text, read_message
from pengan.engine.journal.schema import topic_of
from pengan.engine.message import saying

from ..database import reading
from .aside import Aside
from .names import REPORTER
from .reporters import Reports, by_tokens, sites_of_reporters
from .taking import REPORTED, Answer, Parcel, Teller, take

TOPIC = re.compile(topic_of("([A-Za-z0-9-]{1,64})"))
EVERY_REPORTER = topic_of("+")

wrong_token = saying(
    "journal.wrong_token", "This came in the name of a reporter, but without its token. Nothing of it was taken."
)
logger = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Message:
    """A message as the broker hands it over."""

    topic: str
    payload: bytes


@dataclass(frozen=True, slots=True)
class Heard:
    """A message whose reporter is known to belong to a site. `parcel` is what is in it."""

    place: int
    site: str
    parcel: Parcel


def take_messages(session: Session, messages: Sequence[Message], now: int) -> list[list[Answer] | None]:
    """Take all of them, those for one site in one transaction; what became of each message's entries. None: it is
    nobody's, or could not be read."""
    answers: list[list[Answer] | None] = [None] * len(messages)
    sites: dict[str, list[Heard]] = {}
    for one in _heard(session, messages):
        sites.setdefault(one.site, []).append(one)
    for site, ones in sorted(sites.items()):
        for one, told in zip(ones, take(session, site, [one.parcel for one in ones], now), strict=True):
            answers[one.place] = told if one.parcel.unread is None else None
    return answers


def _heard(session: Session, messages: Sequence[Message]) -> Iterator[Heard]:
    ids = [found[1] if (found := TOPIC.fullmatch(message.topic)) else None for message in messages]
    batches = [read_message(message.payload) for message in messages]
    with reading(session):
        sites = sites_of_reporters(session, [id for id in ids if id])
        known = by_tokens(session, [batch.token if isinstance(batch, Batch) else None for batch in batches])
    for place, (id, batch, reporter) in enumerate(zip(ids, batches, known, strict=True)):
        if id is None or id not in sites:
            logger.warning("message of nobody")
        else:
            yield Heard(place, sites[id], _parcel(id, batch, reporter, messages[place].payload))


def _parcel(id: str, batch: Batch | Faults, reporter: Reports | None, payload: bytes) -> Parcel:
    if isinstance(batch, Batch) and reporter is not None and reporter.id == id:
        return Parcel(Teller(REPORTER + id, REPORTED, reporter), batch.entries)
    faults = (Fault(None, None, "token", wrong_token()),) if isinstance(batch, Batch) else batch
    return Parcel(Teller(REPORTER + id, REPORTED), (), Aside(REPORTER + id, as_text(payload), faults, key=""))
