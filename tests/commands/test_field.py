"""`pengan field`: a night played from the command line, printed and sent."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

import builders as made
from field.line.test_over_http import serving, taken
from pengan.cli import main

DAY = "2026-11-25"


@pytest.fixture
def site(tmp_path: Path) -> str:
    """A well with two mains and a station on each."""
    data = made.a_document_data(
        supplies=[
            made.a_supply("well", name="Old well", limit_lpm=100),
            made.a_supply("north", name="Main North", fed_by="well"),
        ],
        controllers=[made.a_controller("cab", name="Cabinet North")],
        stations=[made.a_station("s1", number="104", name="Lawn", supply="north", controller="cab", flow_lpm=60)],
        programs=[made.a_program("p1", start="22:00")],
        turns=[made.a_turn("p1", "s1", run_s=3600)],
    )
    path = tmp_path / "site.json"
    path.write_text(json.dumps(data), encoding="utf-8")
    return str(path)


@pytest.fixture
def token(tmp_path: Path) -> str:
    """The file of a reporter's token."""
    path = tmp_path / "token"
    path.write_text("team.reporter.secret\n", encoding="utf-8")
    return str(path)


def run(*arguments: str) -> Result:
    environ = {"PENGAN_LANGUAGE": "en-GB", "PENGAN_UNITS": None, "PENGAN_HOURS": None}
    return CliRunner().invoke(main, ["field", *arguments], env=environ, catch_exceptions=False)


def printed(*arguments: str) -> list[dict[str, object]]:
    result = run(*arguments, "--date", DAY, "--print", "--at-once")
    assert result.exit_code == 0, result.stderr
    return [json.loads(line) for line in result.stdout.splitlines()]


def test_a_night_is_printed_as_json_lines(site: str) -> None:
    entries = printed(site)
    assert [entry["kind"] for entry in entries if "station" in entry] == ["opened", "closed"]
    assert {entry["supply"] for entry in entries if entry["kind"] == "flow"} == {"well", "north"}
    assert "entries told." in run(site, "--date", DAY, "--print", "--at-once").stderr


def test_the_same_seed_prints_the_same_field(site: str) -> None:
    assert printed(site) == printed(site)
    assert printed(site) != printed(site, "--seed", "2")


def test_troubles_meters_and_their_rhythm_are_as_asked(site: str) -> None:
    entries = printed(site, "--meter", "Main North", "--every", "5 min", "--trouble", "leak north flow=10 L/min")
    flows = [entry for entry in entries if entry["kind"] == "flow"]
    assert {entry["supply"] for entry in flows} == {"north"}
    assert len(flows) == 24 * 12
    assert all(entry["flow_lpm"] >= 9 for entry in flows)  # type: ignore[operator]


def test_what_power_held_back_is_printed_when_it_is_told(site: str) -> None:
    entries = printed(site, "--trouble", "power cab from=22:10 for=20 min")
    lost = next(n for n, entry in enumerate(entries) if entry["kind"] == "power_lost")
    assert entries[lost]["at"] < entries[lost - 1]["at"]  # type: ignore[operator]


def test_a_night_can_be_begun_late(site: str) -> None:
    whole, late = printed(site), printed(site, "--begin", "22:30")
    assert 0 < len(late) < len(whole)
    assert whole[-len(late) :] == late


def test_a_fast_night_ends(site: str) -> None:
    """A hundred thousand times as fast, a day takes a second."""
    result = run(site, "--date", DAY, "--print", "--speed", "100000")
    assert len(result.stdout.splitlines()) == len(printed(site))


def test_a_sheet_of_ones_own_is_played(site: str, tmp_path: Path) -> None:
    environ = {"PENGAN_LANGUAGE": "en-GB"}
    sheet = json.loads(CliRunner().invoke(main, ["night", site, "--date", DAY, "--json"], env=environ).stdout)
    path = tmp_path / "sheet.json"
    path.write_text(json.dumps(sheet), encoding="utf-8")
    opened = [entry["at"] for entry in printed(site, "--sheet", str(path)) if entry["kind"] == "opened"]
    assert opened == [run["start"] for run in sheet["runs"]]
    path.write_text(json.dumps(sheet | {"site": "elsewhere"}), encoding="utf-8")
    assert "is a sheet of another site" in run(site, "--sheet", str(path), "--print").stderr


def test_entries_are_sent_and_what_became_of_them_is_told(site: str, token: str) -> None:
    with serving(taken("taken", "taken", "known", "aside"), taken("taken")) as server:
        address = f"http://127.0.0.1:{server.server_port}"
        result = run(site, "--date", DAY, "--at-once", "--to", address, "--token-file", token)
    assert result.exit_code == 0, result.stderr
    assert len(server.heard) > 1
    assert server.heard[0][1] == "Bearer team.reporter.secret"
    assert "1 of them was known already." in result.stderr
    assert "1 of them was kept aside; the site's journal says why." in result.stderr


def test_a_server_that_turns_entries_away_ends_it(site: str, token: str) -> None:
    with serving((401, {"title": "No."})) as server:
        address = f"http://127.0.0.1:{server.server_port}"
        result = run(site, "--date", DAY, "--at-once", "--to", address, "--token-file", token)
    assert result.exit_code == 1
    assert f"{address} turned the entries away: 401 No." in result.stderr


@pytest.mark.parametrize(
    ("arguments", "status", "told"),
    [
        ([], 2, "Say where it goes: either --print, or --to with an address."),
        (["--print", "--to", "http://127.0.0.1"], 2, "Say where it goes"),
        (["--to", "http://127.0.0.1"], 2, "give --token-file"),
        (["--to", "ftp://here", "--token-file", "TOKEN"], 1, "“ftp://here” is no address of a server or a broker."),
        (["--to", "mqtt://", "--token-file", "TOKEN"], 1, "is no address"),
        (["--to", "http://127.0.0.1", "--token-file", "nowhere"], 1, "There is no file nowhere."),
        (["--to", "https://127.0.0.1", "--token-file", "TOKEN", "--ca-file", "none"], 1, "none cannot be read"),
        (["--print", "--trouble", "flood"], 1, "flood is no trouble that can be played."),
        (["--print", "--meter", "nowhere"], 1, "There is no supply nowhere in this document."),
        (["--print", "--every", "often"], 1, "is not a length of time"),
        (["--print", "--begin", "late"], 1, "is no time of day"),
        (["--print", "--date", "3026-01-01"], 1, "Nights can be worked out from"),
    ],
)
def test_what_cannot_be_is_one_clear_line(site: str, token: str, arguments: list[str], status: int, told: str) -> None:
    result = run(site, *(token if word == "TOKEN" else word for word in arguments))
    assert result.exit_code == status
    assert told in result.stderr
