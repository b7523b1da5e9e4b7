"""`pengan serve` as a process: TLS, several workers, job processes beside them, and a stop that loses nothing."""

from __future__ import annotations

import http.client
import json
import os
import signal
import socket
import sqlite3
import ssl
import subprocess
import sys
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path

import pytest
import trustme
from click.testing import CliRunner
from flask import Flask

from pengan.cli import main
from pengan.commands.serve import _first_steps
from pengan.web.app import create_app
from pengan.web.extensions import KEY
from pengan.web.settings import Settings

SERVER = Path(__file__).parents[2] / "server"
DEMO = Path(__file__).parents[2] / "fixtures" / "demo" / "site.json"
ADDRESS = "127.0.0.1"
PATIENCE_S = 60


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind((ADDRESS, 0))
        port: int = probe.getsockname()[1]
        return port


class Served:
    """A server in a folder of its own, with a certificate that only this test trusts."""

    def __init__(self, folder: Path, **environment: str) -> None:
        self.folder, self.port = folder, free_port()
        authority = trustme.CA()
        certificate = authority.issue_cert(ADDRESS)
        certificate.cert_chain_pems[0].write_to_path(folder / "certificate.pem")
        certificate.private_key_pem.write_to_path(folder / "key.pem")
        self.trust = ssl.create_default_context()
        authority.configure_trust(self.trust)
        words = {
            "PYTHONPATH": str(SERVER),
            "PENGAN_DATA": str(folder / "data"),
            "PENGAN_FIRST_DOCUMENT": str(DEMO),
            "PENGAN_TLS_CERTIFICATE": str(folder / "certificate.pem"),
            "PENGAN_TLS_KEY": str(folder / "key.pem"),
            "PENGAN_LOG": "info",
            "PENGAN_NOW": "2026-10-24T23:30:00+01:00",
        }
        self.process = subprocess.Popen(
            [sys.executable, "-m", "pengan", "serve", "--port", str(self.port)],
            env={**os.environ, **words, **environment},
            stdout=(folder / "said").open("wb"),
            stderr=(folder / "log").open("wb"),
        )

    def ask(self, path: str, **headers: str) -> tuple[int, bytes]:
        line = http.client.HTTPSConnection(ADDRESS, self.port, timeout=PATIENCE_S, context=self.trust)
        line.request("GET", path, headers=headers)
        answer = line.getresponse()
        return answer.status, answer.read()

    def answers(self) -> bool:
        try:
            return self.ask("/ready")[0] == 200
        except OSError:
            return False

    def logged(self) -> list[dict[str, object]]:
        lines = (self.folder / "log").read_text("utf-8").splitlines()
        return [json.loads(line) for line in lines if line.startswith("{")]


@contextmanager
def served(folder: Path, **environment: str) -> Iterator[Served]:
    found = Served(folder, **environment)
    try:
        wait_for(found.answers, found)
        yield found
    finally:
        found.process.kill()
        found.process.wait()


def wait_for(true: object, found: Served) -> None:
    until = time.monotonic() + PATIENCE_S
    while not true():  # type: ignore[operator]
        ended = found.process.poll() is not None
        assert not ended and time.monotonic() < until, (found.folder / "log").read_text("utf-8")
        time.sleep(0.05)


def planned(found: Served) -> list[tuple[object, ...]]:
    with sqlite3.connect(found.folder / "data" / "pengan.sqlite3") as line:
        return line.execute("SELECT planned, numbered > 0, worker FROM planning_jobs").fetchall()


@pytest.mark.skipif(os.name == "nt", reason="Windows has no SIGTERM that a process could hear")
def test_it_serves_by_https_plans_ahead_and_stops_without_losing_anything(tmp_path: Path) -> None:
    """A night that takes a second or two to work out is asked for just before the server is told to stop."""
    with served(tmp_path, PENGAN_WORKERS="2") as found:
        wait_for(lambda: (tmp_path / "said").read_text("utf-8").endswith("\n"), found)
        assert (tmp_path / "said").read_text("utf-8").splitlines()[0] == f"Pengan is at https://{ADDRESS}:{found.port}/"
        wait_for(lambda: planned(found) == [(1, 1, None)], found)
        ways_in = [line for line in (tmp_path / "said").read_text("utf-8").splitlines() if "/join#" in line]
        assert len(ways_in) == 1, "two workers, and one of them says it"
        status, body = found.ask("/api/sites/quinta-das-mares/nights")
        assert (status, len(json.loads(body)["sheets"])) == (200, 14)
        for _time in range(8):
            found.ask("/api/clock")
        counted = found.ask("/metrics")[1].decode()
        assert 'pengan_requests_total{method="GET",route="/api/clock",status="200"} 8.0' in counted
        with ThreadPoolExecutor(1) as pool:
            slow = pool.submit(found.ask, "/api/sites/quinta-das-mares/nights/2027-07-07")
            wait_for(lambda: slow.running(), found)
            time.sleep(0.3)
            found.process.send_signal(signal.SIGTERM)
            status, body = slow.result(PATIENCE_S)
        assert (status, json.loads(body)["night"]) == (200, "2027-07-07")
        assert found.process.wait(PATIENCE_S) == 0
        assert "job process stopped" in [line["event"] for line in found.logged()]
    with pytest.raises(OSError):
        found.ask("/health")


def test_the_first_start_of_the_demo_prints_an_address_that_makes_its_first_manager(tmp_path: Path) -> None:
    """It is printed until somebody manages the demo site, and not after."""
    made = create_app(Settings(data=tmp_path / "data", jobs=0))
    first, second = (_ways_in(made) for _time in range(2))
    code = first[0].rpartition("/join#")[2]
    assert first[0].endswith(f": http://127.0.0.1:8123/join#{code}") and len(first) == len(second) == 1
    body = {"code": code, "name": "Inês Falcão", "language": "en", "device_name": "desk"}
    answer = made.test_client().post("/api/invitations/join", json=body)
    assert answer.status_code == 201
    assert [line["role"] for line in answer.json["sites"]] == ["manager"]
    assert _ways_in(made) == []


def test_a_site_of_ones_own_is_told_how_to_ask_for_a_code_instead(tmp_path: Path) -> None:
    """A code is printed for the demo site alone: whoever reads a log must not come into a real one."""
    own = tmp_path / "site.json"
    own.write_bytes(DEMO.read_bytes())
    made = create_app(Settings(data=tmp_path / "data", first_document=own, jobs=0))
    (said,) = _ways_in(made)
    assert "invite quinta-das-mares --role manager" in said and "#" not in said


def _ways_in(made: Flask) -> list[str]:
    return _first_steps(made.extensions[KEY].settings, made, "http://127.0.0.1:8123/")


@pytest.mark.skipif(os.name == "nt", reason="Windows has no SIGKILL")
def test_job_processes_end_with_a_server_that_is_killed(tmp_path: Path) -> None:
    with served(tmp_path) as found:
        wait_for(lambda: any(line["event"] == "job process started" for line in found.logged()), found)
        found.process.kill()
        found.process.wait()
        until = time.monotonic() + PATIENCE_S
        while not any(line["event"] == "job process stopped" for line in found.logged()):
            assert time.monotonic() < until
            time.sleep(0.05)


def test_a_certificate_without_its_key_is_one_line(tmp_path: Path) -> None:
    done = CliRunner().invoke(
        main, ["serve", "--port", str(free_port())], env={"PENGAN_TLS_CERTIFICATE": "certificate.pem"}
    )
    assert (done.exit_code, done.output.count("\n")) == (1, 1)
    assert "PENGAN_TLS_KEY" in done.output


def test_a_key_that_is_none_is_one_line(tmp_path: Path) -> None:
    (tmp_path / "key.pem").write_text("no key")
    words = {"PENGAN_TLS_CERTIFICATE": str(tmp_path / "key.pem"), "PENGAN_TLS_KEY": str(tmp_path / "key.pem")}
    done = CliRunner().invoke(main, ["serve", "--port", str(free_port())], env=words)
    assert (done.exit_code, done.output.count("\n")) == (1, 1)


def test_a_port_that_is_taken_is_one_line() -> None:
    with socket.socket() as taken:
        taken.bind((ADDRESS, 0))
        taken.listen()
        port = str(taken.getsockname()[1])
        done = CliRunner().invoke(main, ["serve", "--port", port])
    assert done.exit_code == 1 and port in done.output
