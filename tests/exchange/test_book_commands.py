"""The commands `pengan import` and `pengan template`."""

from __future__ import annotations

import json
from pathlib import Path

from click.testing import CliRunner

from exchange.made_books import sound, xlsx
from pengan.cli import main
from pengan.engine.document.read import faults_in


def test_import_writes_a_document_that_has_no_faults(tmp_path: Path) -> None:
    book = xlsx(tmp_path / "book.xlsx", sound())
    done = CliRunner().invoke(main, ["import", str(book), "-o", str(tmp_path / "site.json"), "--language", "en"])
    assert done.exit_code == 0, done.output
    assert faults_in(json.loads((tmp_path / "site.json").read_text(encoding="utf-8"))) == ()
    assert "Stations: 2" in done.stderr


def test_import_without_a_place_prints_the_document(tmp_path: Path) -> None:
    book = xlsx(tmp_path / "book.xlsx", sound())
    assert json.loads(CliRunner().invoke(main, ["import", str(book)]).stdout)["format"] == 1


def test_a_dry_run_writes_nothing(tmp_path: Path) -> None:
    book = xlsx(tmp_path / "book.xlsx", sound())
    done = CliRunner().invoke(main, ["import", str(book), "-o", str(tmp_path / "site.json"), "--dry-run"])
    assert done.exit_code == 0 and done.stdout == "" and not (tmp_path / "site.json").exists()


def test_faults_are_listed_in_the_readers_language_and_nothing_is_written(tmp_path: Path) -> None:
    book = xlsx(tmp_path / "book.xlsx", sound(Turns=[["Program", "Station", "Run time (min)"], ["A", 1, "=1+1"]]))
    for language, said in (("en", "row 2, column C"), ("es", "fila 2, columna C")):
        arguments = ["import", str(book), "-o", str(tmp_path / "site.json"), "--language", language]
        done = CliRunner().invoke(main, arguments)
        assert done.exit_code == 1 and said in done.stderr
        assert not (tmp_path / "site.json").exists()


def test_a_field_without_a_column_is_named_and_so_are_records(tmp_path: Path) -> None:
    controllers = [["Name", "Most current (A)"], ["Cabinet 1", 1]]
    book = xlsx(tmp_path / "book.xlsx", sound(Controllers=controllers))
    done = CliRunner().invoke(main, ["import", str(book), "--language", "en"])
    assert "Sheet Stations, row 2, no column Current" in done.stderr
    assert "Cabinet 1" in done.stderr and "controller-cabinet-1" not in done.stderr


def test_a_template_is_written_once_and_never_over_another_file(tmp_path: Path) -> None:
    target = tmp_path / "empty.xlsx"
    first = CliRunner().invoke(main, ["template", str(target), "--language", "es", "--units", "us"])
    assert first.exit_code == 0 and target.stat().st_size > 5_000
    again = CliRunner().invoke(main, ["template", str(target)])
    assert again.exit_code == 1
    assert CliRunner().invoke(main, ["template", str(tmp_path / "empty.ods")]).exit_code == 1
