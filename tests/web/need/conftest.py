"""A server at an evening in July over a site whose turns go by need, and a database over which days pass."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta
from itertools import count
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import select

from builders import a_document_data, a_hydrozone, a_program, a_site, a_station, a_turn
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.plan.sheet import NightSheet, Run
from pengan.web.ahead.operations import queue, work_once
from pengan.web.ahead.planning import Orders
from pengan.web.app import create_app
from pengan.web.database import Database
from pengan.web.journal.storing import store
from pengan.web.need.carrying import carry_on
from pengan.web.need.models import NightWatering
from pengan.web.nights.stored import newest_sheets, sheet_in
from pengan.web.settings import Settings
from pengan.web.sites.operations import SiteDocument, document_of, put_document
from pengan.web.sync.models import Edit
from ready_tables import lay_tables
from web.people.crew import SITE, Server

NIGHT = date(2026, 7, 10)
EVENING = datetime.fromisoformat("2026-07-10T20:00:00+01:00")
DAY_S = 24 * 3600
Row = dict[str, Any]
_numbers = count(1)
LAWN: Row = {"soil": "loam", "roots_m": 0.5, "species_factor": 0.8, "watering": "days"}


def weather(day: date, **fields: Any) -> Row:
    return {"table": "weather", "id": f"w{day}", "day": day.isoformat(), **fields}


def soil_water(depletion_mm: float, day: date = NIGHT, **fields: Any) -> Row:
    return {"table": "soil_water", "id": f"h1.{day}", "hydrozone": "h1", "day": day.isoformat(),
            "depletion_mm": depletion_mm, **fields}  # fmt: skip


def a_need_site(*others: Row, zone: Row = LAWN, program: Row | None = None, **site: Any) -> dict[str, Any]:
    """A lawn of 240 m² by need, and roses by hand; normals of 5 mm a day."""
    normals = [{"table": "normals", "id": f"n{month}", "month": month, "et_mm": 5} for month in range(1, 13)]
    return a_document_data(
        site=a_site(SITE, **site),
        hydrozones=[a_hydrozone("h1", **zone), a_hydrozone("h2")],
        stations=[a_station("s1", hydrozone="h1", area_m2=240), a_station("s2", hydrozone="h2", area_m2=100)],
        programs=[a_program("p1", **(program or {}))],
        turns=[a_turn("p1", "s1", run_s=600, mode="need"), a_turn("p1", "s2", run_s=600)],
        others=[*normals, *others],
    )


def serve(folder: Path, data: dict[str, Any]) -> Server:
    """A server whose first document is this one, closed to strangers."""
    document = folder / "first.json"
    document.write_text(json.dumps(data), encoding="utf-8")
    (folder / "app").mkdir(exist_ok=True)
    (folder / "app" / "index.html").write_text("<!doctype html><title>the page</title>", encoding="utf-8")
    lay_tables(folder / "data" / "pengan.sqlite3")
    settings = Settings(data=folder / "data", first_document=document, app=folder / "app", now=EVENING, effort=4)
    return Server(create_app(settings))


def at(server: Server, moment: str) -> None:
    """Set the server's clock."""
    known = server.shared
    server.app.extensions["pengan"] = replace(
        known, settings=replace(known.settings, now=datetime.fromisoformat(moment))
    )


@pytest.fixture
def lawn(tmp_path: Path) -> Server:
    """The lawn lacks 20 mm this morning, after a week of dry days."""
    week = [weather(NIGHT - timedelta(days=back), et_mm=2.5, rain_mm=0) for back in range(1, 8)]
    return serve(tmp_path, a_need_site(soil_water(20), *week, allowance_pct=45, currency="EUR"))


class Noon:
    """A database with the site, and the days that pass over it."""

    def __init__(self, database: Database) -> None:
        self.database, self.now = database, int(EVENING.timestamp())

    def put(self, data: dict[str, Any]) -> None:
        with self.database.session() as session:
            found = put_document(session, data, person="ines")
            with session.begin():
                queue(session, found.site, found.revision)

    def found(self) -> SiteDocument:
        with self.database.session() as session:
            return document_of(session, SITE)

    def plan(self) -> None:
        """All that is due now."""
        with self.database.session() as session:
            while work_once(session, "one", self.now, Orders(effort=2)) is not None:
                pass

    def carry(self) -> bool:
        with self.database.session() as session:
            return carry_on(session, document_of(session, SITE), self.now)

    def soil(self) -> dict[str, tuple[str, float, str]]:
        """The records of soil water: hydrozone's id → day, depletion, how; by record."""
        records = self.found().document.soil_water.values()
        return {one.id: (one.day, one.depletion_mm, one.how) for one in records}

    def edits(self) -> list[Edit]:
        with self.database.session() as session:
            return list(session.scalars(select(Edit).where(Edit.person == "").order_by(Edit.revision, Edit.place)))

    def sheet(self, night: date = NIGHT) -> NightSheet:
        with self.database.session() as session:
            return sheet_in(newest_sheets(session, SITE, [night])[night.isoformat()])

    def runs(self, night: date = NIGHT) -> list[Run]:
        """Those of the lawn's station, in order."""
        return [run for run in self.sheet(night).runs if run.station == "s1"]

    def told(self, *entries: Entry) -> None:
        with self.database.session() as session, session.begin():
            assert set(store(session, SITE, entries, self.now)) <= {"taken"}

    def nights(self) -> dict[str, NightWatering]:
        with self.database.session() as session:
            rows = session.scalars(select(NightWatering).where(NightWatering.hydrozone == "h1"))
            return {row.night: row for row in rows}


def deficit(*others: Row) -> dict[str, Any]:
    return a_need_site(soil_water(20), *others)


def an_entry(kind: Kind, at: int, **fields: Any) -> Entry:
    return Entry(f"entry-{next(_numbers):06}", at, kind, "reporter:r1", **fields)


def opened_for(runs: Sequence[Run], share: float = 1.0) -> list[Entry]:
    """Every valve opened to the second, and closed when so much of its run is over."""
    return [
        an_entry(kind, at, station=run.station)
        for run in runs
        for kind, at in ((Kind.OPENED, run.start), (Kind.CLOSED, run.start + round((run.end - run.start) * share)))
    ]


@pytest.fixture
def noon(tmp_path: Path) -> Iterator[Noon]:
    database = Database(f"sqlite:///{tmp_path / 'sites.sqlite3'}")
    database.upgrade()
    yield Noon(database)
    database.engine.dispose()
