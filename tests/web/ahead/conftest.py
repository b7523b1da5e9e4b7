"""A database of either kind with small sites, and a worker's clock that tests wind on."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

import pytest

from builders import a_document_data, a_site, a_station, a_supply, a_turn
from pengan.web.ahead.operations import Worked, queue, work_once
from pengan.web.ahead.planning import Orders
from pengan.web.database import Database
from pengan.web.sites.operations import put_document

EVENING = int(datetime.fromisoformat("2026-07-14T21:00:00+01:00").timestamp())
NOON = EVENING - 9 * 3600
"""No water has run yet: an edit plans all of tonight."""


def a_garden(site: str = "garden", flow_lpm: float = 60, **site_fields: Any) -> dict[str, Any]:
    """Six stations for twenty minutes each, on a source that gives water to two at a time: an hour of water."""
    names = [f"s{n}" for n in range(6)]
    return a_document_data(
        site=a_site(site, **site_fields),
        supplies=[a_supply(limit_lpm=120)],
        stations=[a_station(name, flow_lpm=flow_lpm) for name in names],
        turns=[a_turn("p1", name, run_s=1200) for name in names],
    )


@dataclass
class Jobs:
    """A worker over a database, at a moment that tests choose. `real` is the clock of its leases."""

    database: Database
    now: int = EVENING
    real: int = 1_000_000
    orders: dict[str, Any] = field(default_factory=lambda: {"effort": 4})

    def put(self, data: dict[str, Any]) -> int:
        """Store a document and have its nights planned, as whoever takes an edit does; its revision."""
        with self.database.session() as session:
            found = put_document(session, data)
            with session.begin():
                queue(session, found.site, found.revision)
            return found.revision

    def work(self, worker: str = "one", **orders: Any) -> Worked | None:
        """One claim."""
        made = Orders(**{"clock": lambda: self.real, **self.orders, **orders})
        with self.database.session() as session:
            return work_once(session, worker, self.now, made)

    def work_all(self, worker: str = "one") -> list[Worked]:
        """Claims until nothing is due."""
        return list(iter(lambda: self.work(worker), None))


@pytest.fixture(params=["sqlite", "postgresql"])
def url(request: pytest.FixtureRequest, make_database: Callable[[str], str]) -> str:
    """A database of either kind with nothing in its tables."""
    return make_database(request.param)


@pytest.fixture
def jobs(url: str) -> Iterator[Jobs]:
    """A worker over an empty database."""
    database = Database(url)
    yield Jobs(database)
    database.engine.dispose()
