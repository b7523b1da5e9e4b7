"""SQLite's one writer: turns are taken, and always given back."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from sqlalchemy import text
from sqlalchemy.exc import IntegrityError, OperationalError

from pengan.web import database as module
from pengan.web.database import Database, reading


@pytest.fixture
def database(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Database:
    """A table of taps; nobody waits long."""
    monkeypatch.setattr(module, "WAIT_S", 1)
    made = Database(f"sqlite:///{tmp_path / 'taps.sqlite3'}")
    with made.engine.begin() as line:
        line.execute(text("CREATE TABLE taps (id integer PRIMARY KEY)"))
    return made


def write(database: Database, id: int) -> None:
    with database.session() as session, session.begin():
        session.execute(text("INSERT INTO taps VALUES (:id)"), {"id": id})


def count(database: Database) -> int:
    with database.session() as session, reading(session):
        return session.execute(text("SELECT count(*) FROM taps")).scalar_one()


def test_writers_in_many_threads_all_get_their_turn(database: Database) -> None:
    with ThreadPoolExecutor(8) as threads:
        list(threads.map(lambda id: write(database, id), range(80)))
    assert count(database) == 80


def test_a_turn_is_given_back_after_a_failure_a_rollback_and_a_session_left_open(database: Database) -> None:
    write(database, 1)
    with pytest.raises(IntegrityError):
        write(database, 1)
    with database.session() as session:
        session.execute(text("INSERT INTO taps VALUES (2)"))
        session.rollback()
    with database.session() as session:
        session.execute(text("INSERT INTO taps VALUES (3)"))
    with database.engine.connect() as line:
        line.execute(text("INSERT INTO taps VALUES (4)"))
    write(database, 5)  # whoever does not get a turn is told so, see below
    assert count(database) == 2


def test_readers_do_not_wait_for_a_writer(database: Database) -> None:
    """The writer goes on only after the reader: one that waited would never get its answer."""
    with database.session() as session, session.begin():
        session.execute(text("INSERT INTO taps VALUES (1)"))
        assert count(database) == 0


def test_a_writer_amid_another_is_told_and_leaves_the_turn_as_it_was(database: Database) -> None:
    with database.session() as session, session.begin():
        session.execute(text("INSERT INTO taps VALUES (1)"))
        with pytest.raises(OperationalError, match="locked"):
            write(database, 2)
    write(database, 3)
    assert count(database) == 2
