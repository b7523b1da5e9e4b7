"""Documents in the database: every field comes back, on SQLite and on PostgreSQL, and keys begin with the site."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import insert, text
from sqlalchemy.exc import IntegrityError

from pengan.engine.document.fault import DocumentFaults
from pengan.engine.document.read import read_document
from pengan.web.database import Base, Database
from pengan.web.nights.models import StoredSheet
from pengan.web.problems import Problem
from pengan.web.sites.models import ROWS, SiteCopy
from pengan.web.sites.operations import document_of, list_sites, put_document


@pytest.fixture(params=["sqlite", "postgresql"])
def database(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Database]:
    """An empty database of either kind."""
    url = f"sqlite:///{tmp_path / 'sites.sqlite3'}"
    if request.param == "postgresql":
        url = request.getfixturevalue("postgres_url")
    made = Database(url)
    Base.metadata.drop_all(made.engine)
    made.make_tables()
    yield made
    made.engine.dispose()


def test_every_record_and_field_comes_back(database: Database, demo_data: dict[str, Any]) -> None:
    with database.session() as session:
        put_document(session, demo_data)
        assert document_of(session, "quinta-das-mares").document == read_document(demo_data)


def test_the_revision_rises_with_a_change_and_only_then(database: Database, demo_data: dict[str, Any]) -> None:
    changed = copy.deepcopy(demo_data)
    station = next(record for record in changed["records"] if record["table"] == "stations")
    station["name"] = "Renamed"
    with database.session() as session:
        revisions = [put_document(session, data).revision for data in (demo_data, demo_data, changed, changed)]
        assert revisions == [1, 1, 2, 2]
        assert document_of(session, "quinta-das-mares").document.stations[station["id"]].name == "Renamed"


def test_a_record_left_out_of_the_new_document_is_gone(database: Database, demo_data: dict[str, Any]) -> None:
    fewer = copy.deepcopy(demo_data)
    closures = [record for record in fewer["records"] if record["table"] == "closures"]
    fewer["records"].remove(closures[0])
    with database.session() as session:
        put_document(session, demo_data)
        put_document(session, fewer)
        kept = document_of(session, "quinta-das-mares").document.closures
    assert list(kept) == [record["id"] for record in closures[1:]]


def test_two_sites_may_share_record_ids(database: Database, demo_data: dict[str, Any]) -> None:
    other = copy.deepcopy(demo_data)
    site = next(record for record in other["records"] if record["table"] == "site")
    site.update(id="b", name="Beside")
    with database.session() as session:
        put_document(session, demo_data)
        put_document(session, other)
        assert [line.id for line in list_sites(session)] == ["b", "quinta-das-mares"]
        assert document_of(session, "quinta-das-mares").document == read_document(demo_data)


def test_a_document_with_faults_changes_nothing_and_names_them_all(
    database: Database, demo_data: dict[str, Any]
) -> None:
    broken = copy.deepcopy(demo_data)
    stations = [record for record in broken["records"] if record["table"] == "stations"]
    stations[0]["flow_lpm"] = -1
    stations[1]["supply"] = "no-such-supply"
    with database.session() as session:
        put_document(session, demo_data)
        with pytest.raises(DocumentFaults) as caught:
            put_document(session, broken)
        assert {(fault.record, fault.field) for fault in caught.value.faults} >= {
            (stations[0]["id"], "flow_lpm"),
            (stations[1]["id"], "supply"),
        }
        assert document_of(session, "quinta-das-mares").revision == 1


def test_a_site_that_is_not_there_is_a_problem(database: Database) -> None:
    with database.session() as session, pytest.raises(Problem) as caught:
        document_of(session, "nowhere")
    assert caught.value.status == 404


def test_the_database_itself_refuses_a_reference_to_nothing(database: Database) -> None:
    with database.session() as session, pytest.raises(IntegrityError), session.begin():
        session.add(SiteCopy(site="s", format=1, revision=1))
        session.flush()
        row = {"site": "s", "id": "t", "program": "none", "station": "none", "run_s": 60, "row_order": 0}
        session.execute(insert(ROWS["turns"]), {**row, "position": 0, "cycles": 1, "soak_s": 0})


def test_every_table_is_keyed_by_site_first() -> None:
    tables = [*ROWS.values(), SiteCopy.__table__, StoredSheet.__table__]
    assert [list(table.primary_key.columns)[0].name for table in tables] == ["site"] * len(tables)


def test_sqlite_checks_references_and_lets_readers_go_on(tmp_path: Path) -> None:
    database = Database(f"sqlite:///{tmp_path / 'deep' / 'sites.sqlite3'}")
    with database.engine.connect() as line:
        found = [line.execute(text(f"PRAGMA {name}")).scalar_one() for name in ("foreign_keys", "journal_mode")]
    database.engine.dispose()
    assert found == [1, "wal"]
