"""A server with people, over either kind of database: the demo site, and another team with a site of its own."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from typing import Any

import pytest
from sqlalchemy import delete

from pengan.web.app import create_app
from pengan.web.extensions import KEY
from pengan.web.people.models import Attempts, Device, Grant, Invitation, Person, TeamSite
from pengan.web.people.teams import adopt
from pengan.web.settings import DEMO, Settings
from pengan.web.sites.models import SiteCopy
from pengan.web.sites.operations import put_document
from ready_tables import emptied
from web.conftest import NOW
from web.people.crew import BESIDE, SITE, Server


@pytest.fixture(scope="module", params=["sqlite", "postgresql"])
def prepared(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """The demo site, and the site `beside`, which belongs to another team and is closed to strangers."""
    url = "" if request.param == "sqlite" else emptied(request.getfixturevalue("postgres_url"))
    folder = tmp_path_factory.mktemp("people")
    (folder / "index.html").write_text("<!doctype html><title>the page</title>", encoding="utf-8")
    made = Server(create_app(Settings(data=folder, database=url, first_document=DEMO, app=folder, now=NOW, effort=1)))
    other: dict[str, Any] = copy.deepcopy(json.loads(DEMO.read_text(encoding="utf-8")))
    next(record for record in other["records"] if record["table"] == "site").update(id=BESIDE, name="Beside")
    with made.shared.database.session() as session:
        put_document(session, other)
        with session.begin():
            adopt(session, BESIDE)
    yield made
    made.shared.database.engine.dispose()


@pytest.fixture
def server(prepared: Server) -> Iterator[Server]:
    """The server without anybody in it yet."""
    shared = prepared.shared
    yield prepared
    prepared.app.extensions[KEY] = shared
    with shared.database.session() as session, session.begin():
        for table in (Attempts, Invitation, Device, Grant, Person):
            session.execute(delete(table))
        for kept in (SiteCopy, TeamSite):
            session.execute(delete(kept).where(kept.site.not_in((SITE, BESIDE))))
