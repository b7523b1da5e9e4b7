"""A watching process: looks at site after site until it is told to stop, and then lets go of what it holds.

It is a process of its own, so that however much comes in, nights are planned and edits taken as fast as without it.
Any number may run beside each other.
"""

from __future__ import annotations

import gc
import logging
import time
from threading import Event
from uuid import uuid4

from sqlalchemy.exc import InterfaceError, OperationalError

from ..database import Database
from ..settings import Settings
from .queue import let_go
from .watching import Told, Watcher, tell_nobody

PAUSE_S = 1.0
FAULT_PAUSE_S = 5.0
logger = logging.getLogger(__name__)


class WatchProcess:
    """One worker. `stop` may be set from a signal or another thread; `run` then ends after the look in hand."""

    def __init__(self, settings: Settings, database: Database, stop: Event, told: Told = tell_nobody) -> None:
        self._settings, self._database, self._stop = settings, database, stop
        self._watcher = Watcher(uuid4().hex, told)

    def run(self) -> None:
        """Watch until stopped. While the database is away, wait for it."""
        gc.freeze()
        logger.info("watching", extra={"worker": self._watcher.worker})
        while not self._stop.is_set():
            try:
                waited = not self._look()
            except (OperationalError, InterfaceError) as fault:
                logger.warning("the database did not answer", exc_info=fault)
                self._stop.wait(FAULT_PAUSE_S)
                continue
            if waited:
                self._stop.wait(PAUSE_S)
        self._give_back()

    def _look(self) -> bool:
        """One look; whether there was anything to look at."""
        with self._database.session() as session:
            done = self._watcher.look_once(session, self._now())
        if done is None:
            return False
        if done.opened or done.ended:
            counts = {"opened": len(done.opened), "ended": len(done.ended)}
            logger.info("alarms", extra={"site": done.site, **counts})
        return True

    def _give_back(self) -> None:
        try:
            with self._database.session() as session:
                let_go(session, self._watcher.worker)
        except (OperationalError, InterfaceError) as fault:  # the lease runs out by itself
            logger.warning("the database did not answer", exc_info=fault)

    def _now(self) -> int:
        fixed = self._settings.now
        return int(fixed.timestamp() if fixed else time.time())
