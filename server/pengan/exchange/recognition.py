"""Tells which sheet of a book is which table, and in which language the book is written."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from functools import cache

from pengan.words import languages
from pengan.words.languages import SOURCE
from pengan.words.reader import Reader

from . import sayings
from .folding import fold
from .grid import Grid
from .headings import LOOKED_AT, splits
from .naming import Meanings, field_meanings, meaning_of, names_in, sheet_meanings, title, titles
from .report import Place, Report
from .vocabulary import GUIDE, LISTS, SHEETS


def recognised(grids: Iterable[Grid], reader: Reader, report: Report) -> Mapping[str, Grid]:
    """The sheets by table. Sheets of no table are named in notices, two of one table in a fault."""
    found: dict[str, Grid] = {}
    for grid in grids:
        tables = meaning_of(grid.name, sheet_meanings(), reader.language)
        if is_own(grid.name):
            continue
        if len(tables) != 1:
            report.notices.add(Place(grid.name), sayings.UNKNOWN_SHEET())
        elif tables[0] in found:
            shown = title(SHEETS[tables[0]], reader)
            message = sayings.TWO_SHEETS(first=found[tables[0]].name, second=grid.name, table=shown)
            report.faults.add(Place(grid.name), message)
        else:
            found[tables[0]] = grid
    if not found:
        report.faults.add(Place(), sayings.NO_SHEETS(names=titles(SHEETS.values(), reader)))
    return found


def is_own(sheet: str) -> bool:
    """Whether a sheet is one the template adds for people to read, in any shipped language."""
    return fold(sheet) in _own_sheets()


@cache
def _own_sheets() -> frozenset[str]:
    own = (names_in(listed, language) for listed in (GUIDE, LISTS) for language in languages.shipped())
    return frozenset(fold(name) for names in own for name in names)


def language_of(grids: Iterable[Grid]) -> str:
    """The language that most names of sheets and headings are written in; English where it is a draw."""
    votes: Counter[str] = Counter()
    for grid in grids:
        votes.update(_languages(grid.name, sheet_meanings()))
        for table in sheet_meanings().get(fold(grid.name), {}):
            votes.update(_of_headings(grid, field_meanings(table)))
    best = max(votes.values(), default=0)
    leading = sorted(language for language, count in votes.items() if count == best)
    return SOURCE if SOURCE in leading or not leading else leading[0]


def _languages(text: str, meanings: Meanings) -> set[str]:
    return {language for said in meanings.get(fold(text), {}).values() for language in said}


def _of_headings(grid: Grid, meanings: Meanings) -> Iterable[str]:
    for row in grid.rows[:LOOKED_AT]:
        for cell in row.cells:
            if isinstance(cell.value, str) and cell.value.strip():
                known = (said for name, _unit, _brackets in splits(cell.value) if (said := _languages(name, meanings)))
                yield from next(known, set())
