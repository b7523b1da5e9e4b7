"""Databases of either kind, and one that holds something of everything."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from json import dumps
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import select

from builders import a_document_data, a_site, a_station, a_supply
from pengan.engine.clock.instants import Instant
from pengan.engine.document.fault import Fault
from pengan.engine.document.read import MISSING
from pengan.engine.journal.alarm import RIGHT_AGAIN
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.journal.finding import TOO_MUCH
from pengan.engine.message import Message
from pengan.web.ahead.operations import queue, work_once
from pengan.web.ahead.planning import Orders
from pengan.web.alarms.models import Alarm, AlarmLook, LearnedFlow, Order, Watched, WatchedNight
from pengan.web.catch_up.models import CaughtUp
from pengan.web.database import Base, Database
from pengan.web.journal.aside import Aside, keep_aside
from pengan.web.journal.models import Reporter
from pengan.web.journal.storing import store
from pengan.web.people.devices import enrol
from pengan.web.people.models import Grant, Person
from pengan.web.people.teams import adopt, team_of
from pengan.web.sites.operations import put_document
from pengan.web.used.models import UsedHead, UsedMeter, UsedNight, UsedWater

NOW = Instant(1_792_881_000)
Make = Callable[[str], Database]
Content = dict[str, list[tuple[Any, ...]]]


def a_park(site: str = "park", flow_lpm: float = 60) -> dict[str, Any]:
    """Names that need more than ASCII, a removed record in its past, a main that feeds another."""
    return a_document_data(
        site=a_site(site, name="Parc Ñandú — 公園 \N{LEFT-TO-RIGHT MARK}", notes="“quoted”\nand broken"),
        supplies=[a_supply(limit_lpm=120), a_supply("north", fed_by="town", limit_lpm=99.5)],
        stations=[a_station(f"s{n}", flow_lpm=flow_lpm, supply="north") for n in range(3)],
    )


def fill(database: Database) -> None:
    """Two sites with history, removed records, people with devices, planned nights; a long journal at one of them."""
    with database.session() as session:
        for site in ("park", "yard"):
            smaller = a_park(site, 30)
            smaller["records"] = [record for record in smaller["records"] if "s2" not in record["id"]]
            for data in (a_park(site), smaller):
                put_document(session, data, "ana", NOW)
            with session.begin():
                team = adopt(session, site)
                person = Person(team=team, id=f"ana-{site}", name="Ana Ñ", language="es", units="metric", joined_at=NOW)
                session.add(person)
                session.flush()
                session.add(Grant(team=team, site=site, person=person.id, role="manager", scope=1))
                enrol(session, person, "phone", NOW)
                queue(session, site, 2)
    tell(database)
    reckon(database)
    watch(database)
    with database.session() as session:
        work_once(session, "one", NOW, Orders(effort=2))


def reckon(database: Database) -> None:
    """What a night used, whose sheet is in no file."""
    said = {"site": "park", "night": "2026-10-01"}
    with database.session() as session, session.begin():
        session.add(UsedHead(site="park", newest=7, until=0))
        session.add(UsedNight(**said, told=True, stale=False, said="[]", reckoned_at=NOW))
        amounts = {column.name: 1000 for column in UsedWater.__table__.columns if column.name.endswith("_ml")}
        session.add(UsedWater(**said, supply="north", program="", hydrozone="", **amounts))
        amounts = {column.name: 5 for column in UsedMeter.__table__.columns if column.name.endswith(("_ml", "_at"))}
        session.add(UsedMeter(**said, supply="town", first_is_new=False, said="[]", **amounts))


def watch(database: Database) -> None:
    """An alarm that somebody saw and explained, and another that ended; what was learned; a rest that was accepted."""
    night = "2026-10-01"
    about = {
        "site": "park", "night": night, "last_night": night, "kind": "too_much", "gravity": 3, "supply": "north",
        "size_lpm": 30.5, "said": _json(TOO_MUCH(supply="north", size_lpm=30.5, since_at=NOW - 900)), "culprits": "[]",
        "spells": dumps({night: [[NOW - 900, NOW - 600, None]]}), "trial": "[]", "opened_at": NOW - 600, "times": 1,
    }  # fmt: skip
    why = _json(RIGHT_AGAIN(end_at=NOW - 60))
    explained = {"explained": "work", "explained_by": "rui-park", "explained_at": NOW, "explained_text": "Größe"}
    held = {"worker": "one", "until": NOW + 60, "looked_at": NOW, "due": NOW + 30}
    with database.session() as session, session.begin():
        team = team_of(session, "park")
        session.add_all(
            Person(team=team, id=f"{name}-park", name=name.title(), language="pt", units="metric", joined_at=NOW)
            for name in ("rui", "eva", "bo")
        )
        session.add(Watched(site="park", night=night, looked=1200, changes=2, **held))
        session.add(Alarm(id="alarm-0001", finding="one", change=1, **about, **explained))
        session.add(
            Alarm(id="alarm-0002", finding="two", change=2, **about, ended_at=NOW, ended_by="server", ended_why=why)
        )
        session.add(AlarmLook(site="park", alarm="alarm-0001", person="eva-park", at=NOW - 300))
        session.add(LearnedFlow(site="park", station="s0", night=night, flow_lpm=28.75, firm=True))
        session.add(WatchedNight(site="park", night=night, heard="[]", metered='["north"]', watched_at=NOW))
        session.add(Order(site="park", id="order-0001", at=NOW, supply="north", flow_lpm=90, limit_lpm=85))
        session.add(
            CaughtUp(
                site="park", night=night, id="rest-0001", at=NOW - 50, way="recover", effort=2, promised="[]",
                by="person:bo-park", arrived_at=NOW, worked_out=True, effect='{"missed_l": 3}',
            )
        )  # fmt: skip


def _json(message: Message) -> str:
    return dumps(message.as_json())


def tell(database: Database) -> None:
    """More entries than are read at a time, and something that was kept aside."""
    entries = [
        Entry(f"entry-{number:04}", NOW - 5000 + number, Kind.NOTE, "reporter:gate-cabinet", text=f"Größe {number}")
        for number in range(1200)
    ]
    with database.session() as session, session.begin():
        store(session, "park", entries, NOW)
        fault = Fault(None, None, "at", MISSING())
        keep_aside(session, "park", [Aside("reporter:gate-cabinet", "{}", (fault,), "{}")], NOW)
        session.add(
            Reporter(
                team=team_of(session, "park"), id="gate-cabinet", site="park", name="Gate", token_hash="a" * 64,
                made_by="ana-park", made_at=NOW, taken=1200, aside=1,
            )
        )  # fmt: skip


def content(database: Database) -> Content:
    """Every row of every table."""
    with database.session() as session, session.begin():
        return {
            table.name: [tuple(row) for row in session.execute(select(table).order_by(*table.primary_key.columns))]
            for table in Base.metadata.sorted_tables
        }


def same_but_for_epochs(one: Content, other: Content) -> bool:
    """Whether all is the same but what a restore has to change: each site's epoch."""
    sites = (one.pop("site_copies"), other.pop("site_copies"))
    epochs = [[row[-1] for row in rows] for rows in sites]
    return (
        one == other
        and [row[:-1] for row in sites[0]] == [row[:-1] for row in sites[1]]
        and not set(epochs[0]) & set(epochs[1])
    )


@pytest.fixture
def make(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Make]:
    """Makes an empty database of the kind named."""
    made: list[Database] = []

    def one(kind: str) -> Database:
        if kind == "postgresql":
            url = request.getfixturevalue("make_postgres")()
        else:
            url = f"sqlite:///{tmp_path / f'{len(made)}.sqlite3'}"
        made.append(Database(url))
        made[-1].upgrade()
        return made[-1]

    request.getfixturevalue("postgres_url")
    yield one
    for database in made:
        database.engine.dispose()
