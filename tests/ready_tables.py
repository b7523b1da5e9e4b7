"""Databases ready for a test: with every table, made once a process since the steps take time, or with none."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from sqlalchemy import create_engine, text

from pengan.web.database import Database
from pengan.web.system import opening as every_table  # noqa: F401  (all tables are known once it is imported)


def lay_tables(file: Path) -> str:
    """Such a file where there is none yet; answers its URL. Its folder is made if need be."""
    file.parent.mkdir(mode=0o700, exist_ok=True)
    file.write_bytes(_file())
    return f"sqlite:///{file}"


@cache
def _file() -> bytes:
    with TemporaryDirectory() as folder:
        file = Path(folder) / "tables.sqlite3"
        grow(f"sqlite:///{file}")
        return file.read_bytes()


def emptied(url: str) -> str:
    """The URL of a PostgreSQL, with no table left in it."""
    engine = create_engine(url)
    with engine.begin() as line:
        line.execute(text("DROP SCHEMA public CASCADE"))
        line.execute(text("CREATE SCHEMA public"))
    engine.dispose()
    return url


def grow(url: str) -> None:
    """Every table, in an empty database."""
    made = Database(url)
    made.upgrade()
    made.engine.dispose()
