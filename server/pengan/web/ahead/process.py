"""A job process: works the queue of sites off until it is told to stop, and then lets go of what it holds.

Any number may run beside each other, on any number of machines with the same database. APScheduler calls the
jobs; what is due, and when, stands in the queue as instants that the engine's clock worked out, so a job process that
was down at some site's noon plans that site as soon as it is back.
"""

from __future__ import annotations

import gc
import logging
import time
from datetime import UTC, datetime, timedelta
from threading import Event
from uuid import uuid4

from apscheduler.schedulers.background import BackgroundScheduler
from sqlalchemy.exc import OperationalError

from pengan.engine.clock.instants import Instant

from ..database import Database
from ..journal.made_up import play_on
from ..need.fetching.fetch import fetch_due, fetcher_by
from ..problems import Problem
from ..settings import Settings
from ..sync.upkeep import tend
from ..used.reckoning import reckon_due
from .disputes import weigh_one
from .operations import PLANNER, Worked, queue_outdated, work_once
from .planning import Orders
from .told import Told

LOOK_EVERY = timedelta(seconds=1)
OUTDATED_EVERY = timedelta(minutes=1)
TEND_EVERY = timedelta(hours=24)
FETCH_EVERY = timedelta(minutes=1)
"""How often it looks whose forecast is due; a site's own turn comes every few hours."""
RECKON_AFTER, RECKON_EVERY = timedelta(seconds=45), timedelta(minutes=10)
"""How often it looks whether a night is over, or something was told of one that is."""
FIELD_AFTER, FIELD_EVERY = timedelta(seconds=15), timedelta(minutes=2)
"""When the demo site's made-up field plays on: not before tonight is likely to be worked out."""
logger = logging.getLogger(__name__)


class JobProcess:
    """One worker. `stop` may be set from a signal or another thread; `run` then ends after the sheet in hand."""

    def __init__(self, settings: Settings, database: Database, stop: Event) -> None:
        self.worker = uuid4().hex
        self._settings = settings
        self._database = database
        self._stop = stop
        self._orders = Orders(settings.effort, told_by(settings), stop.is_set)
        self._fetcher = fetcher_by(settings)
        self._scheduler = BackgroundScheduler(
            timezone=UTC, job_defaults={"coalesce": True, "misfire_grace_time": None, "max_instances": 1}
        )

    def run(self) -> None:
        """Work until stopped. Sheets leave few cycles behind: looking for them less often saves a tenth of the time."""
        gc.freeze()
        gc.set_threshold(100_000, 20, 100)
        self._scheduler.add_job(self._queue_outdated, "interval", seconds=OUTDATED_EVERY.total_seconds())
        self._scheduler.add_job(self._tend, "interval", seconds=TEND_EVERY.total_seconds())
        if self._fetcher is not None:
            soon = datetime.now(UTC) + LOOK_EVERY
            self._scheduler.add_job(
                self._fetch, "interval", seconds=FETCH_EVERY.total_seconds(), next_run_time=soon, jitter=10
            )
        if self._settings.shows_demo:
            soon = datetime.now(UTC) + FIELD_AFTER
            self._scheduler.add_job(
                self._play_on, "interval", seconds=FIELD_EVERY.total_seconds(), next_run_time=soon, jitter=5
            )
        soon = datetime.now(UTC) + RECKON_AFTER
        self._scheduler.add_job(
            self._reckon, "interval", seconds=RECKON_EVERY.total_seconds(), next_run_time=soon, jitter=10
        )
        self._look_again(timedelta(0))
        self._queue_outdated()
        self._tend()
        self._scheduler.start()
        logger.info("job process started", extra={"worker": self.worker})
        while not self._stop.wait(timeout=1):  # a bare wait would not let Windows' Ctrl+C through
            pass
        self._scheduler.shutdown(wait=True)
        logger.info("job process stopped", extra={"worker": self.worker})

    def _now(self) -> int:
        fixed = self._settings.now
        return int(fixed.timestamp() if fixed else time.time())

    def _look_again(self, after: timedelta) -> None:
        moment = datetime.now(UTC) + after
        self._scheduler.add_job(self._look, "date", run_date=moment, id="look", replace_existing=True)

    def _look(self) -> None:
        """Work off whatever is due, then look again in a while."""
        try:
            while not self._stop.is_set() and (done := self._one()) is not None:
                logger.info("site planned", extra={"site": done.site, "stage": done.stage, "sheets": done.sheets})
            while not self._stop.is_set() and self._weigh_one():
                logger.info("dispute weighed")
        except OperationalError as fault:
            logger.warning("the database did not answer", exc_info=fault)
        finally:
            if not self._stop.is_set():
                self._look_again(LOOK_EVERY)

    def _one(self) -> Worked | None:
        with self._database.session() as session:
            return work_once(session, self.worker, self._now(), self._orders)

    def _weigh_one(self) -> bool:
        with self._database.session() as session:
            return weigh_one(session, self._now())

    def _fetch(self) -> None:
        """On a thread of its own: while a weather service takes its time, nights are worked out."""
        if self._fetcher is None:
            return
        try:
            with self._database.session() as session:
                done = fetch_due(session, self._fetcher, self._now(), self._stop.is_set)
        except OperationalError as fault:
            logger.warning("the database did not answer", exc_info=fault)
            return
        for one in done:
            if one.fault:
                logger.warning("no forecast", extra={"site": one.site, "fault": one.fault})
            else:
                logger.info("forecast asked for", extra={"site": one.site, "days": len(one.changed)})

    def _play_on(self) -> None:
        """On a thread of its own, for the demo site alone."""
        try:
            with self._database.session() as session:
                count = play_on(session, self._now(), self._settings.effort)
        except (OperationalError, Problem) as fault:
            logger.warning("the made-up field could not be played", exc_info=fault)
            return
        if count:
            logger.info("made-up field played", extra={"entries": count})

    def _reckon(self) -> None:
        """On a thread of its own: what nights that are over used holds no planning up."""
        try:
            with self._database.session() as session:
                count = reckon_due(session, self._now(), int(time.time()), self._stop.is_set)
        except OperationalError as fault:
            logger.warning("the database did not answer", exc_info=fault)
            return
        if count:
            logger.info("nights reckoned up", extra={"nights": count})

    def _queue_outdated(self) -> None:
        try:
            with self._database.session() as session:
                count = queue_outdated(session, PLANNER)
        except OperationalError as fault:
            logger.warning("the database did not answer", exc_info=fault)
            return
        if count:
            logger.info("sites queued anew", extra={"sites": count})

    def _tend(self) -> None:
        try:
            with self._database.session() as session:
                done = tend(session, Instant(self._now()))
        except OperationalError as fault:
            logger.warning("the database did not answer", exc_info=fault)
            return
        if done.unparked or done.forgotten:
            logger.info("sites tended", extra={"unparked": done.unparked, "forgotten": done.forgotten})


def told_by(settings: Settings) -> Told:
    """What counts as a change worth telling, by the settings."""
    return Told(settings.notice_minutes * 60, settings.notice_short_pct)
