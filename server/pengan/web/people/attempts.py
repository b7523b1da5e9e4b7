"""How often somebody may try: counted in the database, so that every process of the server sees the same count.

An attempt is counted before it is looked at, in a transaction of its own: many at once gain nothing. Counts hold for a
stretch of a quarter of an hour. Devices that are in already are never asked, so nobody can lock a crew out of its work.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from ipaddress import IPv6Address, ip_address

from sqlalchemy import delete, update
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.message import saying

from ..own_secret import OwnSecret
from ..problems import Problem
from .models import Attempts

WINDOW_S = 15 * 60
PER_ADDRESS = 30
PER_SUBJECT = 10

too_often = saying("people.too_often", "Too many attempts. Try again in {wait_s}.")


@dataclass(frozen=True, slots=True)
class Counted:
    """What an attempt is counted by (as a keyed hash, so that the table names nobody), and how many are allowed."""

    subject: str
    limit: int


def by_address(secret: OwnSecret, kind: str, ip: str | None) -> Counted:
    """By where it comes from. Whoever has an IPv6 address has 2^64 of them: they count as one."""
    return Counted(secret.hashed(f"{kind} address", _network(ip)), PER_ADDRESS)


def by_subject(secret: OwnSecret, kind: str, text: str) -> Counted:
    """By what is tried: an account's name, a code."""
    return Counted(secret.hashed(kind, text), PER_SUBJECT)


def count_attempt(session: Session, counted: Sequence[Counted], now: Instant) -> None:
    """Count one attempt. Raises a 429 `Problem` that says how long to wait where there were too many."""
    window = now // WINDOW_S
    with session.begin():
        session.execute(delete(Attempts).where(Attempts.window < window))
        counts = [_count(session, item.subject, window) for item in sorted(counted, key=lambda item: item.subject)]
    limits = [item.limit for item in sorted(counted, key=lambda item: item.subject)]
    if any(count > limit for count, limit in zip(counts, limits, strict=True)):
        wait_s = (window + 1) * WINDOW_S - now
        raise Problem(429, too_often(wait_s=wait_s), retry_after_s=wait_s)


def give_back(session: Session, counted: Sequence[Counted], now: Instant) -> None:
    """An attempt that succeeded counts for nothing: a whole crew joins from one address in the morning."""
    subjects = [item.subject for item in counted]
    own = update(Attempts).where(Attempts.subject.in_(subjects), Attempts.window == now // WINDOW_S, Attempts.count > 0)
    with session.begin():
        session.execute(own.values(count=Attempts.count - 1))


def _count(session: Session, subject: str, window: int) -> int:
    insert = postgresql.insert if session.get_bind().dialect.name == "postgresql" else sqlite.insert
    counted = (
        insert(Attempts)
        .values(subject=subject, window=window, count=1)
        .on_conflict_do_update(index_elements=["subject", "window"], set_={"count": Attempts.count + 1})
        .returning(Attempts.count)
    )
    return session.execute(counted).scalar_one()


def _network(ip: str | None) -> str:
    try:
        address = ip_address(ip or "")
    except ValueError:
        return "unknown"
    if isinstance(address, IPv6Address) and address.ipv4_mapped is None:
        return str(int(address) >> 64)
    return str(address)
