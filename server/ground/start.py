"""What `python3 server` does: set up, then hand over to the `pengan` command line in `.venv`."""

from __future__ import annotations

import os
import subprocess
import sys

from .fault import GroundFault
from .house import ROOT, program
from .install import ensure_installed

CALLED = "python3 server"
"""How people called it, for what it tells them to call next."""


def start(words: list[str]) -> int:
    """Serve the site; with words that are not options of `serve`, run that `pengan` command instead."""
    try:
        ensure_installed()
    except GroundFault as fault:
        print(fault, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        return 130
    serves = not words or words[0].split("=")[0] == "--port"
    os.environ.setdefault("PENGAN_DATA", str(ROOT / "data"))
    os.environ["PENGAN_CALLED"] = CALLED
    return hand_over([str(program("python")), "-m", "pengan", *(["serve"] if serves else []), *words])


def hand_over(command: list[str]) -> int:
    """Become that command; where a process cannot, run it and pass on its exit code."""
    sys.stdout.flush()
    if os.name != "nt":
        os.execv(command[0], command)
    try:
        return subprocess.call(command)
    except KeyboardInterrupt:
        return 130
