"""A cell as people see it, and as the text a document stores."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

from .. import sayings
from ..grid import Cell
from ..report import CellFault

_SHOWN = 60


def shown(cell: Cell) -> str:
    """The cell's value for a fault to quote, cut where it is long."""
    text = plain(cell)
    return text if len(text) <= _SHOWN else text[: _SHOWN - 1] + "…"


def plain(cell: Cell) -> str:
    """The cell's value as text: whole numbers without a decimal point, dates as ISO 8601 writes them."""
    value = cell.value
    if isinstance(value, float) and value.is_integer() and abs(value) < 1e15:
        return str(int(value))
    if isinstance(value, datetime):
        return value.isoformat(" ", "minutes")
    if isinstance(value, date | time):
        return value.isoformat()
    return "" if value is None else str(value).strip()


def read_text(cell: Cell) -> str:
    """Text as it stands. A date where text is wanted is a number that a spreadsheet program took for a date."""
    if isinstance(cell.value, date | time | timedelta):
        raise CellFault(sayings.DATE_IN_TEXT(typed=shown(cell)))
    return plain(cell)
