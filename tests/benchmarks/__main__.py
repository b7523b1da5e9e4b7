"""How good the planner is: `python tests/benchmarks [name…]` prints the tables.

Without a name every table is printed, which takes some minutes. Names: see `TABLES` below. `detection --seed 5
--nights 10` watches other made-up fields, or fewer nights of each.
Times are those of the machine it runs on, natively on one core; where a time says little by itself it stands
beside another taken in the same run.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from pathlib import Path

TESTS = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(TESTS), str(TESTS.parent / "server")]

from benchmarks import (  # noqa: E402  (the path comes first)
    ahead,
    ahead_server,
    app_budgets,
    catching_up,
    detection,
    growth,
    journal,
    noon,
    overfull,
    phone,
    planted_nights,
    published,
    reference,
    serving,
    small_edit,
    start,
    sync_server,
    water_need,
)

TABLES: dict[str, Callable[[], None]] = {
    "planted": planted_nights.show,
    "growth": growth.show,
    "published": published.show,
    "reference": reference.show,
    "overfull": overfull.show,
    "edit": small_edit.show,
    "catching_up": catching_up.show,
    "detection": detection.show,
    "ahead": ahead.show,
    "ahead_server": ahead_server.show,
    "phone": phone.show,
    "sync": sync_server.show,
    "serving": serving.show,
    "app": app_budgets.show,
    "start": start.show,
    "need": water_need.show,
    "journal": journal.show,
    "noon": noon.show,
}


def main(words: list[str]) -> int:
    asked = _asked(words)
    names: list[str] = asked.names
    unknown = [name for name in names if name not in TABLES]
    if unknown:
        print(f"No such table: {', '.join(unknown)}. There are: {', '.join(TABLES)}.", file=sys.stderr)
        return 2
    for name in names or TABLES:
        if name == "detection":
            detection.show(asked.seed, asked.nights)
        else:
            TABLES[name]()
        print(flush=True)
    return 0


def _asked(words: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="benchmarks")
    parser.add_argument("names", nargs="*")
    parser.add_argument("--seed", type=int, help="the made-up fields of the table `detection`")
    parser.add_argument("--nights", type=int, help="how many sound nights and nights with faults each of them has")
    return parser.parse_args(words)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
