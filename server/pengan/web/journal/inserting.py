"""Rows put into the journal, those left out that meet one that is there, and such rows found again.

PostgreSQL gets the rows as arrays, one a column, which it takes in a fraction of the time of row by row; and it is
asked for known ones an id at a time, since its planner would else read a whole site while a table is young.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, cast

from sqlalchemy import Column, Row, Table, TextClause, select, text
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Session

from .models import JournalEntry

ENTRIES = cast(Table, JournalEntry.__table__)


def insert_into(session: Session) -> Any:
    """The kind of insert that may meet a row which is there already."""
    return {"sqlite": sqlite.insert, "postgresql": postgresql.insert}[session.get_bind().dialect.name]


def insert_new(session: Session, rows: Sequence[Mapping[str, object]]) -> set[int]:
    """Insert the rows whose id and sum are new, here and among themselves; the numbers of those."""
    if _is_postgresql(session):
        by_column = {column.name: [row[column.name] for row in rows] for column in ENTRIES.columns}
        return set(session.scalars(_FROM_ARRAYS, by_column))
    new = sqlite.insert(ENTRIES).on_conflict_do_nothing().returning(ENTRIES.c.number)
    return set(session.connection().execute(new, rows).scalars())


def rows_with(session: Session, site: str, column: Column[Any], values: Iterable[object]) -> list[Row[Any]]:
    """A site's rows that have one of these values in a column of which each value is there once."""
    wanted = list(values)
    if not _is_postgresql(session):
        return list(session.execute(select(ENTRIES).where(ENTRIES.c.site == site, column.in_(wanted))))
    return list(session.execute(_one_by_one(column), {"site": site, "wanted": wanted}))


def _is_postgresql(session: Session) -> bool:
    return session.get_bind().dialect.name == "postgresql"


def _kind(column: Column[Any]) -> str:
    return str(column.type.compile(postgresql.dialect()))  # type: ignore[no-untyped-call]


def _from_arrays() -> TextClause:
    names = ", ".join(f'"{column.name}"' for column in ENTRIES.columns)
    arrays = ", ".join(f"CAST(:{column.name} AS {_kind(column)}[])" for column in ENTRIES.columns)
    into = f"INSERT INTO {ENTRIES.name} ({names}) SELECT * FROM unnest({arrays})"
    return text(f"{into} ON CONFLICT DO NOTHING RETURNING number")


def _one_by_one(column: Column[Any]) -> TextClause:
    one = f'SELECT * FROM {ENTRIES.name} WHERE site = :site AND "{column.name}" = wanted.value LIMIT 1'
    wanted = f"unnest(CAST(:wanted AS {_kind(column)}[])) AS wanted(value)"
    return text(f"SELECT found.* FROM {wanted} CROSS JOIN LATERAL ({one}) AS found")


_FROM_ARRAYS = _from_arrays()
