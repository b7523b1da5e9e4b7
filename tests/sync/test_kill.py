"""The server is killed under a storm of pushes, again and again: what it acknowledged is there, and nothing twice."""

from __future__ import annotations

import time
from pathlib import Path
from random import Random
from threading import Event

import pytest
from sqlalchemy import create_engine

from sync.ledger import Replay, edits_of, filled
from sync.served import Served
from sync.storm import Pusher
from sync.world import a_server, new_grounds, shared_of

KILLS = 10  # on each of the two databases
REAL_EVERY = 5  # started by the command itself; else by a fork that has imported everything
RECEIPT = ("outcome", "version", "revision")
CREW = (("ben", 0), ("cai", 1), ("ana", 2), ("ben", 3))


@pytest.fixture(params=["sqlite", "postgresql"])
def own_url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """A database of either kind."""
    if request.param == "postgresql":
        return str(request.getfixturevalue("postgres_url"))
    return f"sqlite:///{tmp_path / 'pengan.sqlite3'}"


def test_nothing_acknowledged_is_lost_and_nothing_is_there_twice(own_url: str, tmp_path: Path) -> None:
    app = a_server(own_url, tmp_path)
    grounds = new_grounds(app)
    shared_of(app).database.engine.dispose()
    pushers = [Pusher(grounds, short, number) for short, number in CREW]
    random = Random(own_url.split(":")[0])
    server = Served(own_url, tmp_path, PENGAN_FIRST_DOCUMENT=str(tmp_path / "none.json"))
    acknowledged = []
    try:
        server.start()
        for number in range(1, KILLS + 1):
            storm(server, pushers, random.uniform(0.02, 0.25))
            acknowledged.append(sum(len(pusher.phone.kept["answers"]) for pusher in pushers))
            server.start(quick=number % REAL_EVERY != 0)
            check(own_url, grounds.site, pushers, server.port)
    finally:
        server.end()
    assert acknowledged[-1] > KILLS, acknowledged


def storm(server: Served, pushers: list[Pusher], for_s: float) -> None:
    """All push at once; after that long the server's processes are killed."""
    stop = Event()
    threads = [pusher.run(server.port, stop) for pusher in pushers]
    time.sleep(for_s)
    server.kill()
    stop.set()
    for thread in threads:
        thread.join(60)
    for pusher in pushers:
        if pusher.fault is not None:
            raise pusher.fault


def check(url: str, site: str, pushers: list[Pusher], port: int) -> None:
    """Every answer that any phone got is a row of the history, once; the history replays to what the server serves."""
    engine = create_engine(url)
    edits = edits_of(engine, site)
    engine.dispose()
    rows = {edit["id"]: edit for edit in edits}
    assert len(rows) == len(edits)
    for pusher in pushers:
        for edit, answer in pusher.phone.kept["answers"].items():
            written = rows[edit]["answer"]
            assert all(written.get(name) == answer.get(name) for name in RECEIPT), (rows[edit], answer)
        pusher.pull(port)
    state = Replay(edits).records
    copy = pushers[0].phone.records
    assert state.keys() == copy.keys()
    for key, record in state.items():
        assert filled(key.split("/")[0], record.fields) == filled(key.split("/")[0], copy[key]), key
