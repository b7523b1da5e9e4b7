"""The command line as a whole: whose language it speaks, and how it says what is wrong."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

import builders as made
from pengan.cli import main

QUIET = {"PENGAN_LANGUAGE": "en-GB", "PENGAN_UNITS": None, "PENGAN_HOURS": None, "LANG": None, "LANGUAGE": None}

NO_FLOW = made.a_document_data(stations=[{"table": "stations", "id": "s1"}])


def run(*arguments: str, **environ: str | None) -> Result:
    """One call, in British English unless told otherwise."""
    return CliRunner().invoke(main, arguments, env={**QUIET, **environ})


def test_help_lists_every_command_with_one_line() -> None:
    lines = run("--help").output.splitlines()
    listed = lines[lines.index("Commands:") + 1 :]
    assert {"ahead", "check", "night", "why"} <= {line.split()[0] for line in listed if line.startswith("  ")}
    assert all(len(line.split()) > 2 for line in listed)


@pytest.mark.parametrize(
    "environ",
    [
        {"PENGAN_LANGUAGE": "es"},
        {"PENGAN_LANGUAGE": None, "LANG": "es_ES.UTF-8"},
        {"PENGAN_LANGUAGE": None, "LANGUAGE": "es:en"},
    ],
)
def test_help_is_in_the_language_of_the_environment(environ: dict[str, str | None]) -> None:
    assert run("--help", **environ).output.startswith("Uso: main [OPCIONES]")


def test_the_option_decides_over_the_environment_wherever_it_stands() -> None:
    assert run("night", "--help", "--language", "es").output.startswith("Uso:")
    assert run("--language=es", "--help").output.startswith("Uso:")
    assert run("night", "--help", "--language", "en", PENGAN_LANGUAGE="es").output.startswith("Usage:")


def test_mistakes_in_a_call_are_told_in_the_readers_language() -> None:
    assert "No existe la opción '--nada'." in run("night", "--nada", PENGAN_LANGUAGE="es").output
    assert "No existe la orden 'nada'." in run("nada", PENGAN_LANGUAGE="es").output
    assert "Falta el argumento" in run("night", PENGAN_LANGUAGE="es").output


def test_a_language_that_is_not_here_is_refused_by_name() -> None:
    result = run("check", "x.json", "--language", "tlh")
    assert result.exit_code == 2
    assert "tlh is not among the languages here: en, ar, de, es, pt." in result.output


def test_units_that_are_not_known_are_refused_wherever_they_come_from() -> None:
    assert "“cubits” is not one of: metric, us, imperial." in run("check", "x.json", "--units", "cubits").output
    assert "«cubits» no es ninguno de" in run("template", "x.xlsx", PENGAN_UNITS="cubits", PENGAN_LANGUAGE="es").output


def test_help_does_not_stay_in_the_language_of_the_call_before() -> None:
    run("--help", PENGAN_LANGUAGE="es")
    assert "Show this message and exit." in run("--help").output


@pytest.mark.parametrize(
    ("content", "expected"),
    [
        (b"\xff\xfe", "This file is not text in UTF-8"),
        (b"{", "This file is not JSON: reading stops at line 1"),
        (b"[]", "This must be a JSON object"),
        (json.dumps(NO_FLOW).encode(), "stations/s1 flow_lpm: This is missing."),
    ],
)  # fmt: skip
@pytest.mark.parametrize("command", [("night",), ("ahead",), ("why",)])
def test_a_file_that_is_no_document_says_why(
    command: tuple[str, ...], content: bytes, expected: str, tmp_path: Path
) -> None:
    path = tmp_path / "zz.json"
    path.write_bytes(content)
    result = run(*command, str(path), *(["s1"] if command == ("why",) else []))
    assert result.exit_code == 1
    assert expected in result.stderr
    assert result.stdout == ""


def test_every_fault_of_a_document_is_told_at_once(tmp_path: Path) -> None:
    path = tmp_path / "zz.json"
    path.write_text(
        json.dumps({"format": 1, "records": [{"table": "stations", "id": "s1"}, {"table": "site", "id": "x"}]})
    )
    lines = run("night", str(path)).stderr.splitlines()
    assert {line.split(":")[0] for line in lines} >= {"stations/s1 number", "stations/s1 flow_lpm", "site/x name"}
    assert lines[-1].startswith("Error: ") and lines[-1].endswith(f"faults in {path}.")


def test_a_missing_file_or_a_folder_is_one_clear_line(tmp_path: Path) -> None:
    assert run("night", str(tmp_path / "none.json")).stderr == f"Error: There is no file {tmp_path / 'none.json'}.\n"
    assert run("night", str(tmp_path)).stderr == f"Error: {tmp_path} is a folder, not a file.\n"


@pytest.mark.parametrize("what", ["document", "sheet"])
def test_the_file_formats_are_printed_as_json_schema(what: str) -> None:
    schema = json.loads(run("schema", what).output)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
