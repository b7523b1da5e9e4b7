"""A sheet as it was read: rows of cells, whichever kind of file they came from."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

Value = str | int | float | bool | datetime | date | time | timedelta | None

MOST_ROWS = 20_000
MOST_COLUMNS = 256
MOST_BLANK_ROWS = 2_000


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell: its value; whether it is a formula, an error (`#N/A`), shown as a percentage, or as a date alone."""

    value: Value
    formula: bool = False
    error: bool = False
    percent: bool = False
    day_alone: bool = False

    @property
    def blank(self) -> bool:
        """Whether there is nothing in it but space."""
        return self.value is None or (isinstance(self.value, str) and not self.value.strip())


BLANK = Cell(None)


@dataclass(frozen=True, slots=True)
class Row:
    """One row with at least one filled cell. `number` counts from 1, as on the screen."""

    number: int
    cells: tuple[Cell, ...]

    def at(self, column: int) -> Cell:
        """The cell of a column counted from 1."""
        return self.cells[column - 1] if column <= len(self.cells) else BLANK


@dataclass(frozen=True, slots=True)
class Grid:
    """A sheet: its name and its rows that are not blank."""

    name: str
    rows: tuple[Row, ...]
