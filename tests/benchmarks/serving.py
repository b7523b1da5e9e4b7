"""Which server answers for the app: the one `pengan serve` uses, beside one that is plain Python, in the same run."""

from __future__ import annotations

import http.client
import os
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from .table import Table, note

ROOT = Path(__file__).resolve().parents[2]
ADDRESS, CLIENTS, SECONDS = "127.0.0.1", 8, 3.0
SITE = "/api/sites/quinta-das-mares"
ASKED = (("clock", "/api/clock"), ("document", f"{SITE}/document"), ("14 nights", f"{SITE}/nights"))
WAITRESS = """
import os, sys
from waitress import serve
from pengan.web.app import create_app
from pengan.web.settings import settings_from
serve(create_app(settings_from(os.environ)), host="127.0.0.1", port=int(sys.argv[1]), threads=16)
"""
PENGAN = (sys.executable, "-m", "pengan", "serve", "--port")


def show() -> None:
    table = Table(
        f"Answers a second to {CLIENTS} clients at once, and the slowest of a hundred in ms",
        ("server", *(head for name, _path in ASKED for head in (name, "99 %"))),
    )
    with TemporaryDirectory() as folder:
        data = Path(folder)
        _plan(data)
        for name, command, workers in (
            ("granian, 1 worker", PENGAN, 1),
            ("granian, 2 workers", PENGAN, 2),
            ("waitress", (sys.executable, "-c", WAITRESS), 1),
        ):
            with _served(command, data, workers) as port:
                table.row(name, *(cell for _name, path in ASKED for cell in _measured(port, path)))
    note("Both with 16 threads a process over SQLite; the clients share the processors with the server.")


def _plan(data: Path) -> None:
    """Nights to hand out, worked out before anything is measured."""
    with _served(PENGAN, data, 1, jobs=1) as port:
        while b'"sheets":[]' in _ask(_line(port), ASKED[2][1])[1]:
            time.sleep(0.2)


@contextmanager
def _served(command: tuple[str, ...], data: Path, workers: int, jobs: int = 0) -> Iterator[int]:
    with socket.socket() as probe:
        probe.bind((ADDRESS, 0))
        port: int = probe.getsockname()[1]
    words = {
        "PYTHONPATH": str(ROOT / "server"),
        "PENGAN_DATA": str(data),
        "PENGAN_FIRST_DOCUMENT": str(ROOT / "fixtures" / "demo" / "site.json"),
        "PENGAN_NOW": "2026-10-24T23:30:00+01:00",
        "PENGAN_WORKERS": str(workers),
        "PENGAN_JOBS": str(jobs),
        "PENGAN_WATCH": "0",
        "PENGAN_LOG": "error",
        "PENGAN_EFFORT": "4",
    }
    process = subprocess.Popen([*command, str(port)], env={**os.environ, **words}, stdout=subprocess.DEVNULL)
    try:
        _wait(port)
        yield port
    finally:
        process.terminate()
        process.wait()


def _wait(port: int) -> None:
    for _attempt in range(600):
        try:
            if _ask(_line(port), "/ready")[0] == 200:
                return
        except OSError:
            time.sleep(0.1)
    raise AssertionError("the server does not answer")


def _measured(port: int, path: str) -> tuple[str, str]:
    with ThreadPoolExecutor(CLIENTS) as pool:
        began = time.perf_counter()
        times = [one for client in pool.map(lambda _number: _client(port, path), range(CLIENTS)) for one in client]
        took = time.perf_counter() - began
    times.sort()
    return f"{len(times) / took:.0f}", f"{times[len(times) * 99 // 100] * 1000:.0f}"


def _client(port: int, path: str) -> list[float]:
    """One client on one line, asking again as soon as it is answered; the time of each answer."""
    line, times, until = _line(port), [], time.perf_counter() + SECONDS
    while (began := time.perf_counter()) < until:
        status, _body = _ask(line, path)
        if status != 200:
            raise AssertionError(f"{path}: {status}")
        times.append(time.perf_counter() - began)
    return times


def _line(port: int) -> http.client.HTTPConnection:
    return http.client.HTTPConnection(ADDRESS, port, timeout=60)


def _ask(line: http.client.HTTPConnection, path: str) -> tuple[int, bytes]:
    line.request("GET", path, headers={"Accept-Encoding": "gzip" if path != ASKED[2][1] else "identity"})
    answer = line.getresponse()
    return answer.status, answer.read()
