"""The tables' history: forward, back, and over what is in them."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import MetaData, inspect, select, text

from pengan.engine.document.read import read_document
from pengan.engine.document.write import write_document
from pengan.web.database import Base, Database
from pengan.web.history.replay import document_of_records, replayed
from pengan.web.migrations.steps import downgrade, upgrade
from pengan.web.settings import DEMO
from pengan.web.sites.operations import document_of, put_document
from pengan.web.system.opening import EVERY_TABLE

SITE = "quinta-das-mares"


@pytest.fixture(params=["sqlite", "postgresql"])
def database(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Database]:
    """A database with nothing in it."""
    url = f"sqlite:///{tmp_path / 'steps.sqlite3'}"
    if request.param == "postgresql":
        make: Callable[[], str] = request.getfixturevalue("make_postgres")
        url = make()
    made = Database(url)
    yield made
    made.engine.dispose()


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """The demo site's document, as far as the tables of the first step have room for it."""
    first, tables = Database(f"sqlite:///{tmp_path_factory.mktemp('first') / 'steps.sqlite3'}"), MetaData()
    upgrade(first.engine, "0001")
    tables.reflect(first.engine)
    first.engine.dispose()
    data: dict[str, Any] = json.loads(DEMO.read_text(encoding="utf-8"))
    data["records"] = [_narrowed(row, tables) for row in data["records"] if row["table"] in tables.tables]
    return data


def _narrowed(row: dict[str, Any], tables: MetaData) -> dict[str, Any]:
    columns = tables.tables[row["table"]].columns
    return {name: value for name, value in row.items() if name == "table" or name in columns}


def fill_first(database: Database, demo: dict[str, Any]) -> None:
    """The demo site in the tables of the first step, by SQL alone."""
    tables = MetaData()
    tables.reflect(database.engine)
    with database.engine.begin() as line:
        line.execute(tables.tables["site_copies"].insert(), {"site": SITE, "format": 1, "revision": 3})
        for place, record in enumerate(write_document(read_document(demo))["records"]):  # type: ignore[var-annotated, arg-type]
            table = tables.tables[record["table"]]
            fields = {name: value for name, value in record.items() if name != "table"}
            line.execute(table.insert(), {"site": SITE, "row_order": place, **fields})
        sheet = {"site": SITE, "night": "2026-07-14", "revision": 3, "planner": "1", "body": "{}"}
        line.execute(tables.tables["night_sheets"].insert(), sheet)


def test_the_steps_lead_to_the_tables_of_the_models(database: Database) -> None:
    assert EVERY_TABLE
    database.upgrade()
    with database.engine.connect() as line:
        found = compare_metadata(MigrationContext.configure(line, opts={"compare_type": True}), Base.metadata)
    assert found == []


def test_the_steps_lead_back_to_nothing_and_forward_again(database: Database) -> None:
    database.upgrade()
    downgrade(database.engine, "base")
    assert set(inspect(database.engine).get_table_names()) == {"alembic_version"}
    database.upgrade()
    assert set(inspect(database.engine).get_table_names()) == {*Base.metadata.tables, "alembic_version"}


def test_a_filled_database_keeps_its_document_and_gets_a_history(database: Database, demo: dict[str, Any]) -> None:
    upgrade(database.engine, "0001")
    fill_first(database, demo)
    database.upgrade()
    with database.session() as session:
        assert document_of(session, SITE).document == read_document(demo)
        assert document_of(session, SITE).revision == 3
        assert document_of_records(replayed(session, SITE)) == write_document(read_document(demo))
        session.rollback()
        changed = json.loads(json.dumps(demo))
        next(row for row in changed["records"] if row["table"] == "stations")["name"] = "Renamed"
        assert put_document(session, changed).revision == 4


def test_a_filled_database_goes_back_with_its_document(database: Database, demo: dict[str, Any]) -> None:
    database.upgrade()
    fewer = json.loads(json.dumps(demo))
    gone = next(row for row in fewer["records"] if row["table"] == "closures")
    fewer["records"].remove(gone)
    with database.session() as session:
        put_document(session, demo)
        put_document(session, fewer)
    downgrade(database.engine, "0001")
    with database.engine.connect() as line:
        closures = line.execute(text("SELECT id FROM closures")).scalars().all()
    assert gone["id"] not in closures and closures
    database.upgrade()
    with database.session() as session:
        assert document_of(session, SITE).document == read_document(fewer)


def test_tables_from_before_steps_were_counted_are_recognised(database: Database, demo: dict[str, Any]) -> None:
    upgrade(database.engine, "0001")
    fill_first(database, demo)
    with database.engine.begin() as line:
        line.execute(text("DROP TABLE alembic_version"))
    database.upgrade()
    with database.session() as session:
        assert document_of(session, SITE).document == read_document(demo)


def test_a_step_that_fails_leaves_everything_as_it_was(
    database: Database, demo: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    upgrade(database.engine, "0001")
    fill_first(database, demo)
    before = set(inspect(database.engine).get_table_names())

    def fail(*_words: object) -> None:
        raise ValueError("no uuid")

    monkeypatch.setattr("uuid.uuid4", fail)
    with pytest.raises(ValueError, match="no uuid"):
        database.upgrade()
    monkeypatch.undo()
    assert set(inspect(database.engine).get_table_names()) == before
    with database.engine.connect() as line:
        assert line.execute(text("SELECT count(*) FROM stations")).scalar_one() > 0
        tables = MetaData()
        tables.reflect(line, only=["site_copies"])
        assert line.execute(select(tables.tables["site_copies"].c.revision)).scalar_one() == 3
    database.upgrade()
