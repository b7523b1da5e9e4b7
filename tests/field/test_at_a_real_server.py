"""A made-up night told to the real server over HTTP, and read back from its journal."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from threading import Thread

import pytest
from click.testing import CliRunner
from flask.testing import FlaskClient
from werkzeug.serving import make_server

import builders as made
from field.grounds import NIGHT
from pengan.cli import main
from pengan.engine.document.read import read_document
from pengan.engine.plan.night import plan_night
from pengan.web.app import create_app
from pengan.web.settings import Settings
from web.journal.brokers import Bridge, Mosquitto
from web.people.crew import SITE, Server

DATA = made.a_document_data(
    site=made.a_site(SITE),
    supplies=[made.a_supply("well", limit_lpm=100), made.a_supply("north", fed_by="well")],
    controllers=[made.a_controller("cab")],
    stations=[made.a_station("s1", supply="north", controller="cab", flow_lpm=60)],
    programs=[made.a_program("p1", start="22:00")],
    turns=[made.a_turn("p1", "s1", run_s=3600)],
)
SHEET = plan_night(read_document(DATA), NIGHT, effort=1)


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    """Its clock stands at the end of the night."""
    first = tmp_path / "first.json"
    first.write_text(json.dumps(DATA), encoding="utf-8")
    (tmp_path / "index.html").write_text("<!doctype html><title>the page</title>", encoding="utf-8")
    now = datetime.fromtimestamp(SHEET.ends, UTC)
    started = Server(create_app(Settings(data=tmp_path, first_document=first, app=tmp_path, now=now, effort=1)))
    yield started
    started.shared.database.engine.dispose()


@pytest.fixture
def manager(server: Server) -> FlaskClient:
    return server.person("manager")


@pytest.fixture
def address(server: Server) -> Iterator[str]:
    """Where the server answers on the line."""
    served = make_server("127.0.0.1", 0, server.app, threaded=True)
    thread = Thread(target=served.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{served.server_port}"
    served.shutdown()
    thread.join()


@pytest.fixture
def broker(server: Server, tmp_path: Path) -> Iterator[str]:
    """A broker, and the server's process that listens to it."""
    mosquitto = Mosquitto(tmp_path)
    settings = server.shared.settings
    assert settings.now is not None
    heard = {
        "PENGAN_DATA": str(settings.data),
        "PENGAN_DATABASE": "",
        "PENGAN_MQTT": mosquitto.url,
        "PENGAN_NOW": settings.now.isoformat(),
        "PENGAN_LOG": "info",
    }
    bridge = Bridge(heard, tmp_path / "bridge.log")
    mosquitto.start()
    bridge.start()
    bridge.wait_until_it_listens()
    yield mosquitto.url
    bridge.kill()
    mosquitto.kill()


@pytest.mark.parametrize("line", ["address", "broker"])
def test_the_journal_holds_the_night_once_however_often_it_is_played(
    line: str, manager: FlaskClient, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    """Over HTTP, and over MQTT with a real broker and the bridge."""
    token = tmp_path / "token"
    token.write_text(manager.post(f"/api/sites/{SITE}/reporters", json={"name": "Field"}).json["token"], "utf-8")
    words = ["field", str(tmp_path / "first.json"), "--date", NIGHT.isoformat(), "--at-once", "--every", "5 min",
             "--trouble", "power cab from=22:20 for=10 min", "--to", request.getfixturevalue(line),
             "--token-file", str(token)]  # fmt: skip
    environ = {"PENGAN_LANGUAGE": "en-GB"}
    first = CliRunner().invoke(main, words, env=environ, catch_exceptions=False)
    again = CliRunner().invoke(main, words, env=environ, catch_exceptions=False)
    told = first.stderr.split(" ")[0]
    assert first.stderr == f"{told} entries told.\n"
    assert again.stderr == f"{told} entries told.\n{told} of them were known already.\n"
    opened = manager.get(f"/api/sites/{SITE}/journal?kind=opened&kind=power_lost&order=oldest").json["entries"]
    (run,) = SHEET.runs
    assert [(entry["kind"], entry["at"]) for entry in opened] == [
        ("opened", run.start),
        ("power_lost", run.start + 1200),
        ("opened", run.start + 1800),
    ]
    assert manager.get(f"/api/sites/{SITE}/journal/aside").json["aside"] == []
