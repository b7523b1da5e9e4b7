"""Invitations: a short code lets one device in, once and for a while.

A code either brings somebody to a site with a role, or is the next device of somebody who is in. Whoever tries a code
that cannot be used learns nothing about why.
"""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import select, update
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.message import saying

from ..database import reading
from ..own_secret import OwnSecret
from ..problems import Problem, no_such_site
from .attempts import by_address, by_subject, count_attempt, give_back
from .codes import bare, new_code
from .devices import end_replaced, enrol
from .models import Invitation, Person
from .profile import Profile
from .rights import ROLES, Actor, Role, may, require, role_at
from .roles import grant, managed
from .teams import adopt, lock_site, site_exists, team_of
from .tokens import Token, new_id

HOUR_S = 3600
HASHED_FOR = "invitation"

code_not_good = saying(
    "people.code_not_good", "This code cannot be used. It may be mistyped, used already, or too old: ask for another."
)
no_such_invitation = saying("people.no_such_invitation", "There is no such open invitation.")


@dataclass(frozen=True, slots=True)
class Invited:
    """A new invitation. Its code is told this once."""

    id: str
    code: str
    expires_at: int


@dataclass(frozen=True, slots=True)
class InvitationLine:
    """An open invitation as the managers of its site see it."""

    id: str
    role: str
    name: str | None
    made_at: int
    expires_at: int


@dataclass(frozen=True, slots=True)
class Joined:
    """Who came in, and the token of their device; None where they were in already."""

    person: str
    token: Token | None


def invite(
    session: Session, secret: OwnSecret, actor: Actor, site: str, role: Role, name: str | None, now: Instant, hours: int
) -> Invited:
    """Ask somebody to a site with a role. Raises `Problem` unless the actor manages it."""
    with session.begin():
        require(session, actor, site, "manage")
        return _make(session, secret, now, hours, Invitation(team=actor.team, site=site, role=role, name=name), actor)


def invite_from_the_server(
    session: Session, secret: OwnSecret, site: str, role: Role, name: str | None, now: Instant, hours: int
) -> Invited:
    """Ask somebody to a site from the server's own command line: the way in of the first manager. Raises `Problem`."""
    with session.begin():
        if not site_exists(session, site):
            raise Problem(404, no_such_site(site_id=site))
        team = adopt(session, site)
        return _make(session, secret, now, hours, Invitation(team=team, site=site, role=role, name=name), None)


def invite_device(session: Session, secret: OwnSecret, actor: Actor, person: str, now: Instant, hours: int) -> Invited:
    """A code for one's own next device, or that of a person whose sites the actor manages. Raises `Problem`."""
    with session.begin():
        found = managed(session, actor, person)
        return _make(session, secret, now, hours, Invitation(team=found.team, person=found.id, name=found.name), actor)


def address_of(base: str, code: str) -> str:
    """Where a phone goes to use the code. It stands after `#`, so that no log of a server ever has it."""
    return f"{base.rstrip('/')}/join#{code}"


def _make(
    session: Session, secret: OwnSecret, now: Instant, hours: int, invitation: Invitation, actor: Actor | None
) -> Invited:
    code = new_code()
    invitation.id, invitation.code_hash = new_id(), secret.hashed(HASHED_FOR, bare(code))
    invitation.made_by, invitation.made_at = actor.person if actor else None, now
    invitation.expires_at = now + hours * HOUR_S
    session.add(invitation)
    return Invited(invitation.id, code, invitation.expires_at)


def open_invitations(session: Session, actor: Actor, site: str, now: Instant) -> list[InvitationLine]:
    """The invitations to a site that can still be used, the newest first."""
    with reading(session):
        require(session, actor, site, "manage")
        found = (
            select(Invitation)
            .where(Invitation.team == actor.team, Invitation.site == site, Invitation.expires_at > now)
            .where(Invitation.used_at.is_(None), Invitation.withdrawn_at.is_(None))
            .order_by(Invitation.made_at.desc(), Invitation.id)
        )
        return [
            InvitationLine(item.id, item.role or "", item.name, item.made_at, item.expires_at)
            for item in session.scalars(found)
        ]


def withdraw(session: Session, actor: Actor, invitation: str, now: Instant) -> None:
    """Make an open invitation useless. Raises `Problem` where the actor has no say over it."""
    with session.begin():
        found = session.get(Invitation, (actor.team, invitation), with_for_update=True)
        if found is None or not _has_say(session, actor, found):
            raise Problem(404, no_such_invitation())
        if found.used_at is None and found.withdrawn_at is None:
            found.withdrawn_at = now


def _has_say(session: Session, actor: Actor, invitation: Invitation) -> bool:
    if invitation.site is None:
        return actor.person in (invitation.made_by, invitation.person)
    return may(role_at(session, actor.person, invitation.site), "manage")


def join(
    session: Session,
    secret: OwnSecret,
    actor: Actor | None,
    code: str,
    profile: Profile,
    device: str,
    now: Instant,
    ip: str | None,
) -> Joined:
    """Come in by a code. An `actor` of the same team gets the role as who they are. Raises `Problem`."""
    typed = bare(code)
    address = by_address(secret, HASHED_FOR, ip)
    count_attempt(session, (address, by_subject(secret, "tried code", typed)), now)
    with session.begin():
        invitation = _take(session, secret.hashed(HASHED_FOR, typed), now)
        person = _who(session, invitation, actor, profile, now)
        invitation.used_by = person.id
        if invitation.site is not None:
            lock_site(session, invitation.site)
            grant(
                session, person, invitation.site, _higher(invitation.role, role_at(session, person.id, invitation.site))
            )
        known = actor is not None and actor.person == person.id and invitation.site is not None
        if not known:
            end_replaced(session, actor, now)
        joined = Joined(person.id, None if known else enrol(session, person, device, now))
    give_back(session, (address,), now)
    return joined


def _take(session: Session, code_hash: str, now: Instant) -> Invitation:
    """The invitation, used from now on. Of two who come at once, one gets it."""
    taken = (
        update(Invitation)
        .where(Invitation.code_hash == code_hash, Invitation.used_at.is_(None))
        .where(Invitation.withdrawn_at.is_(None), Invitation.expires_at > now)
        .values(used_at=now)
        .returning(Invitation)
    )
    invitation = session.scalars(taken).one_or_none()
    if invitation is None or not _still_meant(session, invitation):
        raise Problem(403, code_not_good())
    return invitation


def _still_meant(session: Session, invitation: Invitation) -> bool:
    """Whether whoever made it could still make it, and the site or the person is still the team's."""
    maker = invitation.made_by
    if invitation.site is None:
        return _there(session, invitation.team, invitation.person) and _there(session, invitation.team, maker)
    if team_of(session, invitation.site) != invitation.team:
        return False
    return maker is None or may(role_at(session, maker, invitation.site), "manage")


def _there(session: Session, team: str, person: str | None) -> bool:
    found = session.get(Person, (team, person), populate_existing=True) if person else None
    return found is not None and found.removed_at is None


def _who(session: Session, invitation: Invitation, actor: Actor | None, profile: Profile, now: Instant) -> Person:
    wanted = invitation.person or (actor.person if actor and actor.team == invitation.team else None)
    found = session.get(Person, (invitation.team, wanted)) if wanted else None
    if found is not None:
        return found
    made = Person(
        team=invitation.team,
        id=new_id(),
        name=profile.name,
        language=profile.language,
        units=profile.units,
        hour_cycle=profile.hour_cycle,
        first_day=profile.first_day,
        digits=profile.digits,
        joined_at=now,
    )
    session.add(made)
    session.flush()
    return made


def _higher(invited: str | None, held: Role | None) -> Role:
    """An invitation never takes anything away from somebody who may do more already."""
    known = [role for role in ROLES if role in (invited, held)]
    return known[0]
