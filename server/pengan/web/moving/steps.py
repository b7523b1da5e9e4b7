"""Rows that an older Pengan wrote, brought to today's tables by the same steps that a database takes.

They are put into a small database of their own at the step they were written at; that takes the steps that came since,
and its rows are today's.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from sqlalchemy import Connection, MetaData, Table

from ..database import Base, Database
from ..migrations.steps import known_steps, newest_step, upgrade
from .rows import Row, put_rows, rows_of

Stored = Mapping[str, Callable[[], Iterable[Row]]]
"""Rows by the name of their table, read when they are needed."""


def is_known(steps: Iterable[str]) -> bool:
    """Whether this Pengan knows the steps that somebody's tables had taken. It does not know a newer one's."""
    return set(steps) <= known_steps()


@contextmanager
def at_todays_step(stored: Stored, steps: Iterable[str], site: str | None = None) -> Iterator[Stored]:
    """The rows as today's tables have them. Raises `ValueError` for rows that do not fit their tables."""
    if frozenset(steps) == newest_step():
        yield stored
        return
    with TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        between = Database(f"sqlite:///{Path(folder) / 'between.sqlite3'}")
        try:
            _carry_over(between, stored, steps)
            with between.engine.connect() as line:
                yield {table.name: _reader(line, table, site) for table in Base.metadata.sorted_tables}
        finally:
            between.engine.dispose()


def _carry_over(between: Database, stored: Stored, steps: Iterable[str]) -> None:
    for step in steps:
        upgrade(between.engine, step)
    then = MetaData()
    then.reflect(between.engine)
    with between.engine.begin() as line:
        for table in then.sorted_tables:
            if table.name in stored:
                put_rows(line, table, stored[table.name]())
    between.upgrade()


def _reader(line: Connection, table: Table, site: str | None) -> Callable[[], Iterator[Row]]:
    return lambda: rows_of(line, table, site if "site" in table.columns else None)
