"""Phones that push as fast as a real server over a real line takes it, until it is killed under them."""

from __future__ import annotations

import http.client
import json
from itertools import count
from random import Random
from threading import Event, Thread
from typing import Any

from sync.grounds import FIELDS
from sync.phone import Phone
from sync.served import ADDRESS
from sync.world import Grounds

Row = dict[str, Any]
OWN_FIELDS = (("stations", "name"), ("stations", "flow_lpm"), ("turns", "run"), ("turns", "position"))
MOST_PUSHES = 2000
TIMEOUT_S = 20


class Pusher:
    """One phone of the storm: makes a set, pushes what it has, and keeps whatever was not answered."""

    def __init__(self, grounds: Grounds, short: str, number: int) -> None:
        numbers = count(1)
        self.token = grounds.members[short].token
        self.phone = Phone(grounds.members[short].person, grounds.site, lambda: f"{short}-{number}-{next(numbers)}")
        self.station = f"s{number % 3 + 1}"
        self.site = grounds.site
        self.random = Random(number)
        self.fault: BaseException | None = None

    def run(self, port: int, stop: Event) -> Thread:
        """Push on a thread of its own until told to stop or the line breaks."""
        thread = Thread(target=self._push_on, args=(port, stop))
        thread.start()
        return thread

    def _push_on(self, port: int, stop: Event) -> None:
        line = http.client.HTTPConnection(ADDRESS, port, timeout=TIMEOUT_S)
        try:
            for _ in range(MOST_PUSHES):
                if stop.is_set():
                    return
                self._one_push(line)
        except (OSError, http.client.HTTPException):
            return  # the server is gone: what was not answered stays in the outbox
        except BaseException as fault:  # noqa: BLE001  (raised by the test, on its own thread)
            self.fault = fault
        finally:
            line.close()

    def _one_push(self, line: http.client.HTTPConnection) -> None:
        if len(self.phone.outbox) < 6:
            self.phone.make_set(*(self._change() for _ in range(self.random.choice((1, 1, 2, 4)))))
        answer = self.ask(line, "/api/sync/push", self.phone.next_push())
        self.phone.take_answers(answer["answers"])

    def _change(self) -> Row:
        """Mostly a field of one's own, sometimes one that everybody wants."""
        if self.random.random() < 0.2:
            place, record = ("site", "seasonal_pct"), self.site
        else:
            place = self.random.choice(OWN_FIELDS)
            record = self.station if place[0] == "stations" else f"p1.{self.station}"
        now = self.random.choice(FIELDS[place])
        return {"kind": "set", "table": place[0], "record": record, "field": place[1], "now": now}

    def ask(self, line: http.client.HTTPConnection, path: str, body: Row | None) -> Row:
        """One request and its answer, which has to be a good one."""
        headers = {"Content-Type": "application/json", "Cookie": f"pengan={self.token}"}
        line.request("POST", path, json.dumps(body), headers)
        answer = line.getresponse()
        data = answer.read()
        if answer.status != 200:
            raise AssertionError(f"{answer.status} {data[:500]!r}")
        found: Row = json.loads(data)
        return found

    def pull(self, port: int) -> None:
        """Catch up with the server."""
        line = http.client.HTTPConnection(ADDRESS, port, timeout=TIMEOUT_S)
        try:
            self.phone.take_pull([self.ask(line, "/api/sync/pull", self.phone.next_pull())])
        finally:
            line.close()
