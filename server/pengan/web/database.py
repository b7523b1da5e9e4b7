"""The database behind the server: SQLite unless told otherwise, PostgreSQL by its URL alone."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Lock
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event, make_url
from sqlalchemy.orm import DeclarativeBase, Session, sessionmaker

READS_ONLY = "pengan_reads_only"
TURN = "pengan_turn"
WAIT_S = 15
"""How long a writer waits for the others before it gives up."""


class Base(DeclarativeBase):
    """What every table belongs to. Each table's key begins with the site, so that sites can be spread over machines."""


class Database:
    """An engine and its sessions. Safe to share between threads; holds no state of a request."""

    def __init__(self, url: str) -> None:
        self.engine = _engine(url)
        self._sessions = sessionmaker(self.engine, expire_on_commit=False)

    def make_tables(self) -> None:
        """Create the tables that are missing, as the models of today have them: for tests. Servers call `upgrade`."""
        Base.metadata.create_all(self.engine)

    def upgrade(self) -> None:
        """Bring the tables to today's shape, step by step, from wherever they are."""
        from .migrations.steps import upgrade

        upgrade(self.engine)

    def session(self) -> Session:
        """A new session. Whoever opens it closes it."""
        return self._sessions()


@contextmanager
def reading(session: Session) -> Iterator[None]:
    """A transaction that only reads, and sees one moment of the database however many questions it asks.

    Transactions begun otherwise may write; on SQLite they wait for one another at their begin, so that none of
    them finds in its middle that what it read is no longer so.
    """
    with session.begin():
        options: dict[str, Any] = {READS_ONLY: True}
        if session.get_bind().dialect.name == "postgresql":
            options["isolation_level"] = "REPEATABLE READ"
        session.connection(execution_options=options)
        yield


def _engine(url: str) -> Engine:
    engine = create_engine(url)
    if engine.dialect.name == "sqlite":
        file = make_url(url).database
        if file and file != ":memory:":
            Path(file).parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        event.listen(engine, "connect", _prepare_sqlite)
        _take_turns(engine)
    return engine


def _prepare_sqlite(connection: Any, _record: object) -> None:
    """Foreign keys are off in SQLite until asked for; a write-ahead log lets readers go on while somebody writes.

    `synchronous = FULL`: what a commit acknowledged is on the disk, even if the power goes the next moment.
    """
    connection.isolation_level = None
    cursor = connection.cursor()
    cursor.execute("PRAGMA foreign_keys = ON")
    cursor.execute("PRAGMA journal_mode = WAL")
    cursor.execute("PRAGMA synchronous = FULL")
    cursor.execute(f"PRAGMA busy_timeout = {WAIT_S * 1000}")
    cursor.close()


def _take_turns(engine: Engine) -> None:
    """Let this process' writers begin one after the other: waiting for SQLite itself is sleeping up to 0.1 s at once.

    A writer that does not get its turn in time asks SQLite anyway, which then says that it is locked.
    """
    turn = Lock()

    def begin(connection: Connection) -> None:
        if connection.get_execution_options().get(READS_ONLY, False):
            connection.exec_driver_sql("BEGIN")
            return
        mine = turn.acquire(timeout=WAIT_S)
        try:
            # Take the one writer's place at the begin: a reader that became a writer later would be turned away.
            connection.exec_driver_sql("BEGIN IMMEDIATE")
        except BaseException:
            if mine:
                turn.release()
            raise
        connection.info[TURN] = mine

    def end(connection: Connection) -> None:
        if connection.info.pop(TURN, False):
            turn.release()

    event.listen(engine, "begin", begin)
    event.listen(engine, "commit", end)
    event.listen(engine, "rollback", end)
