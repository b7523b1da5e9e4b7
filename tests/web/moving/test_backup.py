"""Backup and restore, between databases of either kind, while others write; what is damaged or newer is refused."""

from __future__ import annotations

import gzip
import hashlib
import json
import os
import stat
from pathlib import Path
from threading import Event, Thread
from time import sleep

import pytest
from sqlalchemy import MetaData, insert, select

from pengan.web.database import Database
from pengan.web.migrations.steps import newest_step, upgrade
from pengan.web.moving.backup import back_up
from pengan.web.moving.faults import MovingFault
from pengan.web.moving.folder import MANIFEST, Manifest, read_manifest, write_manifest, write_part
from pengan.web.moving.restore import restore
from pengan.web.moving.rows import rows_of
from pengan.web.sites.models import SiteCopy
from pengan.web.sites.operations import document_of, put_document
from web.moving.conftest import NOW, Make, a_park, content, fill, same_but_for_epochs

KINDS = ("sqlite", "postgresql")


@pytest.mark.parametrize("to", KINDS)
@pytest.mark.parametrize("of", KINDS)
def test_everything_comes_back_in_a_database_of_either_kind(make: Make, tmp_path: Path, of: str, to: str) -> None:
    held, empty = make(of), make(to)
    fill(held)
    assert all(
        content(held)[table] for table in ("edits", "night_sheets", "devices", "grants", "planning_jobs", "turns")
    )
    made = back_up(held, tmp_path / "backup", NOW)
    assert restore(empty, tmp_path / "backup") == made
    assert same_but_for_epochs(content(held), content(empty))


@pytest.mark.parametrize("kind", KINDS)
def test_a_backup_is_of_one_moment_while_others_write(make: Make, tmp_path: Path, kind: str) -> None:
    """The document always says in its notes which revision it is: in the backup the two agree, whatever came after."""
    held, empty = make(kind), make("sqlite")
    fill(held)
    done, count = Event(), 0

    def write() -> None:
        nonlocal count
        while not done.is_set():
            data = a_park()
            data["records"][0]["notes"] = f"revision {count + 3}"
            with held.session() as session:
                put_document(session, data, "ben", NOW)
            count += 1

    writer = Thread(target=write)
    writer.start()
    try:
        while count < 3:
            sleep(0.01)
        back_up(held, tmp_path / "backup", NOW)
        seen = count
        while count < seen + 2:
            sleep(0.01)
    finally:
        done.set()
        writer.join()
    restore(empty, tmp_path / "backup")
    with empty.session() as session:
        found = document_of(session, "park")
    assert found.document.site.notes == f"revision {found.revision}"
    assert len([row for row in content(empty)["edits"] if row[0] == "park" and row[2] == found.revision]) > 0


@pytest.mark.parametrize("kind", KINDS)
def test_what_came_after_the_backup_is_gone_and_phones_are_told(make: Make, tmp_path: Path, kind: str) -> None:
    held = make(kind)
    fill(held)
    before = content(held)
    back_up(held, tmp_path / "backup", NOW)
    with held.session() as session:
        put_document(session, a_park(flow_lpm=12), "ben", NOW)
        put_document(session, a_park("later"), "ben", NOW)
    with pytest.raises(MovingFault) as refused:
        restore(held, tmp_path / "backup")
    assert refused.value.message.code == "moving.not_empty"
    restore(held, tmp_path / "backup", replace=True)
    assert same_but_for_epochs(before, content(held))


def test_a_claim_of_before_does_not_come_back(make: Make, tmp_path: Path) -> None:
    held, empty = make("sqlite"), make("sqlite")
    fill(held)
    with held.engine.begin() as line:
        line.exec_driver_sql("UPDATE planning_jobs SET worker = 'gone', until = 99999999999")
    back_up(held, tmp_path / "backup", NOW)
    restore(empty, tmp_path / "backup")
    with empty.engine.connect() as line:
        assert line.exec_driver_sql("SELECT DISTINCT worker, until FROM planning_jobs").all() == [(None, None)]


@pytest.mark.parametrize("hurt", ["a byte", "the end", "a file", "the manifest", "its sum", "its end"])
def test_a_damaged_backup_is_refused_and_changes_nothing(make: Make, tmp_path: Path, hurt: str) -> None:
    held, empty = make("sqlite"), make("sqlite")
    fill(held)
    folder = tmp_path / "backup"
    back_up(held, folder, NOW)
    part, manifest = folder / "edits.jsonl.gz", folder / MANIFEST
    whole = part.read_bytes()
    if hurt == "a byte":
        part.write_bytes(whole[:50] + bytes([whole[50] ^ 1]) + whole[51:])
    elif hurt == "the end":
        part.write_bytes(whole[:-20])
    elif hurt == "a file":
        part.unlink()
    elif hurt == "the manifest":
        manifest.write_text(manifest.read_text().replace('"made_at": 17', '"made_at": 18'))
    elif hurt == "its sum":
        manifest.write_text(manifest.read_text().replace('"sha256"', '"sha512"'))
    else:
        manifest.write_bytes(manifest.read_bytes()[:-30])
    before = content(empty)
    with pytest.raises(MovingFault) as refused:
        restore(empty, folder, replace=True)
    assert refused.value.message.code == "moving.damaged"
    assert content(empty) == before


def test_rows_that_do_not_fit_their_table_are_refused_however_well_their_sums_agree(make: Make, tmp_path: Path) -> None:
    held, other = make("sqlite"), make("sqlite")
    fill(held)
    fill(other)
    folder = tmp_path / "backup"
    back_up(held, folder, NOW)
    (folder / "grants.jsonl.gz").unlink()
    wrong = write_part(folder, "grants", [{"site": "park", "colour": "red"}])
    parts = tuple(wrong if part.table == "grants" else part for part in read_parts(folder))
    (folder / MANIFEST).unlink()
    write_manifest(folder, Manifest(tuple(sorted(newest_step())), NOW, parts))
    before = content(other)
    with pytest.raises(MovingFault):
        restore(other, folder, replace=True)
    assert content(other) == before


def read_parts(folder: Path):  # type: ignore[no-untyped-def]
    from pengan.web.moving.folder import Part

    return [Part(**part) for part in json.loads((folder / MANIFEST).read_text())["parts"]]


@pytest.mark.parametrize("what", ["format", "steps"])
def test_a_newer_backup_is_refused(make: Make, tmp_path: Path, what: str) -> None:
    held, empty = make("sqlite"), make("sqlite")
    folder = tmp_path / "backup"
    back_up(held, folder, NOW)
    body = json.loads((folder / MANIFEST).read_text())
    body.pop("sha256")
    body[what] = 2 if what == "format" else ["9999"]
    body["sha256"] = hashlib.sha256(json.dumps(body, sort_keys=True).encode()).hexdigest()
    (folder / MANIFEST).write_text(json.dumps(body))
    with pytest.raises(MovingFault) as refused:
        restore(empty, folder)
    assert refused.value.message.code == "moving.newer"


@pytest.mark.parametrize("to", KINDS)
def test_a_backup_of_older_tables_takes_the_steps_that_came_since(make: Make, tmp_path: Path, to: str) -> None:
    """As a Pengan of the first step would have written it, before there were versions or people."""
    old = Database(f"sqlite:///{tmp_path / 'old.sqlite3'}")
    upgrade(old.engine, "0001")
    then = MetaData()
    then.reflect(old.engine)
    folder = tmp_path / "backup"
    folder.mkdir()
    with old.engine.begin() as line:
        line.execute(insert(then.tables["site_copies"]), {"site": "park", "format": 1, "revision": 7})
        site = {"site": "park", "id": "park", "name": "Park", "zone": "Europe/Lisbon", "row_order": 0}
        line.execute(insert(then.tables["site"]), site)
        parts = tuple(write_part(folder, table.name, rows_of(line, table)) for table in then.sorted_tables)
    old.engine.dispose()
    write_manifest(folder, Manifest(("0001",), NOW, tuple(part for part in parts if part.table != "alembic_version")))
    empty = make(to)
    restore(empty, folder)
    with empty.session() as session:
        found = document_of(session, "park")
    assert (found.revision, found.document.site.name) == (7, "Park")


def test_a_backup_never_writes_over_anything(make: Make, tmp_path: Path) -> None:
    (tmp_path / "backup").mkdir()
    (tmp_path / "backup" / "letter").write_text("dear")
    with pytest.raises(MovingFault) as refused:
        back_up(make("sqlite"), tmp_path / "backup", NOW)
    assert refused.value.message.code == "moving.folder_taken"
    assert [path.name for path in tmp_path.iterdir() if path.is_dir()] == ["backup"]


def test_a_folder_without_a_manifest_is_no_backup(make: Make, tmp_path: Path) -> None:
    with pytest.raises(MovingFault) as refused:
        restore(make("sqlite"), tmp_path)
    assert refused.value.message.code == "moving.no_backup"


@pytest.mark.skipif(os.name == "nt", reason="Windows has other rights")
def test_only_its_owner_can_read_a_backup(make: Make, tmp_path: Path) -> None:
    held = make("sqlite")
    fill(held)
    back_up(held, tmp_path / "deep" / "backup", NOW)
    folder = tmp_path / "deep" / "backup"
    assert {stat.S_IMODE(path.stat().st_mode) for path in folder.iterdir()} == {0o600}
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700


def test_a_backup_is_lines_of_json_that_anybody_can_read(make: Make, tmp_path: Path) -> None:
    held = make("sqlite")
    fill(held)
    back_up(held, tmp_path / "backup", NOW)
    with gzip.open(tmp_path / "backup" / "stations.jsonl.gz", "rt", encoding="utf-8") as lines:
        rows = [json.loads(line) for line in lines]
    assert [(row["site"], row["id"], row["row_removed"]) for row in rows][:3] == [
        ("park", "s0", False),
        ("park", "s1", False),
        ("park", "s2", True),
    ]
    assert read_manifest(tmp_path / "backup").made_at == NOW
    with held.session() as session, session.begin():
        assert session.scalars(select(SiteCopy.site)).all() == ["park", "yard"]
