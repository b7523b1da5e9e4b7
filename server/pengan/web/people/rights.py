"""Who may do what at which site. Every operation that reads or changes a site asks here, inside its own transaction.

What a person may do is looked up each time, never remembered in a token: a role that was taken away is gone at once.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, cast, get_args

from sqlalchemy import select
from sqlalchemy.orm import Session

from pengan.engine.message import saying

from ..problems import Problem, no_such_site
from .models import Grant, Person, TeamSite

Role = Literal["manager", "lead", "crew"]
Act = Literal["read", "note", "edit", "settle", "decide_held", "manage"]
ROLES: tuple[Role, ...] = get_args(Role)
ACTS: tuple[Act, ...] = get_args(Act)

_MAY: Mapping[Role, frozenset[Act]] = {
    "manager": frozenset(ACTS),
    "lead": frozenset({"read", "note", "edit", "settle"}),
    "crew": frozenset({"read", "note"}),
}

not_your_role = saying("people.not_your_role", "Your role at this site does not allow that.")


@dataclass(frozen=True, slots=True)
class Actor:
    """Whoever asks: a person of a team, through one of their devices (None: on the server's own command line)."""

    person: str
    device: str | None
    team: str
    language: str = "en"
    ip: str | None = None
    units: str = "metric"
    hour_cycle: str | None = None


def may(role: Role | None, act: Act) -> bool:
    """Whether a role allows an act."""
    return role is not None and act in _MAY[role]


def role_at(session: Session, person: str, site: str) -> Role | None:
    """The person's role at the site now; None where they have none, or were removed."""
    found = (
        select(Grant.role)
        .join(Person, (Person.team == Grant.team) & (Person.id == Grant.person))
        .join(TeamSite, (TeamSite.site == Grant.site) & (TeamSite.team == Grant.team))
        .where(Grant.site == site, Grant.person == person, Person.removed_at.is_(None))
    )
    return cast("Role | None", session.scalar(found))


def scope_at(session: Session, person: str, site: str) -> int:
    """How often the person's role at the site has changed; it rises with every change and never falls."""
    return session.scalar(select(Grant.scope).where(Grant.site == site, Grant.person == person)) or 0


def open_to_read(session: Session, site: str) -> bool:
    """Whether anybody may read the site without signing in."""
    return bool(session.scalar(select(TeamSite.open_to_read).where(TeamSite.site == site)))


def require(session: Session, actor: Actor | None, site: str, act: Act) -> Role | None:
    """The actor's role at the site, or a `Problem` where it does not allow the act.

    None is answered only for reading a site that is open to everybody. Whoever may not even read is told that there is
    no such site, as if there were none. Call it inside the operation's transaction.
    """
    role = None if actor is None else role_at(session, actor.person, site)
    if may(role, act):
        return role
    readable = role is not None or open_to_read(session, site)
    if readable and act == "read":
        return role
    raise Problem(403, not_your_role()) if readable else Problem(404, no_such_site(site_id=site))


def readable_sites(session: Session, actor: Actor | None) -> dict[str, Role | None]:
    """The sites the actor may read, with their role there; None where the site is open to everybody."""
    opened = session.scalars(select(TeamSite.site).where(TeamSite.open_to_read))
    found: dict[str, Role | None] = dict.fromkeys(opened)
    if actor is not None:
        found.update(roles_of(session, actor.person))
    return found


def roles_of(session: Session, person: str) -> dict[str, Role]:
    """The person's sites and roles."""
    held = (
        select(Grant.site, Grant.role)
        .join(Person, (Person.team == Grant.team) & (Person.id == Grant.person))
        .join(TeamSite, (TeamSite.site == Grant.site) & (TeamSite.team == Grant.team))
        .where(Grant.person == person, Grant.role.is_not(None), Person.removed_at.is_(None))
        .order_by(Grant.site)
    )
    return {site: cast(Role, role) for site, role in session.execute(held)}
