"""A SQLite file with every table and nothing in them, made once a process: the steps that lead there take time."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

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


def grow(url: str) -> None:
    """Every table, in an empty database."""
    made = Database(url)
    made.upgrade()
    made.engine.dispose()
