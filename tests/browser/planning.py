"""A job process beside a server that a test can stop: it works nights out ahead and weighs disputes."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager

from browser.standing import NOW, ROOT, Standing


@contextmanager
def planning_ahead(server: Standing) -> Iterator[None]:
    """As `pengan serve` runs one where it is not told otherwise."""
    settings = {
        "PENGAN_DATA": str(server.folder),
        "PENGAN_DATABASE": "",
        "PENGAN_NOW": NOW,
        "PENGAN_EFFORT": "4",
        "PENGAN_LOG": "error",
        "PYTHONPATH": str(ROOT / "server"),
    }
    command = [sys.executable, "-m", "pengan", "jobs", "--with-parent"]
    with subprocess.Popen(
        command, cwd=server.folder, env={**os.environ, **settings}, stdin=subprocess.PIPE, stderr=subprocess.DEVNULL
    ) as process:
        try:
            yield
        finally:
            process.terminate()
