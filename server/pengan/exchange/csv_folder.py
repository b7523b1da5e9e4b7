"""Reads a folder of CSV files into grids, one file a sheet, in whichever delimiter and encoding they were written."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from pathlib import Path

from . import sayings
from .archive import MEGABYTE, MOST_FILE
from .grid import Cell, Grid
from .report import BookFault, Place, Report
from .rows import bounded

ENDINGS = (".csv", ".tsv", ".txt")
DELIMITERS = (",", ";", "\t")
MOST_FILES = 100
_SAMPLE_LINES = 20


def read_folder(folder: Path, report: Report) -> list[Grid]:
    """One grid for each `*.csv` (or `*.tsv`, `*.txt`) in the folder, named by the file's name without its ending."""
    files = sorted(file for file in folder.iterdir() if file.suffix.lower() in ENDINGS and file.is_file())
    if not files:
        raise BookFault(sayings.NO_CSV(path=folder.name))
    if len(files) > MOST_FILES:
        raise BookFault(sayings.MANY_SHEETS(path=folder.name, limit_count=MOST_FILES))
    grids = [_grid(file, report) for file in files]
    return [grid for grid in grids if grid is not None]


def _grid(file: Path, report: Report) -> Grid | None:
    if file.stat().st_size > MOST_FILE:
        report.faults.add(Place(file.stem), sayings.LARGE_FILE(path=file.name, limit_mb=MOST_FILE // MEGABYTE))
        return None
    text = decode(file.read_bytes())
    if text is None:
        report.faults.add(Place(file.stem), sayings.NOT_TEXT())
        return None
    try:
        return Grid(file.stem, tuple(bounded(_cells(text), file.stem, report)))
    except csv.Error as error:
        report.faults.add(Place(file.stem), sayings.NOT_CSV(reason=str(error)))
        return None


def decode(raw: bytes) -> str | None:
    """The text of a file in UTF-8, in UTF-16 with its mark, or else in Windows-1252; None if it is none of them."""
    encoding = "utf-16" if raw[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8-sig"
    for name in (encoding, "cp1252"):
        try:
            text = raw.decode(name)
        except UnicodeDecodeError:
            continue
        return None if "\0" in text else text
    return None


def delimiter_of(text: str) -> str:
    """The delimiter that cuts the first lines into the most columns of the same number; a comma if none does."""
    lines = [line for line in text.splitlines()[:_SAMPLE_LINES] if line.strip()]
    if lines and lines[0].lower().startswith("sep=") and len(lines[0]) == 5:
        return lines[0][4]
    return max(DELIMITERS, key=lambda mark: _evenness(lines, mark))


def _evenness(lines: list[str], mark: str) -> tuple[int, int]:
    """How many lines have the commonest number of columns above one, and that number."""
    try:
        widths = [len(row) for row in csv.reader(lines, delimiter=mark)]
    except csv.Error:
        return (0, 0)
    wide = [width for width in widths if width > 1]
    if not wide:
        return (0, 0)
    commonest = max(sorted(set(wide)), key=wide.count)
    return (wide.count(commonest), commonest)


def _cells(text: str) -> Iterator[tuple[Cell, ...]]:
    mark = delimiter_of(text)
    for row in csv.reader(io.StringIO(text, newline=""), delimiter=mark):
        yield () if row[:1] == [f"sep={mark}"] else tuple(_cell(value) for value in row)


def _cell(value: str) -> Cell:
    typed = value.strip()
    if typed.startswith("=") and len(typed) > 1:
        return Cell(typed, formula=True)
    return Cell(typed or None, error=typed.startswith("#") and typed.endswith(("!", "?", "/A")))
