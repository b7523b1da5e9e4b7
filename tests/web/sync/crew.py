"""A site and its people, for tests of what comes in and what goes out."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any
from uuid import uuid4

from sqlalchemy import update

from builders import a_controller, a_document_data, a_program, a_site, a_station, a_supply, a_turn
from pengan.engine.clock.instants import Instant
from pengan.engine.document.tables import FORMAT
from pengan.web.database import Database
from pengan.web.people.models import Grant, Person, Team, TeamSite
from pengan.web.people.rights import Actor
from pengan.web.sites.operations import document_of, put_document
from pengan.web.sync import operations

SITE = "grounds"
START = 1_790_000_000
Row = dict[str, Any]


def grounds() -> Row:
    """Two programs over four stations on two supplies."""
    stations = [a_station(f"s{n}", supply="north" if n > 2 else "town", controller="c1") for n in (1, 2, 3, 4)]
    return a_document_data(
        site=a_site(SITE),
        supplies=[a_supply(), a_supply("north", fed_by="town", limit_lpm=400)],
        controllers=[a_controller()],
        stations=stations,
        programs=[a_program(), a_program("p2")],
        turns=[a_turn("p1", f"s{n}") for n in (1, 2, 3, 4)] + [a_turn("p2", "s1")],
    )


@dataclass
class World:
    """The server's database, with one site, and a clock that goes on by a second with each call."""

    database: Database
    now: int = START

    def tick(self) -> Instant:
        self.now += 1
        return Instant(self.now)

    def open(self, document: Row | None = None) -> None:
        """Load the site and give it to a team."""
        with self.database.session() as session:
            put_document(session, document or grounds(), now=self.tick())
            with session.begin():
                session.add(Team(id="team", name="Team"))
                session.flush()
                session.add(TeamSite(site=SITE, team="team"))

    def person(self, name: str, role: str | None = "lead") -> Phone:
        """Somebody with a role at the site, and their phone."""
        with self.database.session() as session, session.begin():
            row: Row = {"team": "team", "id": name.lower(), "name": name, "joined_at": START}
            session.add(Person(**row, language="en", units="metric"))
            session.flush()
            if role:
                session.add(Grant(site=SITE, person=row["id"], team="team", role=role, scope=1))
        return Phone(self, Actor(row["id"], f"{row['id']}-phone", "team"))

    def give(self, person: str, role: str | None) -> None:
        """Change a person's role."""
        with self.database.session() as session, session.begin():
            own = update(Grant).where(Grant.person == person)
            session.execute(own.values(role=role, scope=Grant.scope + 1))

    def value(self, table: str, id: str, name: str) -> Any:
        """What is in force."""
        with self.database.session() as session:
            return getattr(getattr(document_of(session, SITE).document, table)[id], name)

    def has(self, table: str, id: str) -> bool:
        with self.database.session() as session:
            return id in getattr(document_of(session, SITE).document, table)

    def revision(self) -> int:
        with self.database.session() as session:
            return document_of(session, SITE).revision


def edit(table: str, record: str, field: str | None, now: Any, seen: Any = 1, **more: Any) -> Row:
    """One edit of a field, unless another kind is given."""
    row = {"id": str(uuid4()), "kind": "set", "table": table, "record": record, "field": field, "seen": seen}
    return row | {"now": now, "format": FORMAT} | more


def rename(record: str, name: str, seen: Any = 1, **more: Any) -> Row:
    """A station gets another name."""
    return edit("stations", record, "name", name, seen, **more)


def remove(table: str, record: str, seen: Row | None = None, **more: Any) -> Row:
    return edit(table, record, None, None, seen, kind="remove", **more)


def add(record: Row, **more: Any) -> Row:
    return edit(record["table"], record["id"], None, record, None, kind="add", **more)


@dataclass
class Phone:
    """Somebody's phone: sends sets, pulls, and keeps what it pulled."""

    world: World
    actor: Actor
    scope: str | None = None
    cursor: int | None = None
    records: dict[tuple[str, str], Row] = field(default_factory=dict)
    versions: dict[tuple[str, str], dict[str, int]] = field(default_factory=dict)
    waiting: dict[str, Row] = field(default_factory=dict)
    fresh: int = 0

    def push(self, *sets: list[Row], site: str = SITE) -> list[Row]:
        """Send each list of edits as a set; the answers of all."""
        sent = [{"id": str(uuid4()), "site": site, "edits": edits} for edits in sets]
        return self.send({"sets": sent})

    def one(self, *edits: Row) -> Row:
        """Send one set; the answer to its first edit."""
        return self.push(list(edits))[0]

    def send(self, call: Row) -> list[Row]:
        with self.world.database.session() as session:
            told: list[Row] = operations.push(session, self.actor, call, self.world.tick())["answers"]  # type: ignore[assignment]
        return told

    def page(self, **asked: Any) -> Row:
        with self.world.database.session() as session:
            call = {"site": SITE, "cursor": self.cursor, "scope": self.scope, **asked}
            return operations.pull(session, self.actor, call)

    def pull(self, limit: int | None = None) -> list[Row]:
        """Turn all pages and keep what they bring; the pages."""
        pages, after = [], None
        while not pages or after is not None:
            pages.append(self.page(after=after, limit=limit))
            self.keep(pages[-1])
            after = pages[-1]["next"]
        self.cursor, self.scope = pages[-1]["cursor"], pages[-1]["scope"]
        return pages

    def keep(self, page: Row) -> None:
        if page["fresh"] and page["first"]:
            self.records.clear()
            self.versions.clear()
            self.waiting.clear()
            self.fresh += 1
        for item in page["records"]:
            key = (item["record"]["table"], item["record"]["id"])
            self.records[key], self.versions[key] = item["record"], item["versions"]
        for gone in page["removals"]:
            self.records.pop((gone["table"], gone["id"]), None)
            self.versions.pop((gone["table"], gone["id"]), None)
        for item in page["waiting"]:
            self.waiting[item["edit"]["id"]] = item

    def decide(self, edit_id: str, decision: str) -> list[Row]:
        with self.world.database.session() as session:
            told = operations.decide(session, self.actor, SITE, edit_id, decision, self.world.tick())
        return told["answers"]  # type: ignore[return-value]
