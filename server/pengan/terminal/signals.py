"""How a command that runs on and on is told to stop."""

from __future__ import annotations

import signal
from threading import Event


def stop_on_signals(stop: Event) -> None:
    """The first signal lets the work in hand be finished; a second ends at once."""

    def stopping(number: int, _frame: object) -> None:
        signal.signal(number, signal.SIG_DFL)
        stop.set()

    for name in ("SIGINT", "SIGTERM", "SIGBREAK"):
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), stopping)
