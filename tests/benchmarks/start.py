"""How long `python3 server` takes from the shell to its first page, where everything is installed and built."""

from __future__ import annotations

import os
import re
import socket
import subprocess
import sys
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import monotonic
from urllib.request import urlopen

from .table import Table, note, seconds

ROOT = Path(__file__).resolve().parents[2]
STARTS, MOST_S = 5, 3.0


def show() -> None:
    table = Table("A second start of `python3 server`, to its first page", ("starts", "quickest", "median", "reached"))
    with TemporaryDirectory() as folder:
        _start(Path(folder))
        times = sorted(_start(Path(folder)) for _ in range(STARTS))
    reached = "yes" if median(times) < MOST_S else "NO"
    table.row(str(STARTS), seconds(times[0]), seconds(median(times)), reached)
    note("Time on the clock, not of the processor. The first of all starts, which loads the demo site, is not counted.")


def _start(data: Path) -> float:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = str(probe.getsockname()[1])
    environment = {**os.environ, "PENGAN_DATA": str(data), "PENGAN_LANGUAGE": "en"}
    command = [sys.executable, "server", "--port", port]
    began = monotonic()
    with subprocess.Popen(command, cwd=ROOT, env=environment, stdout=subprocess.PIPE, text=True) as server:
        try:
            assert server.stdout is not None
            address = next(found[0] for line in server.stdout if (found := re.search(r"http://[\d.]+:\d+/", line)))
            urlopen(address, timeout=10).close()
            return monotonic() - began
        finally:
            server.terminate()
            server.wait(timeout=20)
