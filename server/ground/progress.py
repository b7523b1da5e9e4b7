"""Showing at the shell that a long step goes on."""

from __future__ import annotations

import shutil
import subprocess
import sys
from time import monotonic


def run_with_progress(command: list[str]) -> tuple[int, str]:
    """Run a command to its end: its exit code and all it said. A terminal sees the time and the latest line go by."""
    began, said = monotonic(), []
    with subprocess.Popen(
        command, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace"
    ) as running:
        for line in running.stdout or ():
            said.append(line)
            _show(f"{monotonic() - began:4.0f} s  {line.strip()}")
    _show("")
    return running.returncode, "".join(said)


def _show(line: str) -> None:
    if sys.stderr.isatty():
        width = shutil.get_terminal_size().columns - 1
        sys.stderr.write(f"\r{line[:width]:{width}}\r")
        sys.stderr.flush()
