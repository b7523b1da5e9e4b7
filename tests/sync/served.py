"""The real server as a process of its own, started and killed like a machine that loses its power."""

from __future__ import annotations

import contextlib
import http.client
import os
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path

import psutil

SERVER = Path(__file__).resolve().parents[2] / "server"
ADDRESS = "127.0.0.1"
PATIENCE_S = 30
PAUSE_S = 0.01
QUICK_START = Path(__file__).resolve().parent / "quick_start.py"


def free_port() -> int:
    """A port nobody listens at just now."""
    with socket.socket() as probe:
        probe.bind((ADDRESS, 0))
        port: int = probe.getsockname()[1]
        return port


class Served:
    """`pengan serve` over one database, at one port, in a process group of its own."""

    def __init__(self, url: str, folder: Path, **environment: str) -> None:
        self.port = free_port()
        self.log = folder / "served.log"
        given = {"PENGAN_DATABASE": url, "PENGAN_DATA": str(folder), "PYTHONPATH": str(SERVER), "LC_ALL": "C.UTF-8"}
        alone = {"PENGAN_JOBS": "0", "PENGAN_WATCH": "0", "PENGAN_WORKERS": "1"}
        self.environment = {**os.environ, **given, **alone, **environment}
        self.process: psutil.Process | None = None
        self._starter: subprocess.Popen[str] | None = None

    def start(self, quick: bool = False) -> None:
        """Start it and wait until it answers; `quick`: by `quick_start.py`."""
        self.process = self._start_quickly() if quick else self._start()
        self._wait(True)

    def _start(self) -> psutil.Process:
        command = [sys.executable, "-m", "pengan", "serve", "--port", str(self.port)]
        with self.log.open("ab") as log:
            return psutil.Popen(
                command, env=self.environment, stdin=subprocess.DEVNULL, stdout=log, stderr=log, start_new_session=True
            )

    def _start_quickly(self) -> psutil.Process:
        if self._starter is None:
            with self.log.open("ab") as log:
                self._starter = subprocess.Popen(
                    [sys.executable, str(QUICK_START)],
                    env=self.environment,
                    stdin=subprocess.PIPE,
                    stdout=subprocess.PIPE,
                    stderr=log,
                    text=True,
                )
        assert self._starter.stdin is not None and self._starter.stdout is not None
        self._starter.stdin.write(f"{self.port}\n")
        self._starter.stdin.flush()
        return psutil.Process(int(self._starter.stdout.readline()))

    def kill(self) -> None:
        """SIGKILL to the whole group: no farewell, no flush. Returns when the port is closed."""
        self._kill_group()
        self._wait(False)

    def end(self) -> None:
        """Kill what is left, and whatever starts servers."""
        self._kill_group()
        if self._starter is not None:
            self._starter.kill()
            self._starter.communicate(timeout=PATIENCE_S)

    def _kill_group(self) -> None:
        if self.process is not None:
            with contextlib.suppress(ProcessLookupError):
                os.killpg(self.process.pid, signal.SIGKILL)
            self.process.wait(PATIENCE_S)
            self.process = None

    def answers(self) -> bool:
        """Whether somebody answers a request just now."""
        line = http.client.HTTPConnection(ADDRESS, self.port, timeout=PATIENCE_S)
        try:
            line.request("GET", "/api/openapi.json")
            return line.getresponse().status == 200
        except (OSError, http.client.HTTPException):
            return False
        finally:
            line.close()

    def _wait(self, wanted: bool) -> None:
        limit = time.monotonic() + PATIENCE_S
        while time.monotonic() < limit:
            if self.process is not None and not self._is_alive(self.process):
                break
            if self.answers() is wanted:
                return
            time.sleep(PAUSE_S)
        self.end()
        raise AssertionError(f"the server did not {'start' if wanted else 'end'}:\n{self.log.read_text()[-4000:]}")

    @staticmethod
    def _is_alive(process: psutil.Process) -> bool:
        try:
            return process.status() != psutil.STATUS_ZOMBIE
        except psutil.NoSuchProcess:
            return False
