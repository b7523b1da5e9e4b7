"""A site in a database of either kind. Tables are made once and emptied for each test, which is much quicker."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import create_engine, text

from pengan.web.database import Base, Database
from web.sync.crew import World


@pytest.fixture(scope="session")
def empty_sqlite(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A file with all tables."""
    file = tmp_path_factory.mktemp("empty") / "empty.sqlite3"
    made = Database(f"sqlite:///{file}")
    made.make_tables()
    made.engine.dispose()
    return file


@pytest.fixture(scope="module")
def tables_on_postgres(postgres_url: str) -> Iterator[Database]:
    """All tables."""
    engine = create_engine(postgres_url)
    with engine.begin() as line:
        line.execute(text("DROP SCHEMA public CASCADE"))
        line.execute(text("CREATE SCHEMA public"))
    engine.dispose()
    made = Database(postgres_url)
    made.make_tables()
    yield made
    made.engine.dispose()


@pytest.fixture(params=["sqlite", "postgresql"])
def database(request: pytest.FixtureRequest, tmp_path: Path, empty_sqlite: Path) -> Iterator[Database]:
    """Empty tables."""
    if request.param == "postgresql":
        made: Database = request.getfixturevalue("tables_on_postgres")
        names = ", ".join(f'"{table.name}"' for table in Base.metadata.sorted_tables)
        with made.engine.begin() as line:
            line.execute(text(f"TRUNCATE {names}"))
        yield made
        return
    file = shutil.copy(empty_sqlite, tmp_path / "sync.sqlite3")
    made = Database(f"sqlite:///{file}")
    yield made
    made.engine.dispose()


@pytest.fixture
def world(database: Database) -> World:
    """The grounds, loaded."""
    made = World(database)
    made.open()
    return made
