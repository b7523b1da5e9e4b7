"""Nights ahead over the API: who may read them, and that an edit pushed is an edit planned."""

from __future__ import annotations

from datetime import datetime
from typing import Any
from uuid import uuid4

from flask import Flask
from flask.testing import FlaskClient
from sqlalchemy import select

from pengan.web.ahead.models import PlanningJob
from pengan.web.ahead.operations import PLANNER, queue_outdated, work_once
from pengan.web.ahead.planning import Orders
from pengan.web.extensions import KEY
from pengan.web.people.models import TeamSite
from web.people.crew import SITE, Server

NOW = int(datetime.fromisoformat("2026-10-24T23:30:00+01:00").timestamp())
ADDRESS = f"/api/sites/{SITE}"


def plan(app: Flask) -> None:
    database = app.extensions[KEY].database
    with database.session() as session:
        queue_outdated(session, PLANNER)
    done: object = True
    while done:
        with database.session() as session:
            done = work_once(session, "test", NOW, Orders(effort=1))


def close(app: Flask) -> None:
    """The demo site is open to everybody; now it is not."""
    with app.extensions[KEY].database.session() as session, session.begin():
        session.get_one(TeamSite, SITE).open_to_read = False


def test_the_nights_ahead_are_read_with_their_cursor(app: Flask, client: FlaskClient) -> None:
    none = client.get(f"{ADDRESS}/nights").json
    assert (none["sheets"], none["clocks"]) == ([], [])
    plan(app)
    answer = client.get(f"{ADDRESS}/nights")
    assert [sheet["night"] for sheet in answer.json["sheets"]][:2] == ["2026-10-24", "2026-10-25"]
    assert (len(answer.json["sheets"]), answer.json["tonight"], answer.json["revision"]) == (14, "2026-10-24", 1)
    clocks = [client.get(f"{ADDRESS}/nights/{sheet['night']}/clock").json for sheet in answer.json["sheets"]]
    assert answer.json["clocks"] == clocks
    assert [(clock["starts"], clock["ends"]) for clock in clocks] == [
        (sheet["starts"], sheet["ends"]) for sheet in answer.json["sheets"]
    ]
    again = client.get(f"{ADDRESS}/nights", headers={"If-None-Match": answer.headers["ETag"]})
    assert (again.status_code, again.data) == (304, b"")


def test_a_pull_brings_the_nights_as_they_are_read_otherwise(app: Flask, client: FlaskClient) -> None:
    plan(app)
    pulled = client.post("/api/sync/pull", json={"site": SITE, "limit": 1000}).json["sheets"]
    assert pulled == client.get(f"{ADDRESS}/nights").json
    later = client.post("/api/sync/pull", json={"site": SITE, "sheets": pulled["next"], "limit": 1000}).json["sheets"]
    assert later["next"] == pulled["next"]


def test_tonight_is_the_sheet_that_was_worked_out_ahead(app: Flask, client: FlaskClient) -> None:
    plan(app)
    assert client.get(f"{ADDRESS}/nights/tonight").json == client.get(f"{ADDRESS}/nights").json["sheets"][0]


def test_notices_are_told_in_the_readers_language(app: Flask, client: FlaskClient) -> None:
    plan(app)
    (english,), (spanish,) = (client.get(f"{ADDRESS}/notices?language={tag}").json for tag in ("en", "es"))
    assert english["message"] == spanish["message"] and english["message"]["code"] == "ahead.clock_back"
    assert "clock goes back" in english["detail"] and english["detail"] != spanish["detail"]


def test_a_notices_times_are_on_the_sites_wall(app: Flask, client: FlaskClient) -> None:
    plan(app)
    manager = Server(app).person("manager")
    records = client.get(f"{ADDRESS}/document").json["records"]
    site = next(record for record in records if record["table"] == "site")
    edit: dict[str, Any] = {
        "id": str(uuid4()), "kind": "set", "table": "site", "record": site["id"], "field": "seasonal_pct",
        "seen": 1, "was": site.get("seasonal_pct", 100), "now": 200, "format": 1,
    }  # fmt: skip
    pushed = manager.post("/api/sync/push", json={"sets": [{"id": str(uuid4()), "site": SITE, "edits": [edit]}]})
    assert pushed.json["answers"][0]["outcome"] == "taken", pushed.json
    with app.extensions[KEY].database.session() as session, session.begin():
        job = session.scalars(select(PlanningJob)).one()
        assert (job.due, job.wanted, job.planned) == (0, 2, 1)
    plan(app)
    details = [notice["detail"] for notice in client.get(f"{ADDRESS}/notices").json]
    assert len(details) > 1 and not [detail for detail in details if "UTC" in detail]
    own = [notice["message"]["code"] for notice in manager.get(f"{ADDRESS}/notices").json]
    assert own == ["ahead.clock_back"]


def test_a_stranger_is_told_of_no_such_site(app: Flask, client: FlaskClient) -> None:
    plan(app)
    close(app)
    for path in ("nights", "notices"):
        answer = client.get(f"{ADDRESS}/{path}")
        assert (answer.status_code, answer.json["code"]) == (404, "web.no_such_site")
    crew = Server(app).person("crew")
    assert crew.get(f"{ADDRESS}/nights").status_code == crew.get(f"{ADDRESS}/notices").status_code == 200
