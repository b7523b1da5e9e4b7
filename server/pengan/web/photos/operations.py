"""Photos kept and handed out. Whoever works at a site may do both; nobody changes or removes one."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from typing import Literal

from sqlalchemy import func, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from pengan.engine.message import saying

from ..database import reading
from ..people.rights import Actor, require
from ..problems import Problem
from .looking import fault_of
from .models import Photo

MOST_PHOTOS = 20_000
"""At one site, so that nobody fills the server's disk. With a megabyte each that is 20 GB."""

no_such_photo = saying("photos.none", "There is no such photo here. It may still be on the phone that took it.")
id_taken = saying("photos.id_taken", "Another photo has this id already. An id is used once.")
bad_id = saying("photos.bad_id", "A photo's id has 8 to 64 letters, digits and dashes.")
too_many = saying("photos.too_many", "This site keeps {most} photos, and no more.")
other_person = saying("photos.other_person", "This photo is somebody else's. It waits on this phone for that person.")

Outcome = Literal["taken", "known"]


@dataclass(frozen=True, slots=True)
class Sent:
    """A photo as it came: under which id, as which type, and with which digest."""

    id: str
    kind: str
    content: bytes
    digest: str | None = None


def keep_photo(session: Session, actor: Actor, site: str, sent: Sent, now: int, person: str) -> Outcome:
    """Keep a photo; the same again is known. Raises `Problem`: who may not, no whole photo, an id used twice."""
    if person != actor.person:
        raise Problem(401, other_person())
    _check(session, actor, site, sent)
    try:
        with session.begin():
            require(session, actor, site, "note")
            if outcome := _known(session, site, sent):
                return outcome
            if _count(session, site) >= MOST_PHOTOS:
                raise Problem(409, too_many(most=MOST_PHOTOS))
            session.add(_photo(site, sent, actor.person, now))
    except IntegrityError:
        # The same came at the same moment over another line.
        with reading(session):
            if outcome := _known(session, site, sent):
                return outcome
        raise
    return "taken"


def photo_at(session: Session, actor: Actor, site: str, id: str) -> Photo:
    """A photo of the site. Raises `Problem` where there is none, or not for this reader."""
    with reading(session):
        require(session, actor, site, "note")
        found = session.get(Photo, (site, id))
    if found is None:
        raise Problem(404, no_such_photo())
    return found


def _check(session: Session, actor: Actor, site: str, sent: Sent) -> None:
    """Who may not send one is told nothing of what is wrong with it."""
    with reading(session):
        require(session, actor, site, "note")
    if not (8 <= len(sent.id) <= 64 and sent.id.isascii() and sent.id.replace("-", "").isalnum()):
        raise Problem(422, bad_id())
    if fault := fault_of(sent.content, sent.kind, sent.digest):
        raise Problem(422, fault)


def _known(session: Session, site: str, sent: Sent) -> Outcome | None:
    there = session.scalar(select(Photo.sum).where(Photo.site == site, Photo.id == sent.id))
    if there is None:
        return None
    if there != _sum(sent):
        raise Problem(409, id_taken())
    return "known"


def _count(session: Session, site: str) -> int:
    return session.scalar(select(func.count()).select_from(Photo).where(Photo.site == site)) or 0


def _photo(site: str, sent: Sent, person: str, now: int) -> Photo:
    return Photo(
        site=site, id=sent.id, kind=sent.kind, size=len(sent.content), sum=_sum(sent), by=person, arrived_at=now,
        content=sent.content,
    )  # fmt: skip


def _sum(sent: Sent) -> bytes:
    return hashlib.sha256(sent.content).digest()
