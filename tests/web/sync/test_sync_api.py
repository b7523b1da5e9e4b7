"""Sync over HTTP: the protocol's header, limits, languages, and nudges."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any
from uuid import uuid4

import pytest
from flask import Flask
from flask.testing import FlaskClient

from pengan.web.extensions import KEY, Shared
from pengan.web.people.devices import enrol
from pengan.web.people.models import Grant, Person, TeamSite
from pengan.web.sync import nudges
from pengan.web.sync.nudges import Board, board, stream
from web.sync.crew import Row, edit, rename

SITE = "quinta-das-mares"


@pytest.fixture
def signed_in(app: Flask, client: FlaskClient) -> FlaskClient:
    """A client with the cookie of somebody who may edit the demo site."""
    shared: Shared = app.extensions[KEY]
    with shared.database.session() as session, session.begin():
        team = session.get_one(TeamSite, SITE).team
        person = Person(team=team, id="ana", name="Ana", language="en", units="metric", joined_at=0)
        session.add(person)
        session.flush()
        session.add(Grant(site=SITE, person="ana", team=team, role="lead", scope=1))
        token = enrol(session, person, "phone", shared.settings.now.timestamp().__int__())  # type: ignore[union-attr, arg-type]
    client.set_cookie("pengan", str(token))
    return client


def station(client: FlaskClient) -> str:
    records = client.get(f"/api/sites/{SITE}/document").json["records"]
    return str(next(record["id"] for record in records if record["table"] == "stations"))


def call(*edits: Row) -> Row:
    return {"sets": [{"id": str(uuid4()), "site": SITE, "edits": list(edits)}]}


def test_an_edit_goes_in_and_comes_out(signed_in: FlaskClient) -> None:
    id = station(signed_in)
    told = signed_in.post("/api/sync/push", json=call(rename(id, "Gate")))
    assert (told.status_code, told.headers["Pengan-Protocol"]) == (200, "1")
    assert told.json["answers"][0]["outcome"] == "taken"
    page = signed_in.post("/api/sync/pull", json={"site": SITE, "limit": 1000}).json
    names = {item["record"]["id"]: item["record"].get("name") for item in page["records"]}
    assert (names[id], page["fresh"], page["next"]) == ("Gate", True, None)
    assert page["sheets"]["sheets"] == [] or page["sheets"]["sheets"][0]["runs"]


def test_anybody_may_pull_a_site_that_is_open_to_read(client: FlaskClient) -> None:
    page = client.post("/api/sync/pull", json={"site": SITE}).json
    assert (page["role"], page["waiting"], page["fresh"]) == (None, [], True)


def test_without_signing_in_nothing_is_pushed(client: FlaskClient) -> None:
    told = client.post("/api/sync/push", json=call(rename("x", "Gate")))
    assert (told.status_code, told.headers["Pengan-Protocol"]) == (401, "1")


def test_why_an_edit_was_refused_is_told_in_the_readers_language(signed_in: FlaskClient) -> None:
    bad = call(edit("stations", station(signed_in), "flow_lpm", -5))
    told = signed_in.post("/api/sync/push?language=en-XA", json=bad).json["answers"][0]
    assert told["code"] == "fault.outside_lpm"
    assert told["detail"] == told["faults"][0]["detail"] != ""
    assert not told["detail"].isascii()


@pytest.mark.parametrize(
    ("body", "status"),
    [
        (b"", 400),
        (b"[]", 422),
        (b"{}", 422),
        (b'{"sets": 1}', 422),
        (b'{"sets": []}', 422),
        (b'{"sets": [{"id": "x", "site": "y", "edits": []}]}', 422),
        (b'{"sets": [{"id": "x", "site": "y", "edits": [{"id": "z"}]}]}', 422),
        (b'{"sets": [{"id": "' + b"x" * 65 + b'", "site": "y", "edits": [{}]}]}', 422),
        (b'{"sets": ' + b"[" * 5000 + b"]" * 5000 + b"}", 400),
        (b'{"sets": "\xff"}', 400),
        (b'{"sets": NaN}', 400),
        (b'{"sets": [], "more": 1}', 422),
        (b" " * 70_000, 413),
    ],
)
def test_what_is_no_push_is_a_problem(signed_in: FlaskClient, body: bytes, status: int) -> None:
    told = signed_in.post("/api/sync/push", data=body, content_type="application/json")
    assert (told.status_code, told.mimetype) == (status, "application/problem+json")
    assert told.json["code"]


def test_hello_says_when_the_app_is_too_old(client: FlaskClient) -> None:
    told = client.post("/api/sync/hello", json={"protocol": 0, "site": SITE}).json
    assert told["outcome"] == "update_needed"


def test_hello_says_who_is_signed_in_even_before_a_site_is_known(signed_in: FlaskClient) -> None:
    told = signed_in.post("/api/sync/hello", json={"protocol": 1}).json
    assert (told["outcome"], told["scope"], told["signed_in"]["person"]) == ("ok", None, "ana")
    assert [(item["site"], item["role"]) for item in told["signed_in"]["sites"]] == [(SITE, "lead")]
    other = signed_in.post("/api/sync/hello", json={"protocol": 1, "person": "ben"}).json
    assert (other["outcome"], other["signed_in"]["person"]) == ("signed_out", "ana")


def test_hello_tells_a_stranger_of_nobody(client: FlaskClient) -> None:
    told = client.post("/api/sync/hello", json={"protocol": 1, "site": SITE}).json
    assert (told["outcome"], told["signed_in"]) == ("signed_out", None)


@pytest.mark.parametrize(("person", "status"), [(None, 200), ("ana", 200), ("ben", 401)])
def test_a_copy_is_handed_only_to_whose_it_is(signed_in: FlaskClient, person: str | None, status: int) -> None:
    told = signed_in.post("/api/sync/pull", json={"site": SITE, "person": person})
    assert (told.status_code, told.headers["Pengan-Protocol"]) == (status, "1")


def test_a_copy_of_somebodys_is_not_handed_to_a_stranger(client: FlaskClient) -> None:
    assert client.post("/api/sync/pull", json={"site": SITE, "person": "ana"}).status_code == 401


def test_the_revision_rises_with_an_edit(signed_in: FlaskClient) -> None:
    before = signed_in.get(f"/api/sync/revision?site={SITE}").json["revision"]
    signed_in.post("/api/sync/push", json=call(rename(station(signed_in), "Gate")))
    assert signed_in.get(f"/api/sync/revision?site={SITE}").json["revision"] == before + 1
    assert signed_in.get("/api/sync/revision?site=nowhere").status_code == 404


def test_a_nudge_follows_an_edit(signed_in: FlaskClient, monkeypatch: pytest.MonkeyPatch) -> None:
    fresh = Board()  # on the process's own, other tests have put their revisions
    monkeypatch.setattr(nudges, "board", fresh)
    listening = signed_in.get(f"/api/sync/nudges?site={SITE}", buffered=False)
    assert listening.mimetype == "text/event-stream"
    heard: Iterator[bytes] = listening.iter_encoded()
    assert b'"revision":1' in next(heard)
    fresh.put(SITE, 2)
    name, id, data = next(heard).decode().strip().split("\n")
    assert (name, id) == ("event: nudge", "id: 2")
    assert json.loads(data.removeprefix("data: ")) == {"site": SITE, "revision": 2}
    listening.close()


def test_too_many_listeners_are_sent_to_ask_from_time_to_time(app: Flask, client: FlaskClient) -> None:
    shared: Shared = app.extensions[KEY]
    taken = 0
    while board.enter(shared.settings.nudges):
        taken += 1
    try:
        told = client.get(f"/api/sync/nudges?site={SITE}")
        assert (told.status_code, told.json["code"]) == (503, "sync.too_many_listeners")
    finally:
        for _ in range(taken):
            board.leave()


def test_a_listener_that_goes_gives_its_place_back(client: FlaskClient) -> None:
    before = board.listeners
    for _ in range(20):
        client.get(f"/api/sync/nudges?site={SITE}", buffered=False).close()
    assert board.listeners == before


def test_a_stream_ends_by_itself() -> None:
    moments: Any = iter(range(0, 10_000, 20))
    events = list(stream("x", lambda: 7, seconds=55, clock=lambda: float(next(moments))))
    assert events[0].startswith("retry:") and events[1:] and all(item.startswith(":") for item in events[1:])
