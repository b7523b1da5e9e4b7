"""Passwords of managers: set, changed, and signed in with. Argon2id with the library's own settings (RFC 9106).

An unknown name takes as long as a wrong password and is told the same. Length counts, not kinds of signs; what is
easily guessed, a common password or one's own name among it, is not taken (NIST SP 800-63B, memorized secrets).
"""

from __future__ import annotations

import unicodedata
from functools import cache

from argon2 import PasswordHasher
from argon2.exceptions import VerificationError
from sqlalchemy import select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.document.fault import Fault
from pengan.engine.message import saying

from ..database import reading
from ..field_faults import too_long
from ..own_secret import OwnSecret
from ..problems import Problem, fields_wrong
from .attempts import by_address, by_subject, count_attempt, give_back
from .devices import end_all, end_replaced, enrol
from .models import Person
from .rights import Actor, not_your_role, roles_of
from .tokens import Token

LEAST, MOST = 10, 200
LONGEST_NAME = 80
"""Folding can make a name longer than it was typed."""
LEAST_SCORE = 3
"""Of zxcvbn's 0 to 4: more than 10^8 guesses, "safely unguessable" where each guess is slow."""
LOOKED_AT = 72
"""zxcvbn's time grows fast with the length; what is this long is judged by its beginning."""

_hasher = PasswordHasher()

not_signed_in = saying("people.not_signed_in", "Name and password do not belong together.")
password_too_short = saying("people.password_too_short", "A password has at least {least} signs.")
password_too_easy = saying(
    "people.password_too_easy", "This password is easily guessed. Longer is better: a few words."
)
name_taken = saying("people.name_taken", "This name cannot be had. Choose another.")


def sign_in(
    session: Session,
    secret: OwnSecret,
    before: Actor | None,
    name: str,
    password: str,
    device: str,
    now: Instant,
    ip: str | None,
) -> Token:
    """Let a new device in by name and password, in the place of whoever was signed in there `before`.

    Raises `Problem`, the same whatever does not fit.
    """
    counted = (by_address(secret, "sign in", ip), by_subject(secret, "sign in name", folded(name)))
    count_attempt(session, counted, now)
    with reading(session):
        person = session.scalar(select(Person).where(Person.sign_in_name == folded(name), Person.removed_at.is_(None)))
    kept = person.password_hash if person else None
    fits = matches(kept or _nobodys(), password)
    if person is None or kept is None or not fits:
        raise Problem(403, not_signed_in())
    with session.begin():
        if _hasher.check_needs_rehash(kept):
            person.password_hash = _hasher.hash(plain(password))
        end_replaced(session, before, now)
        token = enrol(session, person, device, now)
    give_back(session, counted, now)
    return token


def set_password(
    session: Session, secret: OwnSecret, actor: Actor, name: str, password: str, present: str | None, now: Instant
) -> None:
    """Give the actor a name and password to sign in with, or other ones; their other devices are ended.

    Only who manages a site has one. Whoever has one must know it to change it. Raises `Problem`.
    """
    _check(name, password)
    with reading(session):
        kept = session.get_one(Person, (actor.team, actor.person)).password_hash
        if "manager" not in roles_of(session, actor.person).values():
            raise Problem(403, not_your_role())
    if kept is not None:
        counted = by_subject(secret, "present password", actor.person)
        count_attempt(session, (counted,), now)
        if not matches(kept, present or ""):
            raise Problem(403, not_signed_in())
        give_back(session, (counted,), now)
    _write(session, actor, folded(name), _hasher.hash(plain(password)), now)


def _write(session: Session, actor: Actor, name: str, password_hash: str, now: Instant) -> None:
    try:
        with session.begin():
            person = session.get_one(Person, (actor.team, actor.person))
            person.sign_in_name, person.password_hash = name, password_hash
            end_all(session, actor, actor.person, now, but=actor.device)
    except IntegrityError:
        raise Problem(409, name_taken()) from None


def _check(name: str, password: str) -> None:
    if len(folded(name)) > LONGEST_NAME:
        raise Problem(422, fields_wrong(), [Fault(None, None, "name", too_long(most=LONGEST_NAME))])
    if len(plain(password)) < LEAST:
        raise Problem(422, fields_wrong(), [Fault(None, None, "password", password_too_short(least=LEAST))])
    if easily_guessed(password, name):
        raise Problem(422, fields_wrong(), [Fault(None, None, "password", password_too_easy())])


def easily_guessed(password: str, name: str) -> bool:
    """Whether the password is common, the name, or made of such things."""
    from zxcvbn import zxcvbn

    rest = folded(password)
    for known in (folded(name), "pengan"):
        rest = rest.replace(known, "") if known else rest
    found = zxcvbn(plain(password)[:LOOKED_AT], max_length=LOOKED_AT)
    return len(rest) < LEAST // 2 or int(found["score"]) < LEAST_SCORE


def matches(kept: str, password: str) -> bool:
    """Whether the password is the one kept; slow on purpose."""
    try:
        return _hasher.verify(kept, plain(password))
    except VerificationError:
        return False


def plain(password: str) -> str:
    """The same password from every keyboard: composed, whatever way its accents were typed (NIST SP 800-63B)."""
    return unicodedata.normalize("NFKC", password)


def folded(name: str) -> str:
    """A name as it is compared: case and spaces around do not matter."""
    return unicodedata.normalize("NFKC", name).strip().casefold()


@cache
def _nobodys() -> str:
    return _hasher.hash("nobody has this password")
