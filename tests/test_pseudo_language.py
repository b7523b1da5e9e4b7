"""Runs every command in a made-up language and finds any text that escaped translation."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

import builders as made
from escapes import escaped
from pengan.cli import main
from pengan.engine.document.tables import TABLES
from pengan.engine.journal.entry import Kind
from pengan.engine.journal.fields import FIELDS
from pengan.field.asked_for import SORTS
from pengan.web.app import create_app
from pengan.web.settings import Settings
from pengan.words.languages import ACCENTED
from pengan.words.units import QUANTITIES

DATA = made.a_document_data(
    site=made.a_site(name="Zzgrounds", zone="Europe/Lisbon"),
    supplies=[
        made.a_supply("src", name="Zzwell", limit_lpm=100, lead_s=120, water="reclaimed"),
        made.a_supply("main", name="Zzmain", fed_by="src", water="reclaimed"),
    ],
    controllers=[made.a_controller("cab", name="Zzcabinet", max_open=1)],
    stations=[
        made.a_station(f"s{n}", number=f"Z{n}", name=f"Zzbed{n}", part="Zzpart", supply="main", controller="cab",
                       flow_lpm=40 * n)
        for n in (1, 2, 3)
    ],
    programs=[made.a_program("p1", name="Zzprogram", letter="Z", start="21:00")],
    turns=[
        made.a_turn("p1", "s1", run_s=1800, cycles=2, soak_s=600), made.a_turn("p1", "s2", run_s=3600),
        made.a_turn("p1", "s3", run_s=3600),
    ],
    windows=[made.a_window("w1", name="Zzwindow", opens="21:30", closes="02:30")],
    closures=[made.a_closure("k1", name="Zzclosure", starts="22:00", ends="22:30")],
)  # fmt: skip
NAMES = [str(value) for record in DATA["records"] for value in record.values()]
BROKEN = {"format": 1, "records": [{"table": "site", "id": "s"}, {"table": "zz", "id": "?"}, 7]}


@dataclass(frozen=True)
class Folder:
    """Where the commands of a test find their files."""

    path: Path

    def file(self, name: str, content: object) -> str:
        """A file of JSON."""
        target = self.path / name
        target.write_text(json.dumps(content), encoding="utf-8")
        return str(target)

    @property
    def site(self) -> str:
        """A document that has a clock change, a closure, reclaimed water and a station too large for its source."""
        return self.file("zz.json", DATA)

    @property
    def broken(self) -> str:
        """No document at all."""
        return self.file("zzbroken.json", BROKEN)


BACK, PLAIN = "2026-10-24", "2026-11-25"
CALLS: dict[str, list[Callable[[Folder], list[str]]]] = {
    "ahead": [lambda f: [f.site, "--date", BACK, "--days", "3", "--now", f"{BACK}T12:30"]],
    "backup": [lambda f: [str(f.path / "zzcopy")]],
    "check": [lambda f: [f.site], lambda f: [f.broken], lambda f: [f.site + "x"]],
    "clock": [lambda f: [f.site, "--now", f"{BACK}T12:30"], lambda f: [f.broken]],
    "export": [lambda f: ["park", str(f.path / "zzmoved.json")]],
    "field": [
        lambda f: [f.site],
        lambda f: [f.site, "--date", PLAIN, "--print", "--at-once", "--begin", "11:50", "--trouble", "dead Z1"],
        lambda f: [f.site, "--date", PLAIN, "--print", "--trouble", "flood"],
        lambda f: [f.site, "--date", PLAIN, "--print", "--trouble", "dead Z1 flow=3"],
        lambda f: [f.site, "--date", PLAIN, "--print", "--trouble", "leak main"],
        lambda f: [f.site, "--date", PLAIN, "--print", "--trouble", "break nowhere flow=3"],
        lambda f: [f.site, "--date", PLAIN, "--print", "--trouble", "power from=20:00 until=19:00"],
        lambda f: [f.site, "--date", PLAIN, "--to", "zz://zz"],
        lambda f: [f.site, "--date", PLAIN, "--to", "http://127.0.0.1:9"],
        lambda f: [f.site, "--sheet", f.broken, "--print"],
    ],
    "import": [
        lambda f: [str(f.path / "no.xlsx")],
        lambda f: [f.site],
        lambda f: [_book(f), "--dry-run"],
    ],
    "invite": [lambda f: ["park", "--role", "zz"], lambda f: ["park", "--role", "crew"]],
    "jobs": [lambda f: ["zz"], lambda f: []],
    "journal": [
        lambda f: [f.site],
        lambda f: [f.site + "x", "--site", "site"],
        lambda f: [f.site, "--site", "site", "--always", "zz"],
        lambda f: [f.site, "--site", "site", "--unit", "flow_lpm=zz"],
    ],
    "listen": [lambda f: ["zz"], lambda f: []],
    "load": [lambda f: [f.site]],
    "need": [
        lambda f: [f.site, "--date", PLAIN],
        lambda f: [f.site, "--turn", "nowhere"],
        lambda f: [f.site, "--hydrozone", "nowhere"],
        lambda f: [f.site, "--csv"],
        lambda f: [f.broken],
    ],
    "night": [
        lambda f: [f.site, "--date", BACK, "--now", f"{BACK}T22:40", "--effort", "1"],
        lambda f: [f.site, "--date", PLAIN, "--now", f"{PLAIN}T23:10", "--effort", "1", "--hours", "12"],
        lambda f: [f.site, "--date", "2026-02-30"],
        lambda f: [f.site, "--date", "3026-02-03"],
        lambda f: [f.site, "--now", "soon"],
        lambda f: [f.site, "--before", f.site],
        lambda f: [f.site, "--effort", "0"],
        lambda f: [f.site, "--units", "cubits"],
        lambda f: [f.site, "--dat"],
        lambda f: [f.broken],
        lambda f: [f.site + "x"],
        lambda f: [str(f.path)],
        lambda f: [],
        lambda f: [f.site, f.site],
    ],
    "restore": [lambda f: [str(f.path)]],
    "schema": [lambda f: ["zz"]],
    "serve": [lambda f: ["--port", "0"], lambda f: ["--port"], lambda f: []],
    "template": [lambda f: [str(f.path / "zz.doc")], lambda f: [str(f.path / "zznew.xlsx")]],
    "used": [
        lambda f: [f.site, "--month", "2026-07", "--from", PLAIN],
        lambda f: [f.site, "--month", "zz"],
        lambda f: [f.site, "--to", "zz"],
        lambda f: [f.site, "--csv", f.site],
    ],
    "watch": [lambda f: ["zz"], lambda f: []],
    "why": [
        lambda f: [f.site, "Z1", "--date", BACK, "--effort", "1"],
        lambda f: [f.site, "Zzbed3", "--date", PLAIN, "--effort", "1"],
        lambda f: [f.site, "nowhere"],
    ],
}  # fmt: skip


def _book(folder: Folder) -> str:
    """An empty book, as the template command writes it."""
    target = folder.path / "zzbook.xlsx"
    if not target.exists():
        CliRunner().invoke(main, ["template", str(target)])
    return str(target)


def _commands() -> list[str]:
    return main.list_commands(click.Context(main))  # type: ignore[attr-defined]


def test_every_command_is_called_here() -> None:
    assert sorted(CALLS) == _commands()


@pytest.mark.parametrize("call", [None, *sorted(CALLS)])
def test_no_text_of_the_help_escapes(call: str | None) -> None:
    output = _run([*([call] if call else []), "--help"])
    assert list(escaped(output, _named_by_us())) == []


@pytest.mark.parametrize(
    ("name", "call"), [(name, call) for name, calls in sorted(CALLS.items()) for call in range(len(calls))]
)
def test_no_text_of_a_command_escapes(name: str, call: int, tmp_path: Path) -> None:
    folder = Folder(tmp_path)
    arguments = CALLS[name][call](folder)
    output = _run([name, *arguments])
    assert "⟦" in output
    assert list(escaped(output, {*_named_by_us(), *arguments, str(tmp_path)})) == []


MOVING = [
    ["invite", "site", "--role", "crew"],
    ["invite", "nowhere", "--role", "crew"],
    ["export", "site", "zzmoved.json"],
    ["export", "nowhere", "zzother.json"],
    ["load", "zzmoved.json"],
    ["load", "zzmoved.json", "--replace"],
    ["load", "zz.json"],
    ["load", "zznone.json"],
    ["backup", "zzcopy"],
    ["backup", "zzcopy"],
    ["restore", "zzcopy"],
    ["restore", "zzcopy", "--replace"],
    ["restore", "zznone"],
    ["listen"],
    ["journal", "zzmeter.csv", "--site", "site", "--always", "kind=flow"],
    ["journal", "zzmeter.csv", "--site", "nowhere", "--always", "kind=flow"],
    ["used", "site"],
    ["used", "site", "--month", "2026-07", "--by", "supply"],
    ["used", "site", "--from", "2026-07-11", "--to", "2026-07-10"],
    ["used", "site", "--csv", "zzused.csv"],
    ["used", "nowhere"],
]


def test_no_text_of_the_commands_that_use_the_database_escapes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """One after the other, over one data folder, with what goes well and what goes wrong."""
    monkeypatch.chdir(tmp_path)
    create_app(Settings(data=tmp_path / "data", first_document=Path(Folder(tmp_path).site), effort=1))
    Path("zzmeter.csv").write_text("at,supply,flow_lpm,zz\n2026-07-10T22:00:00Z,src,zz,\n")
    for words in MOVING:
        output = _run(words, PENGAN_EFFORT="1", PENGAN_DATA="data")
        assert "⟦" in output, words
        told = re.sub(r"[A-Z0-9]{5}-[A-Z0-9]{5}|http://\S+", "", output)
        assert list(escaped(told, {*_named_by_us(), *words})) == [], words


def test_text_that_was_not_translated_is_found() -> None:
    assert list(escaped("⟦Ñíğĥţ ~⟧ Zzbed1 tonight 23:42", {"Zzbed1"})) == ["tonight"]


def _run(arguments: list[str], **environ: str) -> str:
    """What a command says; with an effort that is none, unless told otherwise, so that none begins to serve."""
    result = CliRunner().invoke(main, arguments, env={"PENGAN_LANGUAGE": ACCENTED, "PENGAN_EFFORT": "zz", **environ})
    if result.exception and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result.output


def _named_by_us() -> set[str]:
    """Words that are the same in every language: commands, options and their choices, tables and fields, zones."""
    named = {
        "pengan",
        *NAMES,
        "Europe/Lisbon",
        "UTC",
        "JSON",
        "metric us imperial flow",
        "document sheet entries orders",
        "manager lead crew",
        "manifest json",
        "PENGAN_",
    }
    for command in (main, *(main.get_command(click.Context(main), name) for name in _commands())):  # type: ignore[attr-defined]
        named |= {str(command.name), *(option for param in command.params for option in param.opts)}
    for kind, sort in SORTS.items():
        named |= {kind, *sort.parts, sort.example}
    named |= {"field", *FIELDS, *(kind.value for kind in Kind)}
    for table in TABLES:
        named |= {table.table, *table.__dataclass_fields__}
    return named | set(QUANTITIES) | {unit for quantity in QUANTITIES.values() for unit in quantity.units}
