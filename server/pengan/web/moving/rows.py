"""Rows of any table as JSON and back, the same for every kind of database.

Columns hold whole numbers, fractions, truths, texts and bytes; bytes are base64 (RFC 4648, section 4).
"""

from __future__ import annotations

import base64
import binascii
from collections.abc import Iterable, Iterator, Mapping
from itertools import islice
from typing import Any

from sqlalchemy import Connection, LargeBinary, Table, insert, select

Row = dict[str, Any]
AT_ONCE = 500
"""Rows held in memory at a time, where their table says nothing of its own in `info["at_once"]`."""


def rows_of(connection: Connection, table: Table, site: str | None = None) -> Iterator[Row]:
    """The table's rows (of one site), in the order of its key."""
    wanted = select(table).order_by(*table.primary_key.columns)
    if site is not None:
        wanted = wanted.where(table.c.site == site)
    found = connection.execution_options(yield_per=_at_once(table)).execute(wanted)
    for row in found.mappings():
        yield {name: _plain(value) for name, value in row.items()}


def put_rows(connection: Connection, table: Table, rows: Iterable[Mapping[str, Any]]) -> int:
    """Insert rows as `rows_of` gave them; how many. Raises `ValueError` for a row that does not fit the table."""
    binary = {column.name for column in table.columns if isinstance(column.type, LargeBinary)}
    names = set(table.columns.keys())
    count = 0
    waiting = iter(rows)
    while some := [_row(row, names, binary) for row in islice(waiting, _at_once(table))]:
        connection.execute(insert(table), some)
        count += len(some)
    return count


def _at_once(table: Table) -> int:
    return int(table.info.get("at_once", AT_ONCE))


def _plain(value: object) -> object:
    return base64.b64encode(value).decode("ascii") if isinstance(value, bytes) else value


def _row(row: Mapping[str, Any], names: set[str], binary: set[str]) -> Row:
    if not isinstance(row, Mapping) or row.keys() != names:
        raise ValueError("a row with other columns than its table")
    return {name: _bytes(value) if name in binary and value is not None else value for name, value in row.items()}


def _bytes(text: object) -> bytes:
    try:
        return base64.b64decode(str(text), validate=True)
    except binascii.Error:
        raise ValueError("bytes that are no base64") from None
