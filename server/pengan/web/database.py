"""The database behind the server: SQLite unless told otherwise, PostgreSQL by its URL alone."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from sqlalchemy import Engine, create_engine, event, make_url
from sqlalchemy.orm import DeclarativeBase, Session, sessionmaker


class Base(DeclarativeBase):
    """What every table belongs to. Each table's key begins with the site, so that sites can be spread over machines."""


class Database:
    """An engine and its sessions. Safe to share between threads; holds no state of a request."""

    def __init__(self, url: str) -> None:
        self.engine = _engine(url)
        self._sessions = sessionmaker(self.engine, expire_on_commit=False)

    def make_tables(self) -> None:
        """Create the tables that are missing."""
        Base.metadata.create_all(self.engine)

    def session(self) -> Session:
        """A new session. Whoever opens it closes it."""
        return self._sessions()


def _engine(url: str) -> Engine:
    engine = create_engine(url)
    if engine.dialect.name == "sqlite":
        file = make_url(url).database
        if file and file != ":memory:":
            Path(file).parent.mkdir(parents=True, exist_ok=True)
        event.listen(engine, "connect", _prepare_sqlite)
    return engine


def _prepare_sqlite(connection: Any, _record: object) -> None:
    """Foreign keys are off in SQLite until asked for; a write-ahead log lets readers go on while somebody writes."""
    cursor = connection.cursor()
    cursor.execute("PRAGMA foreign_keys = ON")
    cursor.execute("PRAGMA journal_mode = WAL")
    cursor.execute("PRAGMA busy_timeout = 5000")
    cursor.close()
