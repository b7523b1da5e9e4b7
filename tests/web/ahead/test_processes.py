"""Real job processes over one database: they share the sites, and killing one of them loses nothing."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from sqlalchemy import func, select, update

from pengan.web.ahead.children import Children
from pengan.web.ahead.models import PlanningJob
from pengan.web.nights.models import StoredSheet
from web.ahead.conftest import Jobs, a_garden

SERVER = Path(__file__).parents[3] / "server"
SITES = [f"site-{number:02}" for number in range(20)]
PATIENCE_S = 90


def environment(url: str, folder: Path) -> dict[str, str]:
    return os.environ | {
        "PYTHONPATH": str(SERVER),
        "PENGAN_DATABASE": url,
        "PENGAN_DATA": str(folder),
        "PENGAN_NOW": "2026-07-14T21:00:00+01:00",
        "PENGAN_EFFORT": "4",
        "PENGAN_LOG": "info",
    }


@contextmanager
def job_processes(count: int, url: str, folder: Path) -> Iterator[list[subprocess.Popen[bytes]]]:
    command = [sys.executable, "-m", "pengan", "jobs", "--with-parent"]
    words = environment(url, folder)
    started = [
        subprocess.Popen(command, env=words, stdin=subprocess.PIPE, stderr=(folder / f"{number}.log").open("wb"))
        for number in range(count)
    ]
    try:
        yield started
    finally:
        for process in started:
            process.kill()
            process.communicate()


def wait_for(true: Callable[[], bool], process: subprocess.Popen[bytes] | None = None) -> None:
    until = time.monotonic() + PATIENCE_S
    while not true():
        assert time.monotonic() < until, "it never came to that"
        time.sleep(0.02)


def stored(jobs: Jobs) -> int:
    with jobs.database.session() as session, session.begin():
        return session.scalar(select(func.count()).select_from(StoredSheet)) or 0


def all_done(jobs: Jobs) -> bool:
    with jobs.database.session() as session, session.begin():
        rested = select(func.count()).where(PlanningJob.due > jobs.now, PlanningJob.worker.is_(None))
        return session.scalar(rested) == len(SITES)


def lease_runs_out(jobs: Jobs) -> None:
    """As if two minutes had gone by since the last sheet of a process that is no more."""
    with jobs.database.session() as session, session.begin():
        session.execute(update(PlanningJob).values(until=0))


def planned_by(folder: Path, number: int) -> int:
    return (folder / f"{number}.log").read_text("utf-8").count('"event": "site planned"')


def test_two_share_twenty_sites_and_one_is_killed(jobs: Jobs, url: str, tmp_path: Path) -> None:
    """Every sheet of every site is there, and was worked out once: a site gives out as many numbers as it has sheets,
    and one more where tonight was improved upon."""
    for site in SITES:
        jobs.put(a_garden(site))
    with job_processes(2, url, tmp_path) as (one, other):
        wait_for(lambda: stored(jobs) >= 60 and planned_by(tmp_path, 0) > 0 and planned_by(tmp_path, 1) > 0)
        one.send_signal(getattr(signal, "SIGKILL", signal.SIGTERM))
        one.wait()
        with jobs.database.session() as session, session.begin():
            assert session.scalar(select(func.count()).where(PlanningJob.due <= jobs.now)) or 0 > 0
        lease_runs_out(jobs)
        wait_for(lambda: all_done(jobs))
        assert planned_by(tmp_path, 1) > planned_by(tmp_path, 0)
        assert other.poll() is None
    with jobs.database.session() as session, session.begin():
        counted = select(StoredSheet.site, func.count(), func.min(StoredSheet.revision)).group_by(StoredSheet.site)
        assert {row[0]: (row[1], row[2]) for row in session.execute(counted)} == dict.fromkeys(SITES, (14, 1))
        numbered = session.execute(select(PlanningJob.site, PlanningJob.numbered)).all()
    assert {number for _site, number in numbered} <= {14, 15}, numbered


def test_a_job_process_ends_with_whoever_started_it_and_gives_back_what_it_holds(
    jobs: Jobs, url: str, tmp_path: Path
) -> None:
    for site in SITES:
        jobs.put(a_garden(site))
    with job_processes(1, url, tmp_path) as (process,):
        wait_for(lambda: stored(jobs) >= 3)
        assert process.stdin is not None
        process.stdin.close()
        assert process.wait(PATIENCE_S) == 0
    with jobs.database.session() as session, session.begin():
        assert session.scalar(select(func.count()).where(PlanningJob.worker.is_not(None))) == 0
    assert not all_done(jobs)


@pytest.mark.skipif(os.name == "nt", reason="Windows has no SIGTERM that a process could hear")
def test_a_job_process_stops_at_a_signal(jobs: Jobs, url: str, tmp_path: Path) -> None:
    with job_processes(1, url, tmp_path) as (process,):
        wait_for(lambda: "job process started" in (tmp_path / "0.log").read_text("utf-8"))
        process.send_signal(signal.SIGTERM)
        assert process.wait(PATIENCE_S) == 0


def test_a_child_that_dies_is_started_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("pengan.web.ahead.children.AGAIN_AFTER_S", 0.01)
    monkeypatch.setattr("pengan.web.ahead.children.LOOK_EVERY_S", 0.01)

    def reader() -> subprocess.Popen[bytes]:
        return subprocess.Popen([sys.executable, "-c", "import sys; sys.stdin.read()"], stdin=subprocess.PIPE)

    with Children(2, start=reader) as children:
        first = children.running
        os.kill(first[0], signal.SIGTERM)
        wait_for(lambda: len(children.running) == 2 and children.running != first)
        last = list(children._children)
    assert [child.returncode for child in last] == [0, 0]
