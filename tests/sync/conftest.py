"""One server on each kind of database for all of these tests; each test has a fresh site on it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from flask import Flask

from sync.history import History
from sync.world import a_quick_server

_servers: dict[str, Flask] = {}


@pytest.fixture(params=["sqlite", "postgresql"])
def server(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Flask:
    """The server over either kind of database."""
    return server_on(str(request.param), request, tmp_path_factory)


@pytest.fixture
def one_server(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Flask:
    """The server over SQLite, for what no database has a say in."""
    return server_on("sqlite", request, tmp_path_factory)


def server_on(kind: str, request: pytest.FixtureRequest, folders: pytest.TempPathFactory) -> Flask:
    """Made once a run: starting a database costs more than many a test."""
    if kind not in _servers:
        folder: Path = folders.mktemp(kind)
        postgres = kind == "postgresql"
        url = request.getfixturevalue("postgres_url") if postgres else f"sqlite:///{folder / 'pengan.sqlite3'}"
        _servers[kind] = a_quick_server(url, folder)
    return _servers[kind]


@pytest.fixture
def crew(server: Flask) -> History:
    """Five phones of four people on a fresh site: Ana manages, Ben (two phones) and Cai lead, Dora is crew."""
    return History(server)


@pytest.fixture
def made(server: Flask) -> Callable[[], Flask]:
    """Hands out the server."""
    return lambda: server
