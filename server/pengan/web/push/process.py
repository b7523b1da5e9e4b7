"""Sending, on a thread of its own beside watching: a push service that takes its time holds up nothing else."""

from __future__ import annotations

import logging
import time
from threading import Event, Thread
from uuid import uuid4

from sqlalchemy.exc import InterfaceError, OperationalError

from ..database import Database
from ..settings import Settings
from .calling import Answer, Where, call
from .own_key import own_push_key
from .sending import send_next

LOOK_S, FAULT_PAUSE_S = 2.0, 10.0
WITHOUT_ADDRESS = "https://localhost"
"""The contact of a server that only its own machine reaches."""
logger = logging.getLogger(__name__)


class Sender:
    """Sends what is due until `stop` is set."""

    def __init__(self, settings: Settings, database: Database, stop: Event) -> None:
        self._settings, self._database, self._stop = settings, database, stop
        self._worker = uuid4().hex
        self._contact = settings.push_contact or settings.address or WITHOUT_ADDRESS
        self._key = own_push_key(settings.secret_path)
        self._thread = Thread(target=self.run, daemon=True)

    def start(self) -> None:
        """Begin, on its own thread."""
        self._thread.start()

    def join(self) -> None:
        """Wait for the message in hand."""
        self._thread.join()

    def run(self) -> None:
        """Send whatever is due, then look again in a while."""
        while not self._stop.is_set():
            try:
                sent = self._send()
            except (OperationalError, InterfaceError) as fault:
                logger.warning("the database did not answer", exc_info=fault)
                self._stop.wait(FAULT_PAUSE_S)
                continue
            except Exception as fault:  # one message that cannot be written must not hold up the others
                logger.error("a message could not be written", exc_info=fault)
                sent = False  # nor fill the log, where it is none of the messages that fails
            if not sent:
                self._stop.wait(LOOK_S)

    def _send(self) -> bool:
        with self._database.session() as session:
            return send_next(session, self._worker, self._now(), int(time.time()), self._call) is not None

    def _call(self, where: Where, text: str, urgent: bool, topic: str) -> Answer:
        return call(self._key, self._contact, where, text, urgent, topic)

    def _now(self) -> int:
        fixed = self._settings.now
        return int(fixed.timestamp() if fixed else time.time())
