"""How a command that runs on and on is told to stop."""

from __future__ import annotations

import os
import signal
import sys
from threading import Event, Thread


def stop_on_signals(stop: Event) -> None:
    """The first signal lets the work in hand be finished; a second ends at once."""

    def stopping(number: int, _frame: object) -> None:
        signal.signal(number, signal.SIG_DFL)
        stop.set()

    for name in ("SIGINT", "SIGTERM", "SIGBREAK"):
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), stopping)


def stop_with_input(stop: Event) -> None:
    """Stop when standard input ends: whoever started this is gone then, however that happened."""
    Thread(target=_wait_for_its_end, args=(stop,), daemon=True).start()


def _wait_for_its_end(stop: Event) -> None:
    """Not through `sys.stdin`: its lock, held by a thread that waits, would not let the process end."""
    while os.read(sys.stdin.fileno(), 1024):
        pass
    stop.set()
