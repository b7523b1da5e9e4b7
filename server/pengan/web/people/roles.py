"""Who works at a site and as what, and changing it. Each change raises the person's `scope` there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

from sqlalchemy import func, select, update
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.message import saying

from ..database import reading
from ..problems import Problem
from .devices import DeviceLine, devices_of, end, end_all
from .models import Grant, Invitation, Person
from .rights import Actor, Role, may, require, role_at, roles_of
from .teams import lock_site

no_such_person = saying("people.no_such_person", "There is no such person here.")
last_manager = saying("people.last_manager", "A site needs a manager: make somebody else one first.")


@dataclass(frozen=True, slots=True)
class PersonLine:
    """A person as the people of a site see them."""

    id: str
    name: str
    role: Role


def people_at(session: Session, actor: Actor, site: str) -> list[PersonLine]:
    """Everybody with a role at the site, by name. Who reads without signing in sees no names."""
    held = (
        select(Person.id, Person.name, Grant.role)
        .join(Grant, (Grant.team == Person.team) & (Grant.person == Person.id))
        .where(Grant.site == site, Grant.role.is_not(None), Person.removed_at.is_(None))
        .order_by(Person.name, Person.id)
    )
    with reading(session):
        require(session, actor, site, "note")
        return [PersonLine(person, name, cast(Role, role)) for person, name, role in session.execute(held)]


def change_role(session: Session, actor: Actor, person: str, site: str, role: Role | None) -> None:
    """Give a person of the team a role at the site, another one, or none. Raises `Problem`."""
    with session.begin():
        lock_site(session, site)
        require(session, actor, site, "manage")
        found = _person(session, actor, person)
        if role != "manager":
            keep_a_manager(session, site, person)
        grant(session, found, site, role)


def remove_person(session: Session, actor: Actor, person: str, now: Instant) -> None:
    """Take a person out of the team: their roles, devices, password and open invitations. Their name stays in history.

    Raises `Problem` unless the actor is that person, or manages every site the person works at.
    """
    with session.begin():
        found = managed(session, actor, person)
        _withdraw_all(session, found, now)  # before any site is locked, as those who join do it
        for site in roles_of(session, person):
            lock_site(session, site)
            keep_a_manager(session, site, person)
            grant(session, found, site, None)
        found.removed_at, found.password_hash, found.sign_in_name = now, None, None
        end_all(session, actor, person, now)


def _withdraw_all(session: Session, person: Person, now: Instant) -> None:
    open_ones = update(Invitation).where(Invitation.team == person.team, Invitation.used_at.is_(None))
    theirs = open_ones.where((Invitation.made_by == person.id) | (Invitation.person == person.id))
    session.execute(theirs.values(withdrawn_at=now))


def devices_of_managed(session: Session, actor: Actor, person: str) -> list[DeviceLine]:
    """The devices of a person whose sites the actor manages. Raises `Problem`."""
    with reading(session):
        return devices_of(session, actor, managed(session, actor, person).id)


def end_device_of_managed(session: Session, actor: Actor, person: str, device: str, now: Instant) -> None:
    """End a device of a person whose sites the actor manages. Raises `Problem`."""
    with session.begin():
        end(session, actor, managed(session, actor, person).id, device, now)


def managed(session: Session, actor: Actor, person: str) -> Person:
    """The actor themself, or a person all of whose sites the actor manages. Raises `Problem` otherwise.

    A manager of one site is not let into what that person may do at another.
    """
    found = _person(session, actor, person)
    if person == actor.person:
        return found
    mine, theirs = roles_of(session, actor.person), roles_of(session, person)
    if not theirs or not any(may(mine.get(site), "manage") for site in theirs):
        raise Problem(404, no_such_person())
    for site in theirs:
        require(session, actor, site, "manage")
    return found


def grant(session: Session, person: Person, site: str, role: Role | None) -> None:
    """Write a role down; `scope` rises where it is another one."""
    held = session.get(Grant, (site, person.id), with_for_update=True)
    if held is None:
        if role is not None:
            session.add(Grant(site=site, person=person.id, team=person.team, role=role, scope=1))
    elif held.role != role:
        held.role, held.scope = role, held.scope + 1
    session.flush()


def keep_a_manager(session: Session, site: str, leaving: str) -> None:
    """Raises `Problem` where the site would be left without a manager. Locked, it is not left by two at once."""
    if role_at(session, leaving, site) != "manager":
        return
    others = (
        select(func.count())
        .select_from(Grant)
        .join(Person, (Person.team == Grant.team) & (Person.id == Grant.person))
        .where(Grant.site == site, Grant.role == "manager", Grant.person != leaving, Person.removed_at.is_(None))
    )
    if not session.scalar(others):
        raise Problem(409, last_manager())


def _person(session: Session, actor: Actor, person: str) -> Person:
    found = session.get(Person, (actor.team, person), populate_existing=True)
    if found is None or found.removed_at is not None:
        raise Problem(404, no_such_person())
    return found
