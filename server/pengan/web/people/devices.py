"""Devices: enrolled with a token, recognised by it, listed, and ended from anywhere."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import Select, select, update
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.message import saying

from ..database import reading
from ..problems import Problem
from .models import Device, Person
from .rights import Actor
from .tokens import Token, new_token

SEEN_EVERY_S = 3600
"""How often at most a device's last visit is written down: a write for each request would cost more than it tells."""

_NOBODYS = "0" * 64
"""Compared with where there is no such device, so that the answer takes as long."""

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


def actor_of(session: Session, token: Token, now: Instant, lapse_s: int, ip: str | None) -> tuple[Actor, bool] | None:
    """Whoever holds the token, and whether this visit was written down.

    None where the token is unknown, wrong, ended, was not used for `lapse_s`, or belongs to somebody removed.
    """
    with reading(session):
        row = session.execute(_holder(token)).one_or_none()
        kept = row.Device.token_hash if row is not None else _NOBODYS
        if not token.matches(kept) or row is None:
            return None
        device, person = row.Device, row.Person
        if device.ended_at is not None or person.removed_at is not None or now - device.seen_at > lapse_s:
            return None
        actor, seen_at = _acting(person, device, ip), device.seen_at
    return actor, _write_visit(session, actor, seen_at, now)


def _acting(person: Person, device: Device, ip: str | None) -> Actor:
    return Actor(
        person=person.id,
        device=device.id,
        team=person.team,
        language=person.language,
        ip=ip,
        units=person.units,
        hour_cycle=person.hour_cycle,
    )


def _holder(token: Token) -> Select[Device, Person]:
    return (
        select(Device, Person)
        .join(Person, (Person.team == Device.team) & (Person.id == Device.person))
        .where(Device.team == token.team, Device.id == token.device)
    )


def _write_visit(session: Session, actor: Actor, seen_at: int, now: Instant) -> bool:
    if now - seen_at < SEEN_EVERY_S:
        return False
    own = update(Device).where(Device.team == actor.team, Device.id == actor.device, Device.seen_at < now)
    with session.begin():
        session.execute(own.values(seen_at=now))
    return True


def end_replaced(session: Session, actor: Actor | None, now: Instant) -> None:
    """End the device whose token a new one takes the place of in the same browser. Within a transaction."""
    if actor is not None and actor.device is not None:
        own = update(Device).where(Device.team == actor.team, Device.id == actor.device, Device.ended_at.is_(None))
        session.execute(own.values(ended_at=now, ended_by=actor.person))


def own_devices(session: Session, actor: Actor) -> list[DeviceLine]:
    """The actor's own devices, the newest first."""
    with reading(session):
        return devices_of(session, actor, actor.person)


def end_own(session: Session, actor: Actor, device: str, now: Instant) -> None:
    """End one of the actor's own devices. Raises `Problem` where they have no such device."""
    with session.begin():
        end(session, actor, actor.person, device, now)


def end_others(session: Session, actor: Actor, now: Instant) -> None:
    """End all of the actor's devices but the one that asks."""
    with session.begin():
        end_all(session, actor, actor.person, now, but=actor.device)


def devices_of(session: Session, actor: Actor, person: str) -> list[DeviceLine]:
    """The devices of a person of the actor's team that still let them in, the newest first. Within a transaction."""
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
