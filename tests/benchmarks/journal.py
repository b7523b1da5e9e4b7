"""How many entries a second the journal takes, on either database, and for how long it keeps that up.

Batches go through the operation alone, or through the whole app (token, JSON, judging, commit, answer) without a
socket. Each is first driven as fast as it goes: the limit. Then entries come at the rate aimed at for a minute, as a
field would send them, and the longest that a batch was behind is told. Readings of a meter mostly, with valves that
open and close, of one site, so that all of it goes through one journal's head. PENGAN_JOURNAL_S sets another length
than a minute.
"""

from __future__ import annotations

import io
import json
import os
import time
from collections.abc import Callable, Iterator
from threading import Thread
from time import perf_counter, sleep
from typing import Any

from flask import Flask
from sqlalchemy import func, select
from werkzeug.test import EnvironBuilder

from pengan.engine.journal.entry import Kind
from pengan.web.journal.models import JournalEntry
from pengan.web.journal.names import REPORTER
from pengan.web.journal.reporters import MadeReporter, Reports, add_reporter
from pengan.web.journal.taking import REPORTED, Parcel, Teller, take
from sync.world import Grounds, shared_of

from .sync_clients import a_site_of
from .sync_server import servers
from .table import Table, note

Row = dict[str, Any]
Send = Callable[[list[Row]], int]
AIMED = {"SQLite": 1000, "PostgreSQL": 5000}
LIMIT_S, HELD_S = 4.0, float(os.environ.get("PENGAN_JOURNAL_S", "60"))
SIZES = (1, 20, 200, 1000)
HELD_SIZE = 250
STATIONS = 60


def show() -> None:
    """Both tables, for both databases."""
    with servers() as found:
        for name, app in found.items():
            _show_limits(name, app)
            _show_held(name, app)


def _show_limits(name: str, app: Flask) -> None:
    heads = ("entries a batch", "operation", "over HTTP", "2 at once")
    table = Table(f"Entries taken a second, as fast as it goes, {name}", heads)
    for size in SIZES:
        ways = [[by_operation(app, a_site_of(app, STATIONS))], [over_http(app, a_site_of(app, STATIONS))]]
        one = a_site_of(app, STATIONS)
        ways.append([over_http(app, one), over_http(app, one)])
        table.row(str(size), *(f"{_limit(senders, size):,.0f}" for senders in ways))


def _limit(senders: list[Send], size: int) -> float:
    """Entries a second over some seconds, all senders together, each on a thread of its own."""
    ends, counts = perf_counter() + LIMIT_S, [0] * len(senders)

    def work(number: int) -> None:
        entries = batches(size, f"t{number}")
        while perf_counter() < ends:
            counts[number] += senders[number](next(entries))

    began = perf_counter()
    running = [Thread(target=work, args=(number,)) for number in range(len(senders))]
    for thread in running:
        thread.start()
    for thread in running:
        thread.join()
    return sum(counts) / (perf_counter() - began)


def _show_held(name: str, app: Flask) -> None:
    aimed, grounds = AIMED[name], a_site_of(app, STATIONS)
    heads = ("aimed at, a second", "held", "reached", "longest behind", "in the journal")
    table = Table(f"Entries over HTTP for {HELD_S:.0f} s, {HELD_SIZE} a batch, {name}", heads)
    send, entries = over_http(app, grounds), batches(HELD_SIZE, "h")
    began, taken, behind = perf_counter(), 0, 0.0
    while (elapsed := perf_counter() - began) < HELD_S:
        due = taken / aimed
        sleep(max(0.0, due - elapsed))
        taken += send(next(entries))
        behind = max(behind, perf_counter() - began - due)
    rate = taken / (perf_counter() - began)
    with shared_of(app).database.session() as session:
        count = session.scalar(select(func.count()).where(JournalEntry.site == grounds.site)) or 0
    if count != taken:
        raise AssertionError(f"{taken} were taken, {count} are in the journal")
    reached = "yes" if rate >= aimed * 0.99 else "NO"
    table.row(f"{aimed:,}", f"{rate:,.0f} a second", reached, f"{behind:.2f} s", f"{count:,}")
    note("A batch is behind from the moment its first entry was due until it is stored and answered.")


def by_operation(app: Flask, grounds: Grounds) -> Send:
    """Batches straight into the operation."""
    made = _reporter(app, grounds)
    teller = Teller(REPORTER + made.id, REPORTED, Reports(grounds.team, made.id, grounds.site))

    def send(entries: list[Row]) -> int:
        with shared_of(app).database.session() as session:
            answers = take(session, grounds.site, [Parcel(teller, entries)], int(time.time()))[0]
        return _all_taken([one.outcome for one in answers])

    return send


def over_http(app: Flask, grounds: Grounds) -> Send:
    """Batches through the whole app."""
    token = f"Bearer {_reporter(app, grounds).token}"

    def send(entries: list[Row]) -> int:
        written = json.dumps({"entries": entries}).encode()
        environ = EnvironBuilder("/api/journal/entries", method="POST", content_type="application/json").get_environ()
        environ |= {"wsgi.input": io.BytesIO(written), "CONTENT_LENGTH": str(len(written)), "HTTP_AUTHORIZATION": token}
        answer = json.loads(b"".join(app(environ, lambda *_told: io.BytesIO().write)))
        return _all_taken([one["outcome"] for one in answer["answers"]])

    return send


def _all_taken(outcomes: list[str]) -> int:
    if set(outcomes) != {"taken"}:
        raise AssertionError(f"not all were taken: {set(outcomes)}")
    return len(outcomes)


def _reporter(app: Flask, grounds: Grounds) -> MadeReporter:
    with shared_of(app).database.session() as session, session.begin():
        return add_reporter(session, grounds.team, grounds.site, "Gateway", "ben", int(time.time()))


def batches(size: int, name: str) -> Iterator[list[Row]]:
    """Entries as a field tells them, each of which is told once."""
    number, first = 0, int(time.time()) - 40_000_000
    while True:
        batch = []
        for _ in range(size):
            number += 1
            common: Row = {"id": f"{name}-{number:012}", "at": first + number // 20}
            if number % 20:
                batch.append({**common, "kind": Kind.FLOW, "supply": "town", "flow_lpm": 40 + number % 997 / 8})
            else:
                kind = Kind.OPENED if number % 40 else Kind.CLOSED
                batch.append({**common, "kind": kind, "station": f"s{number // 40 % STATIONS}"})
        yield batch
