"""Books that are huge, damaged, locked, of another kind or made to harm: a clear fault, in bounded time and memory."""

from __future__ import annotations

import io
import os
import subprocess
import sys
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import Workbook

from exchange.made_books import faults, imported, notices, sound, xlsx
from pengan.exchange import archive
from pengan.exchange.grid import MOST_BLANK_ROWS, MOST_ROWS
from pengan.exchange.import_book import import_book

_SHEET = (
    '<?xml version="1.0" encoding="UTF-8"?><worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">'
    "{dimension}<sheetData>{rows}</sheetData></worksheet>"
)


def _with_sheet(path: Path, parts: Iterator[str], *, dimension: str = "") -> Path:
    """A real book whose only sheet is written part by part, so that a test needs no memory for it."""
    plain = io.BytesIO()
    book = Workbook()
    book.worksheets[0].title = "Stations"
    book.save(plain)
    head, _rows, tail = _SHEET.format(dimension=dimension, rows="\0").partition("\0")
    with zipfile.ZipFile(plain) as source, zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as target:
        for name in source.namelist():
            if name != "xl/worksheets/sheet1.xml":
                target.writestr(name, source.read(name))
                continue
            with target.open(name, "w") as part:
                part.write(head.encode())
                for text in parts:
                    part.write(text.encode())
                part.write(tail.encode())
    return path


_IMPORT_AND_MEASURE = """
import re, sys
from pathlib import Path
from pengan.exchange.import_book import import_book
looked_at = []
faults = import_book(Path(sys.argv[1]), on_row=looked_at.append).report.faults.kept
first = next(fault for fault in faults if fault.message.code == "book.too_many_rows")
peak = re.search(r"VmHWM:\\s+(\\d+) kB", Path("/proc/self/status").read_text())[1]
print(first.message.code, first.place.row, looked_at[-1], peak)
"""


def _rows(count: int) -> Iterator[str]:
    yield "<row>" + "".join(f'<c t="inlineStr"><is><t>{name}</t></is></c>' for name in ("Number", "Name")) + "</row>"
    for number in range(1, count):
        yield f"<row><c><v>{number}</v></c><c><v>7</v></c></row>"


def test_a_million_rows_stop_at_the_bound(tmp_path: Path) -> None:
    """In a process of its own, so that its memory can be told from that of the tests."""
    path = _with_sheet(tmp_path / "b.xlsx", _rows(1_000_000), dimension='<dimension ref="A1:B1000000"/>')
    done = subprocess.run(
        [sys.executable, "-c", _IMPORT_AND_MEASURE, str(path)],
        env={**os.environ, "PYTHONPATH": str(Path(__file__).parents[2] / "server")},
        capture_output=True, text=True, check=True, timeout=120,
    )  # fmt: skip
    code, row, looked_at, peak_kb = done.stdout.split()
    assert (code, int(row)) == ("book.too_many_rows", MOST_ROWS + 1)
    assert int(looked_at) <= 2 * (MOST_ROWS + 1) and int(peak_kb) < 300_000


def test_a_sheet_that_claims_to_be_huge_is_read_by_what_it_holds(tmp_path: Path) -> None:
    path = _with_sheet(tmp_path / "b.xlsx", _rows(3), dimension='<dimension ref="A1:XFD1048576"/>')
    looked_at: list[int] = []
    assert ("book.missing_column", "Stations", "") in faults(import_book(path, on_row=looked_at.append))
    assert looked_at == [1, 2, 3, 4, 5], "three rows found, and two of them understood"


def test_blank_rows_end_a_sheet_with_a_notice(tmp_path: Path) -> None:
    rows = sound()["Stations"]
    far = [*rows, *([None] for _ in range(MOST_BLANK_ROWS + 5)), [9, "Far", "Main", None, 5]]
    result = imported(tmp_path, sound(Stations=far))
    assert faults(result) == []
    assert ("book.blank_below", "Stations", str(len(rows) + MOST_BLANK_ROWS + 1)) in notices(result)


def test_a_row_number_out_of_this_world_costs_nothing(tmp_path: Path) -> None:
    rows = iter(['<row r="1"><c r="A1"><v>1</v></c></row>', '<row r="999999999"><c r="A999999999"><v>1</v></c></row>'])
    assert not import_book(_with_sheet(tmp_path / "b.xlsx", rows)).sound


def test_more_columns_than_a_book_needs_are_a_fault(tmp_path: Path) -> None:
    rows = [[*row, *([None] * 300), "far"] for row in sound()["Stations"]]
    assert ("book.too_many_columns", "Stations", "1") in faults(imported(tmp_path, sound(Stations=rows)))


def test_a_book_that_unpacks_to_far_more_than_its_size_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "bomb.xlsx"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as book:
        book.writestr("[Content_Types].xml", "<Types/>")
        with book.open("xl/sharedStrings.xml", "w", force_zip64=True) as part:
            for _ in range(archive.MOST_PART // 1_000_000 + 1):
                part.write(b" " * 1_000_000)
    assert path.stat().st_size < 200_000
    assert faults(import_book(path)) == [("book.large_unpacked", None, "")]


def test_declared_entities_are_refused(tmp_path: Path) -> None:
    path = xlsx(tmp_path / "b.xlsx", sound())
    changed = tmp_path / "c.xlsx"
    with zipfile.ZipFile(path) as source, zipfile.ZipFile(changed, "w") as target:
        for name in source.namelist():
            text = source.read(name)
            if name == "xl/workbook.xml":
                text = b'<!DOCTYPE a [<!ENTITY b "c">]>' + text
            target.writestr(name, text)
    assert faults(import_book(changed)) == [("book.unsafe", None, "")]


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (bytes.fromhex("D0CF11E0A1B11AE1") + bytes(600), "old"),
        (bytes.fromhex("D0CF11E0A1B11AE1") + bytes(600) + "EncryptedPackage".encode("utf-16-le"), "locked"),
        (b"just text", "not_a_book"),
        (b"", "not_a_book"),
        (b"PK\x03\x04 and then nothing", "damaged"),
        (b"PK" + b"\0" * 28 + b"mimetypeapplication/vnd.oasis.opendocument.spreadsheet", "other"),
    ],
)
def test_files_of_another_kind_say_what_they_are(tmp_path: Path, content: bytes, code: str) -> None:
    path = tmp_path / "book.xlsx"
    path.write_bytes(content)
    assert faults(import_book(path)) == [(f"book.{code}", None, "")]


def test_a_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    assert faults(import_book(tmp_path / "none.xlsx")) == [("book.not_there", None, "")]


def test_half_a_book_is_damaged(tmp_path: Path) -> None:
    path = xlsx(tmp_path / "b.xlsx", sound())
    path.write_bytes(path.read_bytes()[:-400])
    assert faults(import_book(path)) == [("book.damaged", None, "")]


@given(st.binary(max_size=400))
def test_no_bytes_break_the_reader(tmp_path_factory: pytest.TempPathFactory, content: bytes) -> None:
    path = tmp_path_factory.mktemp("random") / "book.xlsx"
    path.write_bytes(content)
    assert import_book(path).report.faults.count > 0


@given(st.data())
def test_a_book_with_a_few_bytes_changed_never_breaks_the_reader(
    tmp_path_factory: pytest.TempPathFactory, data: st.DataObject
) -> None:
    """The changes are made inside the zip, whose sums are made anew, so that they reach the XML."""
    folder = tmp_path_factory.mktemp("changed")
    with zipfile.ZipFile(_SOUND_BOOK) as source:
        parts = {name: bytearray(source.read(name)) for name in source.namelist()}
    name = data.draw(st.sampled_from(sorted(parts)))
    for at, byte in data.draw(
        st.lists(st.tuples(st.integers(0, len(parts[name]) - 1), st.integers(0, 255)), max_size=4)
    ):
        parts[name][at] = byte
    with zipfile.ZipFile(folder / "book.xlsx", "w") as target:
        for part, content in parts.items():
            target.writestr(part, bytes(content))
    assert import_book(folder / "book.xlsx").data["format"] == 1


def _sound_book() -> io.BytesIO:
    book = Workbook()
    book.remove(book.worksheets[0])
    for name, rows in sound().items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(list(row))
    made = io.BytesIO()
    book.save(made)
    return made


_SOUND_BOOK = _sound_book()
