"""One real server over one database, and fresh sites, people and phones in it for each history."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import count
from pathlib import Path
from typing import Any

from flask import Flask
from sqlalchemy import event, update

from pengan.engine.clock.instants import Instant
from pengan.web.app import create_app
from pengan.web.extensions import KEY, Shared
from pengan.web.people.devices import enrol
from pengan.web.people.models import Grant, Person, Team, TeamSite
from pengan.web.settings import Settings
from pengan.web.sites.operations import put_document
from sync.grounds import a_small_site

PEOPLE = {"ana": "manager", "ben": "lead", "cai": "lead", "dora": "crew"}
"""Who works at each site, and their roles at the start."""
NOW = Instant(1_790_000_000)
_numbers = count(1)


@dataclass(frozen=True)
class Member:
    """One person of a site's team, with the token of their device."""

    person: str
    token: str


@dataclass(frozen=True)
class Grounds:
    """A site of one history, and who works there."""

    site: str
    team: str
    members: Mapping[str, Member]


def a_quick_server(url: str, folder: Path) -> Flask:
    """A server that does not wait for the disk: for what is not about power cuts (those have tests of their own)."""
    app = a_server(url, folder)
    engine = shared_of(app).database.engine
    engine.dispose()
    words = "PRAGMA synchronous = OFF" if engine.dialect.name == "sqlite" else "SET synchronous_commit TO off"

    def hurry(connection: Any, _record: object) -> None:
        cursor = connection.cursor()
        cursor.execute(words)
        connection.commit()
        cursor.close()

    event.listen(engine, "connect", hurry)
    return app


def a_server(url: str, folder: Path, **given: Any) -> Flask:
    """The server over that database, without a demo site."""
    nothing = folder / "no-document.json"
    return create_app(replace(Settings(database=url, data=folder, first_document=nothing, effort=1), **given))


def shared_of(app: Flask) -> Shared:
    """What the app shares among its requests."""
    found: Shared = app.extensions[KEY]
    return found


def new_grounds(app: Flask, document: Mapping[str, Any] | None = None) -> Grounds:
    """A fresh team with a fresh site. With a document: that one, under a fresh id."""
    name = f"site{next(_numbers)}"
    if document is None:
        data = a_small_site(name)
    else:
        records = [row | {"id": name} if row["table"] == "site" else row for row in document["records"]]
        data = {**document, "records": records}
    with shared_of(app).database.session() as session:
        put_document(session, data)
        with session.begin():
            team = f"team-{name}"
            session.add(Team(id=team, name=team))
            session.flush()
            session.add(TeamSite(site=name, team=team))
            members = {short: _member(session, team, name, short, role) for short, role in PEOPLE.items()}
    return Grounds(name, team, members)


def _member(session: Any, team: str, site: str, short: str, role: str) -> Member:
    person = Person(team=team, id=f"{short}-{site}", name=short.title(), language="en", units="metric", joined_at=NOW)
    session.add(person)
    session.flush()
    session.add(Grant(site=site, person=person.id, team=team, role=role, scope=1))
    token = enrol(session, person, f"{short}'s phone", NOW)
    session.flush()
    return Member(person.id, str(token))


def set_role(app: Flask, grounds: Grounds, short: str, role: str | None) -> None:
    """Give a person another role, or none. Their scope rises, as with every change of a grant."""
    with shared_of(app).database.session() as session, session.begin():
        own = update(Grant).where(Grant.site == grounds.site, Grant.person == grounds.members[short].person)
        session.execute(own.values(role=role, scope=Grant.scope + 1))
