"""One site taken to another server, with its history."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from sqlalchemy import select

from pengan.engine.document.fault import DocumentFaults
from pengan.engine.document.write import write_document
from pengan.engine.journal.entry import Entry, Kind
from pengan.web.alarms.models import Alarm, Watched
from pengan.web.alarms.watching import Watcher
from pengan.web.catch_up.models import CaughtUp
from pengan.web.journal.finding import newest_number
from pengan.web.journal.models import Reporter
from pengan.web.journal.names import names_of_tellers
from pengan.web.journal.storing import store
from pengan.web.moving.faults import MovingFault
from pengan.web.moving.load import load_site
from pengan.web.moving.site_file import SiteFile, read_site, write_site
from pengan.web.need.models import WeatherStation
from pengan.web.people.teams import team_of
from pengan.web.problems import Problem
from pengan.web.sites.operations import document_of, put_document
from pengan.web.sync.answering import names_of
from web.moving.conftest import NOW, Make, a_park, content, fill

KINDS = ("sqlite", "postgresql")
MOVED = (
    "journal_entries",
    "journal_aside",
    "journal_heads",
    "alarms",
    "alarm_looks",
    "learned_flows",
    "watched_nights",
    "used_heads",
    "used_nights",
    "used_water",
    "used_meters",
    "edits",
    "waiting_edits",
    "stations",
    "supplies",
    "turns",
    "programs",
    "site",
)


def written(make: Make, folder: Path, kind: str = "sqlite") -> Path:
    held = make(kind)
    fill(held)
    with held.session() as session:
        write_site(session, "park", folder / "park.jsonl", NOW)
    return folder / "park.jsonl"


def of_park(found: dict[str, list[tuple[object, ...]]]) -> dict[str, list[tuple[object, ...]]]:
    return {table: [row for row in found[table] if row[0] == "park"] for table in MOVED}


@pytest.mark.parametrize("to", KINDS)
@pytest.mark.parametrize("of", KINDS)
def test_a_site_moves_with_its_history_and_removed_records(make: Make, tmp_path: Path, of: str, to: str) -> None:
    held, other = make(of), make(to)
    fill(held)
    with held.session() as session:
        write_site(session, "park", tmp_path / "park.jsonl", NOW)
        document = document_of(session, "park")
    with other.session() as session:
        assert load_site(session, read_site(tmp_path / "park.jsonl"), NOW) == document.revision
        assert document_of(session, "park") == document
    assert of_park(content(held)) == of_park(content(other))
    assert len(of_park(content(other))["stations"]) == 3
    assert [len(of_park(content(other))[table]) for table in ("used_nights", "used_water", "used_meters")] == [1, 1, 1]
    assert [row[0] for row in content(other)["planning_jobs"]] == ["park"]


def test_the_document_in_the_file_is_the_one_the_server_serves(make: Make, tmp_path: Path) -> None:
    file = written(make, tmp_path)
    lines = [json.loads(line) for line in file.read_text("utf-8").splitlines()]
    assert (lines[0]["pengan"], lines[0]["site"], list(lines[1])) == ("site", "park", ["document"])
    again = make("sqlite")
    with again.session() as session:
        load_site(session, read_site(file), NOW)
        assert lines[1]["document"] == write_document(document_of(session, "park").document)


def test_people_of_the_history_come_along_as_names_without_rights(make: Make, tmp_path: Path) -> None:
    held, other = make("sqlite"), make("sqlite")
    fill(held)
    with held.session() as session:
        put_document(session, a_park(flow_lpm=20), "ana-park", NOW)
        write_site(session, "park", tmp_path / "park.jsonl", NOW)
    with other.session() as session:
        load_site(session, read_site(tmp_path / "park.jsonl"), NOW)
    found = content(other)
    people = {row[1]: (row[2], row[-1]) for row in found["people"]}
    told = {f"{name}-park": (name.title(), NOW) for name in ("rui", "eva", "bo")}
    assert people == {"ana-park": ("Ana Ñ", NOW)} | told
    assert found["grants"] == found["devices"] == []


def test_weather_stations_of_the_history_come_along_as_names_without_a_token(make: Make, tmp_path: Path) -> None:
    """Twice, as a site that is taken in anew: the names that are there already stay."""
    held, other = make("sqlite"), make("sqlite")
    fill(held)
    with held.session() as session:
        with session.begin():
            team = team_of(session, "park")
            session.add_all(
                WeatherStation(
                    team=team, id=name.lower(), site="park", name=name, token_hash="a" * 64, made_by="", made_at=NOW
                )
                for name in ("Mast", "Silent")
            )
        put_document(session, a_park(flow_lpm=20), "mast", NOW)
        write_site(session, "park", tmp_path / "park.jsonl", NOW)
    file = read_site(tmp_path / "park.jsonl")
    assert file.weather_stations == {"mast": "Mast"}
    for again in (False, True):
        with other.session() as session:
            load_site(session, file, NOW, replace=again)
    with other.session() as session:
        assert names_of(session, ["mast"]) == {"mast": "Mast"}
        found = session.scalars(select(WeatherStation)).one()
        assert (found.site, found.token_hash, found.ended_at) == ("park", "0" * 64, NOW)


def test_the_journal_moves_with_the_names_of_who_told_it(make: Make, tmp_path: Path) -> None:
    """Once more over what came meanwhile; an old token opens nothing there."""
    held, other = make("sqlite"), make("postgresql")
    fill(held)
    with held.session() as session:
        write_site(session, "park", tmp_path / "park.jsonl", NOW)
    file = read_site(tmp_path / "park.jsonl")
    assert file.reporters == {"gate-cabinet": "Gate"}
    assert "journal_entries" not in file.rows
    for again in (False, True):
        with other.session() as session:
            load_site(session, file, NOW, replace=again)
        assert of_park(content(held)) == of_park(content(other))
        assert [len(content(other)[table]) for table in ("journal_entries", "journal_aside")] == [1200, 1]
        entry = Entry("entry-late", NOW - 5, Kind.LIFTED, "person:ana-park")
        with other.session() as session, session.begin():
            assert store(session, "park", [entry], NOW) == ["taken"]
            assert newest_number(session, "park") == 1201
    with other.session() as session:
        assert names_of_tellers(session, ["reporter:gate-cabinet"]) == {"reporter:gate-cabinet": "Gate"}
        assert session.scalars(select(Reporter.ended_at)).all() == [NOW]


@pytest.mark.parametrize("to", KINDS)
def test_alarms_and_accepted_rests_move_once_however_often_they_are_taken_in(
    make: Make, tmp_path: Path, to: str
) -> None:
    """With what people saw, explained and accepted. What the other server had in hand stays behind: who was watching,
    its orders to shut a valve, and which of its sheets knew of a rest."""
    held, other = make("sqlite"), make(to)
    fill(held)
    with held.session() as session:
        write_site(session, "park", tmp_path / "park.jsonl", NOW)
    file = read_site(tmp_path / "park.jsonl")
    for again in (False, True):
        with other.session() as session:
            load_site(session, file, NOW, replace=again)
        found = content(other)
        assert of_park(content(held)) == of_park(found)
        assert [len(found[table]) for table in ("alarms", "alarm_looks", "caught_up", "orders")] == [2, 1, 1, 0]
        with other.session() as session, session.begin():
            rest = session.scalars(select(CaughtUp)).one()
            assert (rest.by, rest.way, rest.worked_out, rest.effect) == (
                "person:bo-park", "recover", False, '{"missed_l": 3}',
            )  # fmt: skip
            watched = session.scalars(select(Watched)).one()
            assert (watched.night, watched.looked, watched.changes) == ("2026-10-01", 1200, 2)
            assert (watched.worker, watched.until, watched.looked_at, watched.due) == (None, None, 0, 0)
            assert names_of(session, ["rui-park", "eva-park", "bo-park"]) == {
                "rui-park": "Rui", "eva-park": "Eva", "bo-park": "Bo",
            }  # fmt: skip


def test_whoever_watches_there_goes_on_and_opens_nothing_twice(make: Make, tmp_path: Path) -> None:
    held, other = make("sqlite"), make("sqlite")
    fill(held)
    with held.session() as session:
        write_site(session, "park", tmp_path / "park.jsonl", NOW)
    with other.session() as session:
        load_site(session, read_site(tmp_path / "park.jsonl"), NOW)
        looked = Watcher("there", clock=lambda: float(NOW)).look_once(session, NOW)
        assert looked is not None and looked.site == "park" and looked.fault is None
        assert [one.id for one in session.scalars(select(Alarm).order_by(Alarm.id))] == ["alarm-0001", "alarm-0002"]


def test_a_site_that_is_here_is_replaced_only_if_asked(make: Make, tmp_path: Path) -> None:
    file, other = written(make, tmp_path), make("sqlite")
    with other.session() as session:
        put_document(session, a_park(flow_lpm=99), "", NOW)
        with pytest.raises(MovingFault) as refused:
            load_site(session, read_site(file), NOW)
        assert refused.value.message.code == "moving.site_there"
        assert document_of(session, "park").document.stations["s0"].flow_lpm == 99
        load_site(session, read_site(file), NOW, replace=True)
        assert document_of(session, "park").document.stations["s0"].flow_lpm == 30


def test_there_is_no_file_of_a_site_that_is_not_here(make: Make, tmp_path: Path) -> None:
    with make("sqlite").session() as session, pytest.raises(Problem):
        write_site(session, "nowhere", tmp_path / "none.jsonl", NOW)
    assert [path.name for path in tmp_path.iterdir() if "none" in path.name] == []


@pytest.mark.parametrize(
    ("hurt", "code"),
    [
        ("cut", "moving.damaged"),
        ("a letter", "moving.damaged"),
        ("a line less", "moving.damaged"),
        ("empty", "moving.not_ours"),
        ("another file", "moving.not_ours"),
        ("no lines", "moving.not_ours"),
    ],
)
def test_a_damaged_file_is_refused(make: Make, tmp_path: Path, hurt: str, code: str) -> None:
    file = written(make, tmp_path)
    whole = file.read_bytes()
    lines = whole.splitlines(keepends=True)
    file.write_bytes(
        {
            "cut": whole[:-40],
            "a letter": whole.replace(b'"s1"', b'"s9"', 1),
            "a line less": b"".join(lines[:5] + lines[6:]),
            "empty": b"",
            "another file": b'{"format": 1, "records": []}',
            "no lines": b"\xff\xfe nothing",
        }[hurt]
    )
    with pytest.raises(MovingFault) as refused:
        read_site(file)
    assert refused.value.message.code == code


def signed(file: Path, lines: list[bytes]) -> Path:
    """A file whose sum agrees, whatever is in it."""
    import hashlib

    last = {"lines": len(lines), "sha256": hashlib.sha256(b"".join(lines)).hexdigest()}
    file.write_bytes(b"".join(lines) + json.dumps(last).encode())
    return file


def test_rows_that_do_not_give_the_document_are_refused(make: Make, tmp_path: Path) -> None:
    lines = written(make, tmp_path).read_bytes().splitlines(keepends=True)[:-1]
    rows = [line.replace(b'"flow_lpm":30', b'"flow_lpm":31') if b'"row"' in line else line for line in lines]
    assert rows != lines
    other = make("postgresql")
    with other.session() as session, pytest.raises(MovingFault):
        load_site(session, read_site(signed(tmp_path / "wrong.jsonl", rows)), NOW)
    assert content(other)["site_copies"] == []


def test_rows_of_another_site_are_refused(make: Make, tmp_path: Path) -> None:
    lines = written(make, tmp_path).read_bytes().splitlines(keepends=True)[:-1]
    wrong = [*lines[:-1], lines[-1].replace(b'"site":"park"', b'"site":"yard"')]
    with pytest.raises(MovingFault):
        read_site(signed(tmp_path / "wrong.jsonl", wrong))


def test_a_document_with_faults_names_them_all(make: Make, tmp_path: Path) -> None:
    lines = written(make, tmp_path).read_bytes().splitlines(keepends=True)[:-1]
    lines[1] = lines[1].replace(b'"flow_lpm":30', b'"flow_lpm":-5')
    with pytest.raises(DocumentFaults) as found:
        read_site(signed(tmp_path / "wrong.jsonl", lines))
    assert len(found.value.faults) == 2


@pytest.mark.parametrize("change", [(b'"format":1,"site"', b'"format":2,"site"'), (b'"steps":["', b'"steps":["9')])
def test_a_newer_file_is_refused(make: Make, tmp_path: Path, change: tuple[bytes, bytes]) -> None:
    lines = written(make, tmp_path).read_bytes().splitlines(keepends=True)[:-1]
    lines[0] = lines[0].replace(*change)
    with pytest.raises(MovingFault) as refused:
        read_site(signed(tmp_path / "newer.jsonl", lines))
    assert refused.value.message.code == "moving.newer"


def test_a_file_that_was_read_says_what_it_holds(make: Make, tmp_path: Path) -> None:
    found = read_site(written(make, tmp_path))
    assert isinstance(found, SiteFile)
    assert (found.site, len(found.rows["stations"]), found.document.site.id) == ("park", 3, "park")
