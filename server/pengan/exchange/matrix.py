"""Reads turns that stand on the stations sheet, one column a program: `Program A (min)`."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from pengan.words import languages
from pengan.words.reader import Reader

from . import sayings
from .entries import Entry, read_entries
from .folding import fold
from .headings import Column, Table, splits
from .measures import named_unit
from .naming import kinds, names_in
from .references import Directory
from .report import Place, Report
from .vocabulary import RUN_TIME_IN_PROGRAM

_RUN = "run_s"


def read_matrix(
    table: Table, stations: Iterable[Entry], directory: Directory, reader: Reader, report: Report
) -> list[Entry]:
    """A turn for each station's cell in a program's column. Columns that are no program's are named in a notice."""
    by_row = {entry.row: entry for entry in stations if entry.source is table}
    turns: list[Entry] = []
    for index, heading in table.others:
        found = _program_column(index, heading, directory, reader) if table.table == "stations" else None
        if found is None:
            report.notices.add(Place(table.sheet, None, index, heading), sayings.UNKNOWN_COLUMN(heading=heading[:60]))
        else:
            turns += _turns(table, *found, by_row, reader, report)
    return turns


def _program_column(index: int, heading: str, directory: Directory, reader: Reader) -> tuple[Column, Entry] | None:
    """The column and its program, if what the heading says without its unit and its first words names one program."""
    kind = kinds("turns")[_RUN]
    for name, named, _bracketed in splits(heading):
        unit = named_unit(kind, named, reader) if named else None
        programs = {entry.id: entry for text in _tails(name) for entry in directory.found("programs", text)}
        if len(programs) == 1 and (unit is not None or not named):
            return Column(index, heading, _RUN, kind, unit), next(iter(programs.values()))
    return None


def _tails(name: str) -> list[str]:
    """The name itself, and what is left of it behind words such as “program”."""
    folded = fold(name)
    heads = {fold(head) for language in languages.shipped() for head in names_in(RUN_TIME_IN_PROGRAM, language)}
    return [name, *(folded[len(head) + 1 :] for head in sorted(heads) if folded.startswith(f"{head} "))]


def _turns(
    table: Table, column: Column, program: Entry, by_row: dict[int, Entry], reader: Reader, report: Report
) -> list[Entry]:
    """The column's cells as turns; a nought is no turn."""
    alone = replace(table, table="turns", columns=(column,), others=())
    turns = []
    for entry in read_entries(alone, reader, report):
        station = by_row.get(entry.row)
        if station is not None and entry.values.get(_RUN) != 0:
            entry.values |= {"program": program.id, "station": station.id}
            turns.append(entry)
    return turns
