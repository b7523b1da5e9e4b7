"""Reads an office's book into a site's document: every fault at once, each with its sheet, row and column."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from pengan.engine.document.fault import Fault
from pengan.engine.document.read import MISSING, faults_in
from pengan.engine.document.tables import FORMAT, TABLES
from pengan.words.reader import Reader

from . import sayings
from .book_names import BookNames
from .csv_folder import read_folder
from .entries import Entry, read_entries
from .grid import Grid
from .headings import Table, read_headings
from .identity import by_relation, name_entries
from .matrix import read_matrix
from .naming import kinds, title
from .recognition import language_of, recognised
from .references import Directory, resolve
from .report import BookFault, Place, Report
from .upright import put_back, turned
from .vocabulary import field_names
from .xlsx import read_xlsx


@dataclass(frozen=True, slots=True)
class Imported:
    """What came of a book: the document as JSON data (only to be used where `report` has no faults) and the report."""

    data: dict[str, object]
    report: Report
    language: str

    @property
    def sound(self) -> bool:
        """Whether the document can be used."""
        return self.report.faults.count == 0

    @property
    def names(self) -> BookNames:
        """What people call the records, for sentences about them."""
        return BookNames(self._records)

    @property
    def counts(self) -> Mapping[str, int]:
        """How many records of each table there are."""
        return Counter(str(record["table"]) for record in self._records)

    @property
    def _records(self) -> list[dict[str, object]]:
        records = self.data["records"]
        assert isinstance(records, list)
        return records


def import_book(
    path: Path,
    language: str | None = None,
    units: str = "metric",
    on_row: Callable[[int], None] | None = None,
) -> Imported:
    """The document of an .xlsx book or a folder of CSV files.

    `language` is the book's language, guessed from its headings where None. It decides how `1.250` and `3/4/2026`
    are read; names are understood in every shipped language. `units` decides what a plain gallon is.
    `on_row` hears how many rows were looked at so far, each once when it is found and once when it is understood.
    """
    report = Report(on_row=on_row)
    try:
        grids = _grids(path, report)
    except BookFault as fault:
        report.faults.add(Place(), fault.message)
        grids = []
    reader = Reader(language or language_of(grids), units)
    records = _with_site_laid_flat(recognised(grids, reader, report), reader, report) if grids else []
    return Imported({"format": FORMAT, "records": records}, report, reader.language)


def _grids(path: Path, report: Report) -> list[Grid]:
    if not path.exists():
        raise BookFault(sayings.NOT_THERE(path=path.name))
    return read_folder(path, report) if path.is_dir() else read_xlsx(path, report)


def _with_site_laid_flat(grids: Mapping[str, Grid], reader: Reader, report: Report) -> list[dict[str, object]]:
    """The records; a site sheet that stands upright is laid flat before and told of as it stands."""
    flat = turned(grids["site"], "site", reader) if "site" in grids else None
    if flat is None:
        return _records(grids, reader, report)
    grid, spots = flat
    records = _records({**grids, "site": grid}, reader, report)
    put_back(report, grid.name, spots)
    return records


def _records(grids: Mapping[str, Grid], reader: Reader, report: Report) -> list[dict[str, object]]:
    """The records in table order, faults in the report."""
    tables = [table for name, grid in grids.items() if (table := read_headings(grid, name, reader, report))]
    entries = [entry for table in tables for entry in read_entries(table, reader, report)]
    name_entries(entry for entry in entries if not by_relation(entry.table))
    directory = Directory(entry for entry in entries if not by_relation(entry.table))
    for entry in entries:
        resolve(entry, directory, reader, report)
    entries += [turn for table in tables for turn in read_matrix(table, entries, directory, reader, report)]
    name_entries(entries)
    _number_turns(entries)
    entries = _without_doubles(_in_table_order(entries), report)
    missing = _missing_columns(tables, reader, report)
    records: list[dict[str, object]] = [{"table": entry.table, **entry.values} for entry in entries]
    _place_faults(faults_in({"format": FORMAT, "records": records}), entries, missing, reader, report)
    return records


def _in_table_order(entries: Iterable[Entry]) -> list[Entry]:
    order = {table.table: at for at, table in enumerate(TABLES)}
    return sorted(entries, key=lambda entry: order[entry.table])


def _number_turns(entries: Iterable[Entry]) -> None:
    """Where no turn of the book has a position, the rows stand in their order."""
    turns = [entry for entry in entries if entry.table == "turns"]
    if any("position" in turn.values or turn.source.column("position") for turn in turns):
        return
    last: Counter[str] = Counter()
    for turn in turns:
        program = str(turn.values.get("program", ""))
        last[program] += 1
        turn.values["position"] = last[program]


def _without_doubles(entries: Iterable[Entry], report: Report) -> list[Entry]:
    """The entries but those whose own id came before; the report names both rows."""
    first: dict[tuple[str, str], Entry] = {}
    for entry in entries:
        earlier = first.setdefault((entry.table, entry.id), entry)
        if earlier is not entry:
            report.faults.add(entry.place("id"), sayings.TWICE(first=earlier.row, second=entry.row, id=entry.id))
    return list(first.values())


def _missing_columns(tables: Iterable[Table], reader: Reader, report: Report) -> set[tuple[str, str]]:
    """The required columns that sheets lack, said once for the sheet instead of for each row."""
    missing = set()
    for table in tables:
        for name, kind in kinds(table.table).items():
            if kind.required and name != "id" and table.column(name) is None and table.rows:
                missing.add((table.table, name))
                shown = title(field_names(table.table, name), reader)
                report.faults.add(Place(table.sheet), sayings.MISSING_COLUMN(field=shown))
    return missing


def _place_faults(
    faults: Iterable[Fault], entries: Iterable[Entry], missing: set[tuple[str, str]], reader: Reader, report: Report
) -> None:
    """Put the document's faults where they stand in the book, but those whose cause was said already."""
    by_id = {(entry.table, entry.id): entry for entry in entries}
    for fault in faults:
        entry = by_id.get((fault.table or "", fault.record or ""))
        if entry is None:
            report.faults.add(Place(), fault.message)
        elif not _said_already(fault, entry, missing):
            report.faults.add(_place_of(fault.field, entry, reader), fault.message)


def _place_of(name: str | None, entry: Entry, reader: Reader) -> Place:
    """The field's cell; where the sheet has no such column, the row and the field's title."""
    place = entry.place(name)
    if name is None or place.column is not None:
        return place
    return replace(place, heading=title(field_names(entry.table, name), reader))


def _said_already(fault: Fault, entry: Entry, missing: set[tuple[str, str]]) -> bool:
    """Whether the fault follows from a cell that could not be read, or from a column that is not there."""
    lacking = fault.message.code == MISSING.code and (entry.table, fault.field) in missing
    return lacking or fault.field in entry.faulty
