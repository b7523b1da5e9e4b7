"""The real server as a process of its own, started and killed like a machine that loses its power."""

from __future__ import annotations

import http.client
import os
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path

SERVER = Path(__file__).resolve().parents[2] / "server"
ADDRESS = "127.0.0.1"
PATIENCE_S = 30
PAUSE_S = 0.01


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
        self.environment = {**os.environ, **given, **environment}
        self.process: subprocess.Popen[bytes] | None = None

    def start(self) -> None:
        """Start it and wait until it answers."""
        command = [sys.executable, "-m", "pengan", "serve", "--port", str(self.port)]
        with self.log.open("ab") as log:
            self.process = subprocess.Popen(
                command, env=self.environment, stdin=subprocess.DEVNULL, stdout=log, stderr=log, start_new_session=True
            )
        self._wait(True)

    def kill(self) -> None:
        """SIGKILL to the whole group: no farewell, no flush. Returns when the port is closed."""
        if self.process is None:
            return
        os.killpg(self.process.pid, signal.SIGKILL)
        self.process.wait(PATIENCE_S)
        self.process = None
        self._wait(False)

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
            if self.process is not None and self.process.poll() is not None:
                break
            if self.answers() is wanted:
                return
            time.sleep(PAUSE_S)
        self.kill_what_is_left()
        raise AssertionError(f"the server did not {'start' if wanted else 'end'}:\n{self.log.read_text()[-4000:]}")

    def kill_what_is_left(self) -> None:
        """End the processes of a start that failed."""
        if self.process is not None and self.process.poll() is None:
            os.killpg(self.process.pid, signal.SIGKILL)
            self.process.wait(PATIENCE_S)
        self.process = None
