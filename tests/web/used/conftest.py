"""A server over either kind of database on which nights pass: planned, told of, over, and reckoned up."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import Any

import pytest
from flask.testing import FlaskClient
from sqlalchemy import delete, select

from builders import (
    a_controller,
    a_document_data,
    a_hydrozone,
    a_program,
    a_site,
    a_station,
    a_supply,
    a_turn,
    a_window,
)
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.plan.sheet import NightSheet
from pengan.web.ahead.operations import queue, work_once
from pengan.web.ahead.planning import Orders
from pengan.web.alarms.models import Alarm
from pengan.web.app import create_app
from pengan.web.journal.storing import store
from pengan.web.nights.models import StoredSheet
from pengan.web.nights.stored import sheet_in
from pengan.web.people.models import Attempts, Device, Grant, Invitation, Person
from pengan.web.settings import Settings
from pengan.web.sites.operations import document_of, put_document
from pengan.web.used.models import USED
from pengan.web.used.reckoning import reckon_due
from ready_tables import emptied
from web.journal.conftest import JOURNAL_TABLES
from web.need.conftest import at
from web.people.crew import SITE, Server

Row = dict[str, Any]
EVENING = datetime.fromisoformat("2026-07-10T20:00:00+01:00")
NIGHT = "2026-07-10"
DAY_S = 86_400
USED_PATH = f"/api/sites/{SITE}/used"


def a_park(*others: Row, **site: Any) -> Row:
    """A source with two mains; s1 and s2 on one, s3 on the other; a lawn, and a station of no hydrozone."""
    normals = [{"table": "normals", "id": f"n{month}", "month": month, "et_mm": 5} for month in range(1, 13)]
    stations = (
        ("s1", "north", 60, {"hydrozone": "lawn", "area_m2": 240}),
        ("s2", "north", 40, {}),
        ("s3", "south", 30, {}),
    )
    return a_document_data(
        site=a_site(SITE, zone="Europe/Lisbon", **site),
        supplies=[a_supply("town"), a_supply("north", fed_by="town"), a_supply("south", fed_by="town")],
        controllers=[a_controller("cab")],
        hydrozones=[a_hydrozone("lawn", name="Lawn")],
        stations=[
            a_station(id, supply=supply, controller="cab", flow_lpm=flow, **more) for id, supply, flow, more in stations
        ],
        programs=[a_program("p1")],
        turns=[a_turn("p1", id, run_s=1200) for id in ("s1", "s2", "s3")],
        windows=[a_window()],
        others=[*normals, *others],
    )


class Nights:
    """The server and its clock."""

    def __init__(self, server: Server) -> None:
        self.server, self.now = server, int(EVENING.timestamp())
        self.numbers = iter(range(1_000_000))

    def put(self, data: Row) -> None:
        with self.server.shared.database.session() as session:
            put_document(session, data)

    def plan(self) -> None:
        """All that is due now, as a job process would."""
        with self.server.shared.database.session() as session:
            found = document_of(session, SITE)
            with session.begin():
                queue(session, SITE, found.revision)
            while work_once(session, "one", self.now, Orders(effort=2)) is not None:
                pass

    def pass_days(self, days: int = 1) -> None:
        self.now += days * DAY_S
        at(self.server, datetime.fromtimestamp(self.now).astimezone().isoformat())

    def sheet(self, night: str = NIGHT) -> NightSheet:
        with self.server.shared.database.session() as session:
            stored = session.scalars(select(StoredSheet).where(StoredSheet.night == night)).all()[-1]
            return sheet_in(stored)

    def told(self, entries: Sequence[Entry]) -> None:
        with self.server.shared.database.session() as session, session.begin():
            assert set(store(session, SITE, entries, self.now)) <= {"taken", "known"}

    def entry(self, kind: Kind, at: int, **fields: Any) -> Entry:
        return Entry(f"entry-{next(self.numbers):08}", at, kind, "reporter:r1", **fields)

    def as_planned(self, night: str = NIGHT, but: Sequence[str] = ()) -> list[Entry]:
        """Every valve opened and closed to the second."""
        return [
            self.entry(kind, at, station=run.station)
            for run in self.sheet(night).runs
            if run.station not in but
            for kind, at in ((Kind.OPENED, run.start), (Kind.CLOSED, run.end))
        ]

    def reckon(self, real: int = 1) -> int:
        with self.server.shared.database.session() as session:
            return reckon_due(session, self.now, real)

    def used(self, client: FlaskClient, query: str = "") -> Row:
        answer = client.get(f"{USED_PATH}?{query}")
        assert answer.status_code == 200, answer.text
        found: Row = answer.json
        return found

    def rows(self) -> dict[str, list[tuple[Any, ...]]]:
        """Everything that is written down, for comparing."""
        with self.server.shared.database.session() as session:
            tables = [table.__table__ for table in USED[1:]]
            return {one.name: sorted(tuple(row) for row in session.execute(select(one))) for one in tables}


@pytest.fixture(scope="module", params=("sqlite", "postgresql"))
def prepared(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """The server, made once for the tests of a file."""
    url = "" if request.param == "sqlite" else emptied(request.getfixturevalue("postgres_url"))
    folder = tmp_path_factory.mktemp("used")
    first = folder / "first.json"
    first.write_text(json.dumps(a_park()), encoding="utf-8")
    (folder / "index.html").write_text("<!doctype html><title>the page</title>", encoding="utf-8")
    settings = Settings(data=folder, database=url, first_document=first, app=folder, now=EVENING, effort=2)
    made = Server(create_app(settings))
    yield made
    made.shared.database.engine.dispose()


@pytest.fixture
def nights(prepared: Server) -> Iterator[Nights]:
    """An evening in July; tonight and the nights ahead are planned, and nothing else is known."""
    made = Nights(prepared)
    at(prepared, EVENING.isoformat())
    made.plan()
    yield made
    with prepared.shared.database.session() as session:
        with session.begin():
            for table in (*USED, Alarm, *JOURNAL_TABLES, StoredSheet, *(Attempts, Invitation, Device, Grant, Person)):
                session.execute(delete(table))
        put_document(session, a_park())


@pytest.fixture
def manager(nights: Nights) -> FlaskClient:
    return nights.server.person("manager")
