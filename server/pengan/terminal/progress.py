"""Shows that something long is going on. Nothing appears in the first second, nor ever on standard output."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from typing import TextIO

QUIET_S = 1.0
EVERY_S = 0.2


class Progress:
    """A line that counts up: rewritten in place on a terminal, written once into anything else.

    `text` makes the line from the count so far. Call the object with each count; `end` clears the line.
    """

    def __init__(
        self,
        text: Callable[[int], str],
        stream: TextIO | None = None,
        now: Callable[[], float] = time.monotonic,
    ) -> None:
        self._text = text
        self._stream = sys.stderr if stream is None else stream
        self._now = now
        self._next = now() + QUIET_S
        self._shown = 0

    def __call__(self, count: int) -> None:
        """Tells how far it is."""
        if self._now() < self._next:
            return
        self._next = self._now() + EVERY_S if self._stream.isatty() else float("inf")
        line = self._text(count)
        self._stream.write(f"\r{line.ljust(self._shown)}" if self._stream.isatty() else f"{line}\n")
        self._stream.flush()
        self._shown = len(line)

    def end(self) -> None:
        """Takes the line away again."""
        if self._shown and self._stream.isatty():
            self._stream.write("\r" + " " * self._shown + "\r")
            self._stream.flush()
