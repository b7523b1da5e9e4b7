"""Reporters: controllers, meters and gateways that tell a site's journal what happens.

Made by its managers with a token that is told once, listed, and ended. A reporter may tell its own site's journal what
it does and measures, and nothing else.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sqlalchemy import select, update
from sqlalchemy.orm import Session

from pengan.engine.clock.instants import Instant
from pengan.engine.message import saying

from ..database import reading
from ..people.models import TeamSite
from ..people.rights import Actor, require
from ..people.tokens import new_token, read_token
from ..problems import Problem
from .models import Reporter

MOST_REPORTERS = 200
_NOBODYS = "0" * 64
"""Compared with where there is no such reporter, so that the answer takes as long."""

no_such_reporter = saying("journal.no_such_reporter", "There is no such reporter.")
too_many_reporters = saying("journal.too_many_reporters", "A site has {most} reporters at most.")
not_a_reporter = saying("journal.not_a_reporter", "This needs the token of a reporter, as “Authorization: Bearer …”.")


@dataclass(frozen=True, slots=True)
class MadeReporter:
    """A new reporter. Its token is told this once."""

    id: str
    name: str
    token: str


@dataclass(frozen=True, slots=True)
class ReporterLine:
    """A reporter as the managers of its site see it."""

    id: str
    name: str
    made_at: int
    heard_at: int | None
    taken: int
    aside: int


@dataclass(frozen=True, slots=True)
class Reports:
    """The reporter that tells something."""

    team: str
    id: str
    site: str


def make_reporter(session: Session, actor: Actor, site: str, name: str, now: Instant) -> MadeReporter:
    """Let something report. Raises `Problem` unless the actor manages the site."""
    with session.begin():
        require(session, actor, site, "manage")
        if len(_open(session, site)) >= MOST_REPORTERS:
            raise Problem(409, too_many_reporters(most=MOST_REPORTERS))
        return add_reporter(session, actor.team, site, name, actor.person, now)


def add_reporter(session: Session, team: str, site: str, name: str, by: str, now: int) -> MadeReporter:
    """A new reporter, inside the caller's transaction."""
    token = new_token(team)
    session.add(
        Reporter(
            team=team, id=token.device, site=site, name=name, token_hash=token.hashed(), made_by=by, made_at=now,
            taken=0, aside=0,
        )
    )  # fmt: skip
    return MadeReporter(token.device, name, str(token))


def reporters_at(session: Session, actor: Actor, site: str) -> list[ReporterLine]:
    """The reporters that may report, the oldest first. Raises `Problem` unless the actor manages the site."""
    with reading(session):
        require(session, actor, site, "manage")
        return [
            ReporterLine(one.id, one.name, one.made_at, one.heard_at, one.taken, one.aside)
            for one in _open(session, site)
        ]


def end_reporter(session: Session, actor: Actor, site: str, reporter: str, now: Instant) -> None:
    """Let a reporter report no more; what it told stays. Raises `Problem`."""
    with session.begin():
        require(session, actor, site, "manage")
        found = session.get(Reporter, (actor.team, reporter))
        if found is None or found.site != site:
            raise Problem(404, no_such_reporter())
        if found.ended_at is None:
            found.ended_at, found.ended_by = now, actor.person


def reporter_of(session: Session, header: str) -> Reports:
    """The reporter behind an `Authorization` header. Raises a 401 `Problem` where there is none that may report."""
    kind, _space, given = header.partition(" ")
    found = None
    if kind.casefold() == "bearer":
        with reading(session):
            found = by_tokens(session, [given.strip()])[0]
    if found is None:
        raise Problem(401, not_a_reporter())
    return found


def by_tokens(session: Session, given: Iterable[str | None]) -> list[Reports | None]:
    """The reporters behind these tokens, None for each that opens nothing. Inside a transaction."""
    tokens = [read_token(text) if text else None for text in given]
    ids = sorted({token.device for token in tokens if token is not None})
    wanted = (
        select(Reporter)
        .join(TeamSite, (TeamSite.site == Reporter.site) & (TeamSite.team == Reporter.team))
        .where(Reporter.id.in_(ids), Reporter.ended_at.is_(None))
    )
    found = {one.id: one for one in session.scalars(wanted, execution_options={"populate_existing": True})}
    answers: list[Reports | None] = []
    for token in tokens:
        one = found.get(token.device) if token is not None else None
        right = token is not None and token.matches(one.token_hash if one else _NOBODYS)
        mine = one is not None and token is not None and right and token.team == one.team
        answers.append(Reports(one.team, one.id, one.site) if one is not None and mine else None)
    return answers


def sites_of_reporters(session: Session, ids: Iterable[str]) -> dict[str, str]:
    """The sites that reporters of these ids belong to, whether they show their token or not. Inside a transaction."""
    wanted = select(Reporter.id, Reporter.site).where(Reporter.id.in_(sorted(set(ids))))
    return {row.id: row.site for row in session.execute(wanted)}


def heard(session: Session, one: Reports, taken: int, aside: int, now: int) -> None:
    """Note that a reporter was heard, and what became of what it told. Belongs to the caller's transaction."""
    row = update(Reporter).where(Reporter.team == one.team, Reporter.id == one.id)
    more = row.values(heard_at=now, taken=Reporter.taken + taken, aside=Reporter.aside + aside)
    session.execute(more, execution_options={"synchronize_session": False})


def _open(session: Session, site: str) -> list[Reporter]:
    held = select(Reporter).where(Reporter.site == site, Reporter.ended_at.is_(None))
    return list(session.scalars(held.order_by(Reporter.made_at, Reporter.id)))
