"""What the template's first sheet tells people."""

from __future__ import annotations

from pengan.words.reader import N_, Reader

from .naming import title
from .vocabulary import SHEETS

_LINES = (
    N_("Your site's watering, as a book for Pengan"),
    N_("Each sheet holds one kind of thing, one row each. Begin with “{site}”, “{supplies}” and “{stations}”."),
    N_("Darker headings must be filled in. Point at a heading to read what goes below it."),
    N_("Leave out what you do not have: sheets, columns and rows can stay empty, and columns can stand in any order."),
    N_("Change the unit in a heading if your figures are in another one, or write the unit into the cell."),
    N_("“{turns}” says how long each station waters in each program; it names stations by number, programs by name."),
    N_("Paste values, not formulas. Nothing is imported while the book has a fault; all faults are shown at once."),
    N_("Check pressures, flows and wiring limits with the people who keep them; local codes come before this book."),
)


def guide_lines(reader: Reader) -> list[str]:
    """The lines in the reader's language, the heading first."""
    names = {table: title(listed, reader) for table, listed in SHEETS.items()}
    return [reader.gettext(line, **names) for line in _LINES]
