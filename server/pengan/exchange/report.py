"""Where in a book something is wrong or worth knowing, and the list of all of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from openpyxl.utils import get_column_letter

from pengan.engine.message import Message

KEPT = 500


@dataclass(frozen=True, slots=True)
class Place:
    """A spot in a book. `row` and `column` count from 1 as on the screen; `heading` is the column's own heading.

    Any of them can be missing: a fault can be about the whole book, a sheet, a row or a column. A row with a heading
    but no column lacks the field of that title.
    """

    sheet: str | None = None
    row: int | None = None
    column: int | None = None
    heading: str | None = None

    @property
    def cell(self) -> str | None:
        """The cell's name on the screen, such as `D7`."""
        if self.row is None or self.column is None:
            return None
        return f"{get_column_letter(self.column)}{self.row}"

    @property
    def letter(self) -> str | None:
        """The column's letter on the screen."""
        return None if self.column is None else get_column_letter(self.column)


@dataclass(frozen=True, slots=True)
class Remark:
    """One fault or notice, and where it stands."""

    place: Place
    message: Message


@dataclass(slots=True)
class Remarks:
    """A list that keeps the first `KEPT` and counts the rest, so that a ruined book does not drown its reader."""

    kept: list[Remark] = field(default_factory=list)
    count: int = 0

    def add(self, place: Place, message: Message) -> None:
        """Take one more."""
        self.count += 1
        if len(self.kept) < KEPT:
            self.kept.append(Remark(place, message))

    @property
    def left_out(self) -> int:
        """How many were counted but not kept."""
        return self.count - len(self.kept)


@dataclass(slots=True)
class Report:
    """All that is wrong in a book (`faults`: nothing is imported) and all that is worth knowing (`notices`)."""

    faults: Remarks = field(default_factory=Remarks)
    notices: Remarks = field(default_factory=Remarks)
    on_row: Callable[[int], None] | None = None
    rows_read: int = 0

    def row_read(self) -> None:
        """One more row was looked at; whoever listens hears how many that makes, each row once in each pass."""
        self.rows_read += 1
        if self.on_row:
            self.on_row(self.rows_read)


class CellFault(Exception):
    """What a cell says cannot be taken; whoever knows the place adds it."""

    def __init__(self, message: Message) -> None:
        super().__init__(message.code)
        self.message = message


class BookFault(Exception):
    """The book as a whole cannot be read."""

    def __init__(self, message: Message) -> None:
        super().__init__(message.code)
        self.message = message
