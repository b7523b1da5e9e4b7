"""Hints that there is something to pull, never data. Bounded: so many listeners, for so long, then they ask anew."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from threading import Condition

STREAM_S = 55.0
BEAT_S = 15.0
LOOK_S = 2.0
"""Other processes take edits too: what the database says is looked at this often."""


class Board:
    """The newest revision of each site that this process knows of, and who waits for a newer one."""

    def __init__(self) -> None:
        self._changed = Condition()
        self._newest: dict[str, int] = {}
        self.listeners = 0

    def put(self, site: str, revision: int) -> None:
        """Wake everybody who waits for this site."""
        with self._changed:
            self._newest[site] = max(revision, self._newest.get(site, 0))
            self._changed.notify_all()

    def wait(self, site: str, beyond: int, seconds: float) -> int:
        """The site's newest revision as soon as it is beyond, or when the time is up."""
        with self._changed:
            self._changed.wait_for(lambda: self._newest.get(site, 0) > beyond, seconds)
            return self._newest.get(site, 0)

    def enter(self, most: int) -> bool:
        """Take a listener's place, if one is free."""
        with self._changed:
            if self.listeners >= most:
                return False
            self.listeners += 1
            return True

    def leave(self) -> None:
        """Give the place back."""
        with self._changed:
            self.listeners -= 1


board = Board()


def nudge(site: str, revision: int) -> None:
    """Something of the site has changed, and is committed."""
    board.put(site, revision)


def stream(
    site: str, look: Callable[[], int], look_at_alarms: Callable[[], int] = lambda: 0, seconds: float = STREAM_S,
    clock: Callable[[], float] = time.monotonic,
) -> Iterator[str]:  # fmt: skip
    """Server-sent events (WHATWG HTML, section 9.2) until the time is up.

    `look` asks the database for the newest revision, `look_at_alarms` for the count of the alarms' changes, of which
    `alarms` events tell. The phone then connects again, as the standard has it do.
    """
    told, alarms = look(), look_at_alarms()
    ends, beat = clock() + seconds, clock() + BEAT_S
    yield f"retry: 3000\n\n{_event(site, told)}"
    if alarms:
        yield _alarms(site, alarms)
    while (left := ends - clock()) > 0:
        newest = max(board.wait(site, told, min(LOOK_S, left)), look())
        changed = look_at_alarms()
        if changed > alarms:
            alarms = changed
            yield _alarms(site, alarms)
        if newest > told:
            told = newest
            yield _event(site, told)
        elif clock() >= beat:
            beat = clock() + BEAT_S
            yield ": still here\n\n"


def _event(site: str, revision: int) -> str:
    return f'event: nudge\nid: {revision}\ndata: {{"site":"{site}","revision":{revision}}}\n\n'


def _alarms(site: str, count: int) -> str:
    return f'event: alarms\ndata: {{"site":"{site}","alarms":{count}}}\n\n'
