"""How people want to be told, and on which devices."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from urllib.parse import urlsplit

from sqlalchemy import delete
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.document.fault import Fault
from pengan.engine.journal.alarm import Gravity
from pengan.engine.message import saying

from ..ahead.queue import upsert
from ..database import reading
from ..people.rights import Actor
from ..problems import Problem, fields_wrong
from .models import PushMessage, PushSubscription, PushWish

unknown_service = saying(
    "push.unknown_service", "This browser's push service is not among those that this server calls: {given}."
)
no_device = saying("push.no_device", "Only a device that was let in can be told.")
_HOST = re.compile(r"[a-z0-9.-]{1,253}")


@dataclass(frozen=True, slots=True)
class Wish:
    """From which gravity on somebody is told; their quiet hours, and what is told in those too."""

    least: Gravity = Gravity.SERIOUS
    quiet_from: str | None = None
    quiet_to: str | None = None
    quiet_but: Gravity | None = Gravity.GRAVE


def subscribe(
    session: Session, actor: Actor, endpoint: str, p256dh: str, auth: str, services: Sequence[str], now: Instant
) -> None:
    """Tell this device from now on. Raises `Problem` for an address at no push service that may be called."""
    if actor.device is None:
        raise Problem(403, no_device())
    if not may_be_called(endpoint, services):
        given = urlsplit(endpoint).hostname or ""
        fault = Fault(None, None, "endpoint", unknown_service(given=given[:80]))
        raise Problem(422, fields_wrong(), [fault])
    key = {"team": actor.team, "device": actor.device}
    given_now = {"person": actor.person, "endpoint": endpoint, "p256dh": p256dh, "auth": auth, "made_at": int(now)}
    with session.begin():
        upsert(session, PushSubscription, key, given_now)


def unsubscribe(session: Session, actor: Actor) -> None:
    """Tell this device no more."""
    with session.begin():
        forget(session, actor.team, actor.device or "")


def forget(session: Session, team: str, device: str) -> None:
    """A device's subscription and whatever waits for it. Belongs to the caller's transaction."""
    for table in (PushSubscription, PushMessage):
        session.execute(delete(table).where(table.team == team, table.device == device))


def is_subscribed(session: Session, actor: Actor) -> bool:
    """Whether this device is told."""
    with reading(session):
        return session.get(PushSubscription, (actor.team, actor.device or "")) is not None


def wish_of(session: Session, team: str, person: str) -> Wish:
    """How somebody wants to be told. Inside a transaction."""
    row = session.get(PushWish, (team, person), populate_existing=True)
    if row is None:
        return Wish()
    but = None if row.quiet_but is None else Gravity(row.quiet_but)
    return Wish(Gravity(row.least), row.quiet_from, row.quiet_to, but)


def own_wish(session: Session, actor: Actor) -> Wish:
    """How the actor wants to be told."""
    with reading(session):
        return wish_of(session, actor.team, actor.person)


def wish(session: Session, actor: Actor, wanted: Wish) -> None:
    """Write down how the actor wants to be told."""
    key = {"team": actor.team, "person": actor.person}
    but = None if wanted.quiet_but is None else int(wanted.quiet_but)
    given = {"least": int(wanted.least), "quiet_from": wanted.quiet_from, "quiet_to": wanted.quiet_to, "quiet_but": but}
    with session.begin():
        upsert(session, PushWish, key, given)


def may_be_called(endpoint: str, services: Sequence[str]) -> bool:
    """Whether an address that a browser gave lies at one of these push services. Where it leads is the browser's word
    alone: without this, anybody who was let in could have the server call whomever they like."""
    try:
        parts = urlsplit(endpoint)
        port = parts.port
    except ValueError:
        return False
    if parts.username is not None or parts.password is not None or not _HOST.fullmatch(parts.hostname or ""):
        return False
    at = f"{parts.hostname}:{port}" if port else str(parts.hostname)
    if parts.scheme == "http":
        return f"http://{at}" in services
    return parts.scheme == "https" and any(_is_at(at, service) for service in services)


def _is_at(host: str, service: str) -> bool:
    return host.endswith(service[1:]) if service.startswith("*.") else host == service
