"""Starts `pengan serve` in forks of one process that has imported everything: a restart then takes no two seconds.

Each line on its input is a port; it answers with the id of the process that serves there, the first of its group.
Workers are forked as well, where the command itself has Python start anew.
"""

from __future__ import annotations

import multiprocessing
import os
import signal
import sys

import granian  # noqa: F401  (imported for those that are forked)

import pengan.web.app  # noqa: F401
from pengan.commands import serve
from pengan.web.ahead import children  # noqa: F401


def start(port: str) -> int:
    """Fork a server; the process id."""
    pid = os.fork()
    if pid == 0:
        os.setsid()
        os.dup2(2, 1)  # what it says goes into the log
        signal.signal(signal.SIGCHLD, signal.SIG_DFL)
        code = 1
        try:
            serve.serve.main(["--port", port], standalone_mode=False)
            code = 0
        finally:
            os._exit(code)
    return pid


if __name__ == "__main__":
    multiprocessing.set_start_method("fork")
    multiprocessing.set_start_method = lambda *_words, **_more: None  # type: ignore[assignment]
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    for line in sys.stdin:
        print(start(line.strip()), flush=True)
