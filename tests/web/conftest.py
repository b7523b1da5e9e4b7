"""A server over the demo site, at an instant in the night in which Lisbon's clock goes back."""

from __future__ import annotations

import json
import shutil
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from pengan.web.app import create_app
from pengan.web.extensions import KEY, Shared
from pengan.web.settings import Settings

DEMO = Path(__file__).parents[2] / "fixtures" / "demo" / "site.json"
NOW = datetime.fromisoformat("2026-10-24T23:30:00+01:00")


@pytest.fixture
def demo_data() -> dict[str, Any]:
    """The demo site's document, as the file has it."""
    data: dict[str, Any] = json.loads(DEMO.read_text(encoding="utf-8"))
    return data


@pytest.fixture(scope="session")
def demo_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The database of a server that has started with the demo site, to be copied."""
    made = Settings(data=tmp_path_factory.mktemp("demo"), first_document=DEMO, now=NOW, effort=4)
    shared: Shared = create_app(made).extensions[KEY]
    shared.database.engine.dispose()
    return made.data / "pengan.sqlite3"


@pytest.fixture
def settings(tmp_path: Path, demo_file: Path) -> Settings:
    """A server that has started once, in a folder of the test; few constructions: no plan's quality is tested here."""
    made = fresh_settings(tmp_path)
    made.data.mkdir(mode=0o700)
    shutil.copy(demo_file, made.data)
    return made


def fresh_settings(tmp_path: Path) -> Settings:
    """The same, of a server that was never started."""
    app = tmp_path / "app"
    (app / "assets").mkdir(parents=True)
    (app / "index.html").write_text("<!doctype html><title>the page</title>", encoding="utf-8")
    (app / "assets" / "start-1234.js").write_text("start()", encoding="utf-8")
    return Settings(data=tmp_path / "data", first_document=DEMO, app=app, now=NOW, effort=4)


@pytest.fixture
def app(settings: Settings) -> Flask:
    """The server."""
    return create_app(settings)


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """Asks the server without a line between."""
    return app.test_client()
