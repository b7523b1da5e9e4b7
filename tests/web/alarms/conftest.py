"""A site with a made-up field, its journal, and processes that watch it, over either kind of database."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest
from flask.testing import FlaskClient
from sqlalchemy import select

import builders as made
from pengan.engine.clock.instants import Instant
from pengan.engine.document.document import Document
from pengan.engine.document.read import read_document
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.sheet import NightSheet
from pengan.field.nature import Nature
from pengan.field.play import play
from pengan.field.troubles import Trouble
from pengan.web.alarms.models import Alarm
from pengan.web.alarms.watching import Looked, Told, Watcher, tell_nobody
from pengan.web.app import create_app
from pengan.web.journal.finding import happened
from pengan.web.journal.storing import store
from pengan.web.nights.operations import sheet_for
from pengan.web.settings import Settings
from web.people.crew import SITE, Server

NIGHT = datetime(2026, 7, 10, tzinfo=UTC).date()
QUIET = Nature(read_every_s=60, off_pct=0, noise_pct=1)
KINDS = ("sqlite", "postgresql")


def a_field(**limits: Any) -> dict[str, Any]:
    """A well with two mains; two stations one after the other in the north, one beside them in the south."""
    return made.a_document_data(
        site=made.a_site(SITE),
        supplies=[
            made.a_supply("well", water="well", limit_lpm=150),
            made.a_supply("north", fed_by="well", limit_lpm=80, **limits),
            made.a_supply("south", fed_by="well", limit_lpm=80),
        ],
        controllers=[made.a_controller("cab-n"), made.a_controller("cab-s")],
        stations=[
            made.a_station("n1", supply="north", controller="cab-n", flow_lpm=60),
            made.a_station("n2", supply="north", controller="cab-n", flow_lpm=50),
            made.a_station("s1", supply="south", controller="cab-s", flow_lpm=40),
        ],
        programs=[made.a_program("p1", start="22:00")],
        turns=[
            made.a_turn("p1", "n1", run_s=3600),
            made.a_turn("p1", "n2", run_s=3600),
            made.a_turn("p1", "s1", run_s=7200),
        ],
        windows=[made.a_window()],
    )


DOCUMENT: Document = read_document(a_field())
SHEET: NightSheet = plan_night(DOCUMENT, NIGHT, effort=1)


@dataclass
class Grounds:
    """The server, whoever watches it, and a clock of each kind. `entries` are those of the night as it is played."""

    server: Server
    real: float = 1_000_000.0
    now: int = SHEET.starts
    entries: list[Entry] = field(default_factory=list)
    told_to: int = SHEET.starts - 1

    def play(self, *troubles: Trouble, nature: Nature = QUIET) -> None:
        """What the field has to tell tonight."""
        self.entries = list(play(DOCUMENT, SHEET, 7, troubles, nature))

    def tell(self, entries: Iterable[Entry]) -> None:
        """Straight into the journal."""
        with self.server.shared.database.session() as session, session.begin():
            outcomes = store(session, SITE, list(entries), self.now)
        assert set(outcomes) <= {"taken", "known"}

    def tell_until(self, at: int, without: Sequence[Kind] = ()) -> None:
        """What the field tells until an instant, as it would."""
        self.now = at
        due = [one for one in self.entries if self.told_to < one.at <= at and one.kind not in without]
        self.told_to = at
        self.tell(due)

    def watcher(self, told: Told = tell_nobody) -> Watcher:
        """A process that watches."""
        return Watcher(uuid4().hex, told, lambda: self.real)

    def look(self, watcher: Watcher) -> list[Looked]:
        """Look as long as there is anything to look at now."""
        done: list[Looked] = []
        with self.server.shared.database.session() as session:
            for _turn in range(6):
                self.real += 2
                found = watcher.look_once(session, self.now)
                if found is None:
                    break
                done.append(found)
        assert [one.fault for one in done if one.fault] == []
        return done

    def go_on(self, watcher: Watcher, until: int, every_s: int = 60) -> None:
        """Let the night go by, with what the field tells, and look at it every minute."""
        while self.now < until:
            self.tell_until(min(self.now + every_s, until))
            self.real += every_s
            self.look(watcher)

    def alarms(self) -> list[Alarm]:
        """All there are, the first first."""
        with self.server.shared.database.session() as session, session.begin():
            return list(session.scalars(select(Alarm).order_by(Alarm.opened_at, Alarm.id)))

    def journal(self, *kinds: Kind) -> list[Entry]:
        """What the journal holds of these kinds."""
        with self.server.shared.database.session() as session, session.begin():
            return happened(session, SITE, 0, 1 << 40, kinds)


@pytest.fixture(params=KINDS)
def grounds(request: pytest.FixtureRequest, make_database: Callable[[str], str], tmp_path: Path) -> Iterator[Grounds]:
    """A server with the field's site and tonight's sheet, and an empty journal."""
    made_grounds = a_server(tmp_path, make_database(request.param))
    yield made_grounds
    made_grounds.server.shared.database.engine.dispose()


def a_server(folder: Path, url: str, data: dict[str, Any] | None = None) -> Grounds:
    """Its clock stands in the night."""
    first = folder / "first.json"
    first.write_text(json.dumps(data or a_field()), encoding="utf-8")
    (folder / "index.html").write_text("<!doctype html><title>the page</title>", encoding="utf-8")
    evening = datetime.fromtimestamp(SHEET.runs[0].start + 1800, UTC)
    settings = Settings(data=folder, database=url, first_document=first, app=folder, now=evening, effort=1)
    server = Server(create_app(settings))
    manager = server.person("manager")
    del manager
    with server.shared.database.session() as session:
        planned = sheet_for(session, _manager(server), SITE, NIGHT, Instant(SHEET.starts), 1)
    assert planned.night == NIGHT
    return Grounds(server)


def _manager(server: Server) -> Any:
    from pengan.web.people.models import Person
    from pengan.web.people.rights import Actor

    with server.shared.database.session() as session, session.begin():
        person = session.scalars(select(Person)).first()
        assert person is not None
        return Actor(person.id, None, person.team)


@pytest.fixture
def crew(grounds: Grounds) -> FlaskClient:
    """Somebody of the crew."""
    return grounds.server.person("crew", name="Ana")
