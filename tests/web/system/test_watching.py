"""What machines ask that watch over the server, and what is noted of each request."""

from __future__ import annotations

import io
import json
import logging
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from prometheus_client.parser import text_string_to_metric_families
from sqlalchemy import text

from pengan.web.app import create_app
from pengan.web.extensions import KEY
from pengan.web.settings import Settings
from pengan.web.system.logs import JsonLines


def figures(client: FlaskClient, **words: Any) -> dict[tuple[str, tuple[tuple[str, str], ...]], float]:
    """Every sample, as Prometheus' own parser reads them."""
    answer = client.get("/metrics", **words)
    assert answer.status_code == 200
    families = text_string_to_metric_families(answer.get_data(as_text=True))
    return {
        (sample.name, tuple(sorted(sample.labels.items()))): sample.value
        for family in families
        for sample in family.samples
    }


def route(method: str, path: str, status: str) -> tuple[str, tuple[tuple[str, str], ...]]:
    return "pengan_requests_total", (("method", method), ("route", path), ("status", status))


def test_health_asks_nobody_and_readiness_the_database(app: Flask, client: FlaskClient) -> None:
    assert client.get("/health").json == {"status": "ok"}
    assert (client.get("/ready").status_code, client.get("/ready").json) == (200, {"status": "ready"})
    with app.extensions[KEY].database.engine.begin() as line:
        line.execute(text("UPDATE alembic_version SET version_num = '0001'"))
    assert client.get("/ready").status_code == 503
    with app.extensions[KEY].database.engine.begin() as line:
        line.execute(text("DROP TABLE alembic_version"))
    assert (client.get("/ready").status_code, client.get("/health").status_code) == (503, 200)


def test_requests_are_counted_by_route_and_never_by_address(client: FlaskClient) -> None:
    before = figures(client)
    client.get("/api/sites/quinta-das-mares/document")
    client.get("/api/sites/nowhere/document")
    client.get("/api/nothing-of-this-name")
    after = figures(client)
    pattern = "/api/sites/<site_id>/document"
    for status in ("200", "404"):
        key = route("GET", pattern, status)
        assert after[key] - before.get(key, 0) == 1
    assert not [key for key in after if "quinta" in str(key) or "nothing-of" in str(key)]
    assert after["pengan_request_seconds_count", (("route", pattern),)] >= 2


def test_the_queue_of_nights_ahead_is_among_the_figures(client: FlaskClient) -> None:
    found = figures(client)
    assert {name for name, _labels in found} >= {"pengan_sites_due", "pengan_sites_claimed", "pengan_sites_failing"}
    assert found["pengan_sites", ()] == 1


def test_figures_are_for_this_machine_alone(client: FlaskClient) -> None:
    elsewhere = {"environ_overrides": {"REMOTE_ADDR": "192.0.2.7"}}
    assert client.get("/metrics", **elsewhere).status_code == 404
    assert client.get("/metrics", headers={"X-Forwarded-For": "192.0.2.7"}).status_code == 404
    assert client.get("/metrics", headers={"Forwarded": "for=192.0.2.7"}).status_code == 404
    assert client.get("/metrics", environ_overrides={"REMOTE_ADDR": "::1"}).status_code == 200


def test_figures_are_for_whoever_has_the_key(settings: Settings) -> None:
    client = create_app(replace(settings, metrics_key="look")).test_client()
    assert client.get("/metrics").status_code == 404
    assert client.get("/metrics", headers={"Authorization": "Bearer loop"}).status_code == 404
    assert client.get("/metrics", headers={"Authorization": "Bearer look"}).status_code == 200


def test_a_request_keeps_the_name_it_came_with_or_gets_one(client: FlaskClient) -> None:
    assert client.get("/health", headers={"X-Request-Id": "abc-12345"}).headers["X-Request-Id"] == "abc-12345"
    for odd in ("short", "x" * 65, "has space 123", "new\u00edname-1"):
        given = client.get("/health", headers={"X-Request-Id": odd.encode("latin-1", "replace").decode("latin-1")})
        assert given.headers["X-Request-Id"] != odd
    names = {client.get("/health").headers["X-Request-Id"] for _time in range(3)}
    assert len(names) == 3


@pytest.fixture
def lines() -> Iterator[io.StringIO]:
    """What the server logs, at its most talkative."""
    written = io.StringIO()
    handler = logging.StreamHandler(written)
    handler.setFormatter(JsonLines())
    logger = logging.getLogger("pengan")
    before = logger.level
    logger.addHandler(handler)
    logger.setLevel(logging.DEBUG)
    yield written
    logger.removeHandler(handler)
    logger.setLevel(before)


def logged(lines: io.StringIO) -> list[dict[str, Any]]:
    return [json.loads(line) for line in lines.getvalue().splitlines()]


def test_a_request_is_one_line_of_json(client: FlaskClient, lines: io.StringIO) -> None:
    answer = client.get("/api/sites/quinta-das-mares/document?language=es")
    (line,) = logged(lines)
    assert line.pop("ms") >= 0
    assert line.pop("at").endswith("+00:00")
    assert line == {
        "level": "info",
        "from": "pengan.web.system.requests",
        "event": "request",
        "request": answer.headers["X-Request-Id"],
        "method": "GET",
        "route": "/api/sites/<site_id>/document",
        "status": 200,
    }


def test_no_line_says_who_somebody_is(app: Flask, client: FlaskClient, lines: io.StringIO) -> None:
    """Not the address they come from, their cookie, what they typed into an address, their browser, or what a fault
    quotes of it."""

    @app.get("/broken/<name>")
    def broken(name: str) -> str:
        raise ValueError(f"{name} of 192.0.2.99 has the password hush-hush")

    client.set_cookie("pengan", "team.device.secret-token")
    client.get("/broken/maria?mail=maria@example.org", environ_overrides={"REMOTE_ADDR": "192.0.2.99"})
    client.get("/maria-was-here", headers={"User-Agent": "maria-phone", "Referer": "https://maria.example"})
    client.post("/api/people/sign-in", json={"name": "maria", "password": "hush-hush"})
    written = lines.getvalue()
    assert '"fault": "ValueError"' in written and "test_watching.py" in written
    for secret in ("maria", "192.0.2.99", "hush", "secret-token", "example"):
        assert secret not in written


def test_what_other_libraries_fill_in_is_left_out() -> None:
    record = logging.makeLogRecord({"name": "sqlalchemy", "msg": "row %s", "args": ("maria",)})
    assert "maria" not in JsonLines().format(record)
