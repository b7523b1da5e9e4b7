"""Plans a made-up night, so that the first one that somebody waits for finds every part of the engine loaded."""

from __future__ import annotations

import json
from collections.abc import Iterator

from .. import ENGINE_VERSION
from ..clock.zones import zone_data_version
from .answer import answer

Record = dict[str, object]

_NIGHT = "2026-10-24"


def warm_up() -> str:
    """Plan the night, and again as after an edit, and say which engine and which zone data plan here."""
    document = json.dumps({"format": 1, "records": [*_ground(), *_lawns()]})
    sheet = answer(document, _NIGHT, 4).split("\n")[1]
    answer(document, _NIGHT, 2, sheet)
    return f"{ENGINE_VERSION} {zone_data_version()}"


def _ground() -> Iterator[Record]:
    yield _record("site", "site", zone="Europe/Lisbon", latitude_deg=37.1, longitude_deg=-8.3)
    yield _record("supplies", "well", limit_lpm=90, steady_lpm=80)
    yield _record("controllers", "cabinet", max_open=2)
    yield _record("programs", "lawns")
    yield _record("windows", "dark", opens="sunset", closes="sunrise")
    yield _record("closures", "event", starts="23:00", ends="23:30")


def _lawns() -> Iterator[Record]:
    for number in range(1, 7):
        key = f"lawn-{number}"
        where = {"supply": "well", "controller": "cabinet", "flow_lpm": 30 + number}
        yield _record("stations", key, number=str(number), **where)
        share = {"program": "lawns", "station": key, "position": number, "run_s": 1200, "cycles": 1 + number % 2}
        yield {"table": "turns", "id": key, **share, "soak_s": 300}


def _record(table: str, key: str, **fields: object) -> Record:
    return {"table": table, "id": key, "name": key, **fields}
