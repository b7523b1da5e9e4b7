"""The processes that `pengan serve` runs beside itself: processes, so that neither planning nor watching ever holds up
an answer."""

from __future__ import annotations

import logging
import subprocess
import sys
from collections.abc import Callable
from functools import partial
from threading import Event, Thread
from types import TracebackType

JOBS, WATCH = "jobs", "watch"
"""The commands that run so beside the server."""
LOOK_EVERY_S = 1.0
AGAIN_AFTER_S = 5.0
STOP_WITHIN_S = 30
logger = logging.getLogger(__name__)


class Children:
    """So many processes of one command while the block lasts. One that ends by itself is started anew.

    A child reads from a pipe that nobody writes to: it ends when this process does, however that happens, and the
    child takes that as the word to stop. No signal is needed, which Windows would not have.
    """

    def __init__(
        self, count: int, command: str = JOBS, start: Callable[[], subprocess.Popen[bytes]] | None = None
    ) -> None:
        self._count = count
        self._start = start or partial(_child, command)
        self._children: list[subprocess.Popen[bytes]] = []
        self._ending = Event()
        self._watcher = Thread(target=self._watch, daemon=True)

    def __enter__(self) -> Children:
        self._children = [self._start() for _number in range(self._count)]
        self._watcher.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Let each finish the sheet it has in hand and give its claim back."""
        self._ending.set()
        self._watcher.join()
        for child in self._children:
            if child.stdin is not None:
                child.stdin.close()
        for child in self._children:
            _await(child)

    @property
    def running(self) -> list[int]:
        """The ids of the processes that run now."""
        return [child.pid for child in self._children if child.poll() is None]

    def _watch(self) -> None:
        while not self._ending.wait(LOOK_EVERY_S):
            for place, child in enumerate(self._children):
                if child.poll() is None:
                    continue
                logger.warning("a process beside the server ended by itself and is started anew")
                if self._ending.wait(AGAIN_AFTER_S):
                    return
                self._children[place] = self._start()


def _child(command: str) -> subprocess.Popen[bytes]:
    return subprocess.Popen((sys.executable, "-m", "pengan", command, "--with-parent"), stdin=subprocess.PIPE)


def _await(child: subprocess.Popen[bytes]) -> None:
    try:
        child.wait(STOP_WITHIN_S)
    except subprocess.TimeoutExpired:
        logger.warning("a process took too long to stop and is ended; its claim runs out by itself")
        child.kill()
        child.wait()
