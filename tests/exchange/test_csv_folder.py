"""A folder of CSV files is read like a book, whichever program wrote it."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exchange.made_books import faults, notices, records
from pengan.engine.document.read import read_document
from pengan.exchange.csv_folder import decode, delimiter_of
from pengan.exchange.import_book import import_book

BOOKS = Path(__file__).parents[2] / "fixtures" / "books"

_FILES = {
    "sitio": "Nombre;Zona horaria\nHuerta Peña;Europe/Madrid\n",
    "suministros": "Nombre;Caudal límite (m3/h)\nPozo;12,5\n",
    "estaciones": "Número;Nombre;Suministro;Caudal l/min\n1;Césped;Pozo;40,5\n2;Parterre, sur;Pozo;30\n",
    "programas": "Nombre;Inicio;Días\nNoche;22:00;lun mié\n",
    "turnos": "Programa;Estación;Tiempo h:mm\nNoche;1;0:20\nNoche;2;0:05\n",
}


def _folder(path: Path, files: Mapping[str, str], encoding: str, mark: str = ";") -> Path:
    for name, text in files.items():
        changed = text if mark == ";" else text.replace(", sur", " sur").replace(",5", ".5").replace(";", mark)
        (path / f"{name}.csv").write_bytes(changed.encode(encoding))
    return path


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "cp1252", "utf-16"])
@pytest.mark.parametrize("mark", [";", ",", "\t"])
def test_every_common_delimiter_and_encoding_gives_the_same_document(tmp_path: Path, encoding: str, mark: str) -> None:
    result = import_book(_folder(tmp_path, _FILES, encoding, mark))
    assert faults(result) == []
    document = read_document(result.data)
    assert document.site.name == "Huerta Peña"
    assert document.stations["station-1"].flow_lpm == 40.5
    assert [turn.run_s for turn in document.turns.values()] == [1200, 300]


def test_a_formula_in_a_csv_is_a_fault(tmp_path: Path) -> None:
    files = _FILES | {"turnos": "Programa;Estación;Tiempo min\nNoche;1;=5*2\n"}
    assert faults(import_book(_folder(tmp_path, files, "utf-8"))) == [("book.formula", "turnos", "C2")]


def test_a_folder_without_csv_files_is_told(tmp_path: Path) -> None:
    assert faults(import_book(tmp_path)) == [("book.no_csv", None, "")]


def test_a_file_that_is_no_text_is_told_beside_the_other_faults(tmp_path: Path) -> None:
    _folder(tmp_path, _FILES, "utf-8")
    (tmp_path / "cierres.csv").write_bytes(b"\x00\x81\x8d\x00")
    assert faults(import_book(tmp_path)) == [("book.not_text", "cierres", "")]


def test_a_line_that_names_the_delimiter_is_followed() -> None:
    assert delimiter_of("sep=;\na;b,c\n") == ";"


@given(st.binary(max_size=300))
def test_no_bytes_break_the_reading_of_a_csv(tmp_path_factory: pytest.TempPathFactory, content: bytes) -> None:
    folder = tmp_path_factory.mktemp("random")
    (folder / "stations.csv").write_bytes(content)
    assert import_book(folder).data["format"] == 1


@given(st.text(max_size=300))
def test_no_text_breaks_the_reading_of_cells(tmp_path_factory: pytest.TempPathFactory, text: str) -> None:
    """Whatever is typed below sound headings of every kind is read or is a fault."""
    folder = tmp_path_factory.mktemp("text")
    heads = "Name,Letter,Start,Days,Weekdays,Counted from,Season from,Dates,Rank,Flow limit (gpm),Seasonal,Aim"
    quoted = text.replace('"', '""').encode("utf-8", "replace").decode()
    (folder / "programs.csv").write_text(heads + "\n" + ",".join([f'"{quoted}"'] * 12), encoding="utf-8")
    assert import_book(folder).data["format"] == 1


@given(st.binary(max_size=100))
def test_what_is_decoded_is_text_without_nought_bytes(content: bytes) -> None:
    text = decode(content)
    assert text is None or "\0" not in text


@pytest.mark.parametrize(("book", "language", "stations"), [("college", "en", 8), ("huerta", "es", 9)])
def test_the_example_books_import_without_faults(book: str, language: str, stations: int) -> None:
    result = import_book(BOOKS / book)
    assert faults(result) == []
    assert {code for code, _sheet, _at in notices(result)} <= {"book.thousands", "book.day_included"}
    assert result.language == language and len(records(result, "stations")) == stations
    assert read_document(result.data).turns
