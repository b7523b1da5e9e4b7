"""A person as they see themself: name, language, units, clock, week and digits of their own, their sites and roles."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from sqlalchemy.orm import Session

from pengan.engine.document.fault import Fault
from pengan.engine.message import Message
from pengan.words import WordsFault, languages
from pengan.words.choosing import read_hours, read_units, units_of

from ..database import reading
from ..field_faults import not_one_of
from ..problems import Problem, fields_wrong
from .models import Person
from .rights import Actor, Role, roles_of, scope_at


@dataclass(frozen=True, slots=True)
class Profile:
    """How somebody is called and spoken to. `units` are as in `metric,flow=lps`, `hour_cycle` is 12, 24 or None.

    `first_day` begins their week, `mon` … `sun`; `digits` is a numbering system of CLDR. None: as the page has it.
    """

    name: str
    language: str
    units: str
    hour_cycle: str | None
    first_day: str | None = None
    digits: str | None = None


@dataclass(frozen=True, slots=True)
class SiteRole:
    """A site of somebody's. `scope` counts how often the role changed."""

    site: str
    role: Role
    scope: int


@dataclass(frozen=True, slots=True)
class Signed:
    """Who is signed in, on which device, and where they work."""

    person: str
    device: str | None
    team: str
    profile: Profile
    sign_in_name: str | None
    sites: tuple[SiteRole, ...]


def sound_profile(
    name: str,
    language: str,
    units: str | None,
    hour_cycle: str | None,
    first_day: str | None = None,
    digits: str | None = None,
) -> Profile:
    """A profile out of what was sent. Raises a `Problem` that names every field at fault."""
    faults: list[Fault] = []
    tag = languages.match(language)
    if tag is None:
        choices = ", ".join(sorted(languages.shipped()))
        faults.append(Fault(None, None, "language", not_one_of(choices=choices)))
    faults.extend(_fault("units", lambda: read_units(units or "metric")))
    faults.extend(_fault("hour_cycle", lambda: read_hours(hour_cycle)))
    if faults or tag is None:
        raise Problem(422, fields_wrong(), faults)
    return Profile(name, tag, units or units_of(tag), hour_cycle, first_day, digits)


def _fault(field: str, read: Callable[[], object]) -> list[Fault]:
    try:
        read()
    except WordsFault as found:
        said: Message = found.message
        return [Fault(None, None, field, said)]
    return []


def signed(session: Session, actor: Actor) -> Signed:
    """Who the actor is."""
    with reading(session):
        person = session.get_one(Person, (actor.team, actor.person))
        held = roles_of(session, actor.person)
        sites = tuple(SiteRole(site, role, scope_at(session, actor.person, site)) for site, role in held.items())
        return Signed(person.id, actor.device, person.team, _profile(person), person.sign_in_name, sites)


def change_profile(session: Session, actor: Actor, profile: Profile) -> None:
    """Write down how the actor is called and wants to be spoken to."""
    with session.begin():
        person = session.get_one(Person, (actor.team, actor.person))
        person.name, person.language = profile.name, profile.language
        person.units, person.hour_cycle = profile.units, profile.hour_cycle
        person.first_day, person.digits = profile.first_day, profile.digits


def profile_of(session: Session, actor: Actor) -> Profile:
    """The actor's profile as it stands."""
    with reading(session):
        return _profile(session.get_one(Person, (actor.team, actor.person)))


def _profile(person: Person) -> Profile:
    spoken = (person.language, person.units, person.hour_cycle, person.first_day, person.digits)
    return Profile(person.name, *spoken)
