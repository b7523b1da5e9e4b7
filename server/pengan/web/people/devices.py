"""Devices: enrolled with a token, recognised by it, listed, and ended from anywhere."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import select, update
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.message import saying

from ..problems import Problem
from .models import Device, Person
from .rights import Actor
from .tokens import Token, new_token

SEEN_EVERY_S = 3600
"""How often at most a device's last visit is written down: a write for each request would cost more than it tells."""

no_such_device = saying("people.no_such_device", "There is no such device.")


@dataclass(frozen=True, slots=True)
class DeviceLine:
    """A device as it stands in a list."""

    id: str
    name: str
    enrolled_at: int
    seen_at: int
    this_one: bool


def enrol(session: Session, person: Person, name: str, now: Instant) -> Token:
    """Let a device of the person's in; the token is told this once. Call it inside a transaction."""
    token = new_token(person.team)
    session.add(
        Device(
            team=person.team,
            id=token.device,
            person=person.id,
            name=name,
            token_hash=token.hashed(),
            enrolled_at=now,
            seen_at=now,
        )
    )
    return token


def actor_of(session: Session, token: Token, now: Instant, lapse_s: int, ip: str | None) -> Actor | None:
    """Whoever holds the token, or None: unknown, wrong, ended, unused for `lapse_s`, or of somebody removed."""
    found = (
        select(Device, Person)
        .join(Person, (Person.team == Device.team) & (Person.id == Device.person))
        .where(Device.team == token.team, Device.id == token.device)
    )
    with session.begin():
        row = session.execute(found).one_or_none()
        if row is None or not token.matches(row.Device.token_hash):
            return None
        device, person = row
        if device.ended_at is not None or person.removed_at is not None or now - device.seen_at > lapse_s:
            return None
    if now - device.seen_at >= SEEN_EVERY_S:
        _seen(session, device, now)
    return Actor(person.id, device.id, person.team, person.language, ip)


def _seen(session: Session, device: Device, now: Instant) -> None:
    with session.begin():
        own = update(Device).where(Device.team == device.team, Device.id == device.id, Device.seen_at < now)
        session.execute(own.values(seen_at=now))


def devices_of(session: Session, actor: Actor, person: str) -> list[DeviceLine]:
    """The devices of a person of the actor's team that still let them in, the newest first."""
    held = (
        select(Device)
        .where(Device.team == actor.team, Device.person == person, Device.ended_at.is_(None))
        .order_by(Device.enrolled_at.desc(), Device.id)
    )
    return [
        DeviceLine(item.id, item.name, item.enrolled_at, item.seen_at, item.id == actor.device)
        for item in session.scalars(held)
    ]


def end(session: Session, actor: Actor, person: str, device: str, now: Instant) -> None:
    """End one device of a person. Raises `Problem` where that person has no such device."""
    found = session.get(Device, (actor.team, device))
    if found is None or found.person != person:
        raise Problem(404, no_such_device())
    if found.ended_at is None:
        found.ended_at, found.ended_by = now, actor.person


def end_all(session: Session, actor: Actor, person: str, now: Instant, but: str | None = None) -> None:
    """End every device of a person, but the one named."""
    held = update(Device).where(Device.team == actor.team, Device.person == person, Device.ended_at.is_(None))
    if but is not None:
        held = held.where(Device.id != but)
    session.execute(held.values(ended_at=now, ended_by=actor.person))
