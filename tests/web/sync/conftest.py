"""A site in a database of either kind. Tables are made once and emptied for each test, which is much quicker."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import text

from pengan.web.database import Base, Database
from ready_tables import emptied, lay_tables
from web.sync.crew import World


@pytest.fixture(scope="module")
def tables_on_postgres(postgres_url: str) -> Iterator[Database]:
    """All tables."""
    made = Database(emptied(postgres_url))
    made.make_tables()
    yield made
    made.engine.dispose()


@pytest.fixture(params=["sqlite", "postgresql"])
def database(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Database]:
    """Empty tables."""
    if request.param == "postgresql":
        made: Database = request.getfixturevalue("tables_on_postgres")
        names = ", ".join(f'"{table.name}"' for table in Base.metadata.sorted_tables)
        with made.engine.begin() as line:
            line.execute(text(f"TRUNCATE {names}"))
        yield made
        return
    made = Database(lay_tables(tmp_path / "sync.sqlite3"))
    yield made
    made.engine.dispose()


@pytest.fixture
def world(database: Database) -> World:
    """The grounds, loaded."""
    made = World(database)
    made.open()
    return made
