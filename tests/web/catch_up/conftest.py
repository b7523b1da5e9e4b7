"""A server over either kind of database, on an evening on which a small park is watered and the power goes."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest
from flask.testing import FlaskClient

from builders import a_controller, a_document_data, a_hydrozone, a_site, a_station, a_supply, a_turn, a_window
from pengan.engine.clock.nights import Night, night_on
from pengan.engine.clock.zones import clock_of
from pengan.engine.document.read import read_document
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.plan.sheet import NightSheet
from pengan.web.ahead.operations import queue, work_once
from pengan.web.ahead.planning import Orders
from pengan.web.app import create_app
from pengan.web.journal.storing import store
from pengan.web.nights.models import StoredSheet
from pengan.web.nights.stored import newest_sheets, sheet_in
from pengan.web.settings import Settings
from pengan.web.sites.operations import put_document
from web.people.crew import SITE, Server

Row = dict[str, Any]
EVENING = datetime.fromisoformat("2026-07-10T21:00:00+01:00")
NIGHT = EVENING.date()
CATCH_UP = f"/api/sites/{SITE}/nights/tonight/catch-up"


def at(clock: str, day: int = 10) -> int:
    """A wall time in Lisbon in that night as an instant."""
    return int(datetime.fromisoformat(f"2026-07-{day:02}T{clock}:00+01:00").timestamp())


def a_park(run_s: int = 1800) -> Row:
    """Six stations of one cabinet, one at a time from 22:00 on, for half an hour each."""
    names = [f"s{number}" for number in range(1, 7)]
    return a_document_data(
        site=a_site(SITE, zone="Europe/Lisbon"),
        windows=[a_window(opens="22:00", closes="06:00")],
        supplies=[a_supply("town", limit_lpm=60)],
        controllers=[a_controller("cab")],
        hydrozones=[a_hydrozone("lawn")],
        stations=[a_station(name, supply="town", controller="cab", hydrozone="lawn", area_m2=300) for name in names],
        turns=[a_turn("p1", name, run_s=run_s) for name in names],
    )


@dataclass
class Park(Server):
    """The server, its worker, and what its controller tells."""

    def put(self, data: Row) -> None:
        """Store the document and have its nights planned."""
        with self.shared.database.session() as session:
            found = put_document(session, data)
            with session.begin():
                queue(session, found.site, found.revision)
        self.work()

    def work(self) -> int:
        """Plan until nothing is due; how many sheets were worked out."""
        made = 0
        while True:
            with self.shared.database.session() as session:
                done = work_once(session, "test", self.now, Orders(effort=4))
            if done is None:
                return made
            assert done.fault is None, done.fault
            made += done.sheets

    def stored(self) -> StoredSheet:
        """Tonight's stored sheet."""
        with self.shared.database.session() as session, session.begin():
            return newest_sheets(session, SITE, [NIGHT])[NIGHT.isoformat()]

    def tonight(self) -> NightSheet:
        """The same, read."""
        return sheet_in(self.stored())

    def night(self) -> Night:
        """Its night."""
        return night_on(clock_of(read_document(a_park()).site), NIGHT)

    def told(self, *entries: tuple[Kind, int, str | None]) -> None:
        """What the cabinet tells: kind, instant, station."""
        made = [
            Entry(
                uuid4().hex, when, kind, "reporter:cab", station=station,
                controller=None if station else "cab",
            )
            for kind, when, station in entries
        ]  # fmt: skip
        with self.shared.database.session() as session, session.begin():
            store(session, SITE, made, self.now)

    def supply_told(self, kind: Kind, when: int) -> None:
        """What is told of the one supply."""
        with self.shared.database.session() as session, session.begin():
            store(session, SITE, [Entry(uuid4().hex, when, kind, "reporter:cab", supply="town")], self.now)

    def ran_until(self, end: int) -> None:
        """The valves did as tonight's sheet has it, until an instant."""
        runs = [run for run in self.tonight().runs if run.start < end]
        self.told(*((Kind.OPENED, run.start, run.station) for run in runs))
        self.told(*((Kind.CLOSED, run.end, run.station) for run in runs if run.end <= end))

    def power_cut(self, start: int, end: int) -> None:
        """No power at the cabinet."""
        self.ran_until(start)
        self.told((Kind.POWER_LOST, start, None), (Kind.POWER_BACK, end, None))

    def is_now(self, instant: int) -> None:
        """Set the server's clock."""
        self.later(seconds=instant - self.now)


@pytest.fixture(params=["sqlite", "postgresql"])
def park(request: pytest.FixtureRequest, make_database: Callable[[str], str], tmp_path: Path) -> Iterator[Park]:
    """The park, its nights planned, an hour before its water."""
    first = tmp_path / "first.json"
    first.write_text(json.dumps(a_park()), encoding="utf-8")
    (tmp_path / "index.html").write_text("<!doctype html><title>the page</title>", encoding="utf-8")
    url = make_database(request.param)
    made = Park(
        create_app(Settings(data=tmp_path, database=url, first_document=first, app=tmp_path, now=EVENING, effort=4))
    )
    made.put(a_park())
    yield made
    made.shared.database.engine.dispose()


def an_acceptance(**fields: Any) -> Row:
    """What a phone sends whose person has accepted to recover."""
    return {"id": uuid4().hex, "night": NIGHT.isoformat(), "at": at("23:40"), "way": "recover", **fields}


def accepts(client: FlaskClient, **fields: Any) -> tuple[int, str | None]:
    """The status and the code of the answer."""
    answer = client.post(CATCH_UP, json=an_acceptance(**fields))
    return answer.status_code, None if answer.status_code == 200 else answer.json["code"]
