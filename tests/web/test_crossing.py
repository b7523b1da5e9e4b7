"""Requests made by another site's page are turned away; our own page's and a phone's are not."""

from __future__ import annotations

import pytest
from flask import Flask
from flask.testing import FlaskClient

from pengan.web.app import create_app
from pengan.web.settings import Settings

BODY = {"name": "x", "password": "y", "device_name": "z"}
TURNED_AWAY = [
    {"Origin": "https://elsewhere.example"},
    {"Origin": "null"},
    {"Origin": "http://localhost.elsewhere.example"},
    {"Origin": "http://localhost:8000"},
    {"Sec-Fetch-Site": "cross-site"},
    {"Sec-Fetch-Site": "same-site"},
    {"Sec-Fetch-Site": "same-origin", "Origin": "https://elsewhere.example"},
    {"Sec-Fetch-Site": "cross-site", "Origin": "http://localhost"},
]
LET_THROUGH = [{}, {"Origin": "http://localhost"}, {"Sec-Fetch-Site": "same-origin", "Origin": "http://localhost"}]


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> Flask:
    """One server for all of these: none of them leaves anything behind."""
    return create_app(Settings(data=tmp_path_factory.mktemp("data"), effort=1))


@pytest.mark.parametrize("headers", TURNED_AWAY, ids=str)
def test_another_sites_request_is_turned_away_before_any_route(client: FlaskClient, headers: dict[str, str]) -> None:
    answer = client.post("/api/session", json=BODY, headers=headers)
    assert (answer.status_code, answer.json["code"]) == (403, "web.from_elsewhere")


@pytest.mark.parametrize("headers", LET_THROUGH, ids=str)
def test_our_own_pages_request_is_let_through(client: FlaskClient, headers: dict[str, str]) -> None:
    assert client.post("/api/session", json=BODY, headers=headers).json["code"] == "people.not_signed_in"


def test_every_route_that_changes_something_is_fenced(app: Flask, client: FlaskClient) -> None:
    tried = 0
    for rule in app.url_map.iter_rules():
        for method in (rule.methods or set()) - {"GET", "HEAD", "OPTIONS"}:
            path = rule.rule.replace("<", "").replace(">", "")
            answer = client.open(path, method=method, json={}, headers={"Sec-Fetch-Site": "cross-site"})
            assert (answer.status_code, answer.json["code"]) == (403, "web.from_elsewhere"), rule
            tried += 1
    assert tried > 15


def test_no_route_that_reads_changes_anything_by_its_method(app: Flask) -> None:
    """GET does only what reading does: writing routes have methods of their own, which the fence above covers."""
    writing = {"undo", "join", "role", "password", "profile", "code", "waiting"}
    for rule in app.url_map.iter_rules():
        parts = rule.rule.split("/")
        if parts[-1] == "push" or writing & set(parts):
            assert "GET" not in (rule.methods or set()), rule


def test_no_other_site_is_told_it_may_read(client: FlaskClient) -> None:
    answer = client.get("/api/sites", headers={"Origin": "https://elsewhere.example"})
    assert not [name for name, _ in answer.headers if name.lower().startswith("access-control-")]
    preflight = client.options(
        "/api/session", headers={"Origin": "https://elsewhere.example", "Access-Control-Request-Method": "POST"}
    )
    assert not [name for name, _ in preflight.headers if name.lower().startswith("access-control-")]
