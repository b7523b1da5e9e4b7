"""A server over either kind of database: a small park, and a site beside it that belongs to another team."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from datetime import datetime
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest
from flask.testing import FlaskClient
from sqlalchemy import delete, func, select
from werkzeug.test import TestResponse

from builders import a_controller, a_document_data, a_site, a_station, a_supply
from pengan.web.app import create_app
from pengan.web.journal.models import JournalAside, JournalEntry, JournalHead, Reporter
from pengan.web.people.models import Attempts, Device, Grant, Invitation, Person
from pengan.web.people.teams import adopt
from pengan.web.settings import Settings
from pengan.web.sites.operations import put_document
from ready_tables import emptied
from web.people.crew import BESIDE, SITE, Server

Row = dict[str, Any]
EVENING = datetime.fromisoformat("2026-07-10T22:00:00+01:00")
NOW = int(EVENING.timestamp())
JOURNAL, ENTRIES = f"/api/sites/{SITE}/journal", "/api/journal/entries"
JOURNAL_TABLES = (JournalEntry, JournalAside, JournalHead, Reporter)
KINDS = ("sqlite", "postgresql")


def a_park(site: str = SITE, stations: Sequence[str] = ("s0", "s1", "s2")) -> Row:
    """A source, a main, a cabinet and three stations."""
    return a_document_data(
        site=a_site(site, zone="Europe/Lisbon"),
        supplies=[a_supply("town", limit_lpm=120), a_supply("north", fed_by="town", limit_lpm=90)],
        controllers=[a_controller("cab")],
        stations=[a_station(name, supply="north", controller="cab") for name in stations],
    )


@pytest.fixture(scope="module", params=KINDS)
def prepared(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """The server, made once for the tests of a file."""
    url = "" if request.param == "sqlite" else emptied(request.getfixturevalue("postgres_url"))
    folder = tmp_path_factory.mktemp("journal")
    made = serve(folder, url)
    yield made
    made.shared.database.engine.dispose()


def serve(folder: Path, url: str) -> Server:
    """A server with the park, and the site beside it."""
    first = folder / "first.json"
    first.write_text(json.dumps(a_park()), encoding="utf-8")
    (folder / "index.html").write_text("<!doctype html><title>the page</title>", encoding="utf-8")
    settings = Settings(data=folder, database=url, first_document=first, app=folder, now=EVENING, effort=1)
    made = Server(create_app(settings))
    with made.shared.database.session() as session:
        put_document(session, a_park(BESIDE))
        with session.begin():
            adopt(session, BESIDE)
    return made


@pytest.fixture
def server(prepared: Server) -> Iterator[Server]:
    """The server with nobody in it yet, and an empty journal."""
    yield prepared
    with prepared.shared.database.session() as session:
        with session.begin():
            for table in (*JOURNAL_TABLES, Attempts, Invitation, Device, Grant, Person):
                session.execute(delete(table))
        put_document(session, a_park())


@pytest.fixture
def manager(server: Server) -> FlaskClient:
    return server.person("manager")


@pytest.fixture
def token(manager: FlaskClient) -> str:
    """A reporter's."""
    return made_reporter(manager)["token"]  # type: ignore[no-any-return]


def made_reporter(manager: FlaskClient, name: str = "Cabinet by the gate") -> Row:
    made = manager.post(f"/api/sites/{SITE}/reporters", json={"name": name})
    assert made.status_code == 201, made.text
    found: Row = made.json
    return found


def row(kind: str = "opened", at: int | str = NOW - 60, **fields: Any) -> Row:
    """An entry as it is told."""
    given: Row = {"id": str(uuid4()), "at": at, "kind": kind}
    own: dict[str, Row] = {
        "opened": {"station": "s1"}, "closed": {"station": "s1"}, "flow": {"supply": "north", "flow_lpm": 31.5},
        "count": {"supply": "town", "count_l": 4000}, "note": {"text": "Wet by the gate"},
        "alive": {"controller": "cab"},
        "finding": {"station": "s2", "finding": "head", "count": 2}, "shut": {"supply": "north"},
        "stopped": {"text": "Rain"}, "replaced": {"supply": "town", "count_l": 0},
        "alarm_seen": {"alarm": "alarm-0001"}, "alarm_opened": {"alarm": "alarm-0001", "text": "Too much"},
    }  # fmt: skip
    return given | own.get(kind, {}) | fields


def send(server: Server, token: str, *entries: object) -> TestResponse:
    """A reporter's entries."""
    return server.browser().post(ENTRIES, json={"entries": entries}, headers={"Authorization": f"Bearer {token}"})


def outcomes(answer: TestResponse) -> list[str]:
    """What became of each; of those aside, the first reason."""
    assert answer.status_code == 200, answer.text
    return [one["outcome"] if one["outcome"] != "aside" else one["faults"][0]["code"] for one in answer.json["answers"]]


def read(client: FlaskClient, query: str = "", site: str = SITE) -> Row:
    """A page of the journal."""
    answer = client.get(f"/api/sites/{site}/journal?{query}")
    assert answer.status_code == 200, answer.text
    found: Row = answer.json
    return found


def aside(client: FlaskClient) -> list[Row]:
    """What was kept aside, the newest first."""
    found: list[Row] = client.get(f"{JOURNAL}/aside").json["aside"]
    return found


def counted(server: Server) -> tuple[int, int]:
    """How many entries there are, and how many rows were kept aside."""
    with server.shared.database.session() as session:
        tables = (JournalEntry, JournalAside)
        entries, rows = (session.scalar(select(func.count()).select_from(table)) or 0 for table in tables)
    return entries, rows
