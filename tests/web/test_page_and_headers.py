"""The page's files, the headers on every answer, health and clock."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient

from pengan.web.app import create_app
from pengan.web.settings import Settings


@pytest.mark.parametrize("path", ["/", "/tonight", "/any/deep/address"])
def test_every_address_outside_the_api_is_the_page(client: FlaskClient, path: str) -> None:
    answer = client.get(path)
    assert answer.text == "<!doctype html><title>the page</title>"
    assert answer.headers["Cache-Control"] == "no-cache"


def test_files_named_by_their_content_may_be_kept(client: FlaskClient) -> None:
    answer = client.get("/assets/start-1234.js")
    assert answer.text == "start()"
    assert "immutable" in answer.headers["Cache-Control"]


def test_the_worker_is_asked_for_anew_each_time_and_gives_way_to_the_off_switch(settings: Settings) -> None:
    for name in ("service-worker", "service-worker-off"):
        (settings.app / f"{name}.js").write_text(f"// {name}", encoding="utf-8")
    for switch, name in ((1, "service-worker"), (0, "service-worker-off")):
        answer = create_app(replace(settings, offline_app=switch)).test_client().get("/service-worker.js")
        assert (answer.text, answer.headers["Cache-Control"]) == (f"// {name}", "no-cache")
        assert answer.mimetype in ("text/javascript", "application/javascript")


def test_a_missing_script_is_not_answered_with_the_page(client: FlaskClient) -> None:
    assert client.get("/assets/gone-9999.js").status_code == 404


@pytest.mark.parametrize("path", ["/../settings.py", "/%2e%2e/secret", "/assets/../../secret"])
def test_no_file_outside_the_page_is_handed_out(client: FlaskClient, settings: Settings, path: str) -> None:
    (settings.app.parent / "secret").write_text("secret", encoding="utf-8")
    assert "secret" not in client.get(path).text


def test_a_page_that_was_not_built_says_how(settings: Settings, tmp_path: Path) -> None:
    answer = create_app(replace(settings, app=tmp_path / "none")).test_client().get("/")
    assert (answer.status_code, answer.json["code"]) == (503, "web.page_not_built")


@pytest.mark.parametrize("path", ["/", "/api/sites", "/api/nothing", "/assets/start-1234.js"])
def test_every_answer_carries_the_policy(client: FlaskClient, path: str) -> None:
    headers = client.get(path).headers
    policy = dict(part.split(" ", 1) for part in headers["Content-Security-Policy"].split("; "))
    assert (policy["default-src"], policy["style-src"]) == ("'none'", "'self'")
    assert (policy["object-src"], policy["base-uri"], policy["frame-ancestors"]) == ("'none'",) * 3
    assert policy["script-src"] == "'self' 'wasm-unsafe-eval'"
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "no-referrer"
    assert headers["Permissions-Policy"] == "camera=(self), geolocation=(self), microphone=()"


def test_answers_of_the_api_are_kept_by_nobody_else(client: FlaskClient) -> None:
    """Those with an ETag may be kept by the browser that asked, which asks again each time; the others by nobody."""
    for path in ("/api/session", "/api/sites", "/api/nothing"):
        kept = client.get(path).cache_control
        assert kept.no_store and not kept.public
    document = client.get("/api/sites/quinta-das-mares/document")
    assert document.cache_control.private and document.cache_control.no_cache
    assert {"Cookie", "Accept-Language"} <= set(document.vary)


def test_tracing_is_not_answered(client: FlaskClient) -> None:
    for path in ("/", "/api/sites"):
        answer = client.open(path, method="TRACE", headers={"Cookie": "pengan=secret"})
        assert answer.status_code == 405 and "secret" not in answer.text


def test_health_asks_the_database(app: Flask, client: FlaskClient, monkeypatch: pytest.MonkeyPatch) -> None:
    assert client.get("/api/health").json == {"status": "ok"}

    def broken(_session: object) -> None:
        raise ConnectionError

    monkeypatch.setattr("pengan.web.system.routes.answers", broken)
    answer = client.get("/api/health")
    assert (answer.status_code, answer.json["code"]) == (500, "web.server_failed")


def test_the_clock_stands_where_the_settings_put_it(client: FlaskClient) -> None:
    assert client.get("/api/clock").json == {"now": 1792881000, "stands": True}


def test_without_a_setting_the_clock_goes(settings: Settings) -> None:
    assert create_app(replace(settings, now=None)).test_client().get("/api/clock").json["stands"] is False
