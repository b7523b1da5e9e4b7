"""Delivered water goes by the flow that a station's meter taught, once enough nights agree on it."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from datetime import date, timedelta

import pytest
from flask.testing import FlaskClient
from openpyxl import load_workbook
from sqlalchemy import delete

from pengan.engine.journal.entry import Kind
from pengan.engine.journal.learned import LEAST_NIGHTS
from pengan.web.alarms.models import LearnedFlow
from web.people.crew import SITE
from web.used.conftest import NIGHT, USED_PATH, Nights


@pytest.fixture
def learning(nights: Nights) -> Iterator[Nights]:
    yield nights
    with nights.server.shared.database.session() as session, session.begin():
        session.execute(delete(LearnedFlow))


def learned(
    nights: Nights, station: str, flow_lpm: float, count: int = LEAST_NIGHTS, until: str = NIGHT, firm: bool = True
) -> None:
    """So many nights before a night taught this flow."""
    days = [(date.fromisoformat(until) - timedelta(days=back)).isoformat() for back in range(1, count + 1)]
    with nights.server.shared.database.session() as session, session.begin():
        session.add_all(
            LearnedFlow(site=SITE, station=station, night=day, flow_lpm=flow_lpm, firm=firm) for day in days
        )


def over(nights: Nights) -> None:
    nights.told(nights.as_planned())
    nights.pass_days()
    nights.reckon()


def test_a_station_that_gives_less_than_stated_delivered_less(learning: Nights, manager: FlaskClient) -> None:
    """s1 gives 54 of its 60 L/min for 20 minutes, s3 33 of 30."""
    learned(learning, "s1", 54)
    learned(learning, "s3", 33)
    over(learning)
    total = learning.used(manager)["total"]
    assert (total["planned_l"], total["delivered_l"], total["beyond_l"]) == (2600, 2600 - 120, 60)
    assert total["lost"] == [{"why": "low_flow", "volume_l": 120}]
    (said,) = learning.used(manager)["said"]
    assert (said["code"], said["params"]) == (
        "used.flows_learned", {"nights": 1, "last_date": NIGHT, "learned": 2, "stations": 3},
    )  # fmt: skip


@pytest.mark.parametrize(("count", "firm"), [(LEAST_NIGHTS - 1, True), (LEAST_NIGHTS + 2, False)])
def test_few_nights_and_shared_out_flows_leave_it_to_the_document(
    learning: Nights, manager: FlaskClient, count: int, firm: bool
) -> None:
    learned(learning, "s1", 54, count, firm=firm)
    over(learning)
    found = learning.used(manager)
    assert (found["total"]["delivered_l"], found["said"]) == (2600, [])


def test_a_meter_is_held_against_what_came_by_the_learned_flows(learning: Nights, manager: FlaskClient) -> None:
    learned(learning, "s1", 54)
    starts = learning.sheet().starts
    counts = ((starts, 0), (learning.sheet().ends - 60, 2500))
    learning.told([learning.entry(Kind.COUNT, at, supply="town", count_l=litres) for at, litres in counts])
    over(learning)
    (meter,) = learning.used(manager)["meters"]
    assert (meter["counted_l"], meter["came_l"], meter["unaccounted_l"]) == (2500, 2480, 20)


def test_a_night_written_by_stated_flows_stays_so_whatever_is_learned_or_told_later(
    learning: Nights, manager: FlaskClient
) -> None:
    over(learning)
    learned(learning, "s1", 54)
    run = next(run for run in learning.sheet().runs if run.station == "s1")
    twice = ((Kind.OPENED, run.end + 7200), (Kind.CLOSED, run.end + 7260))
    learning.told([learning.entry(kind, at, station="s1") for kind, at in twice])
    assert learning.reckon() == 1
    total = learning.used(manager)["total"]
    assert (total["delivered_l"], total["beyond_l"]) == (2600, 60)


def test_a_night_written_by_learned_flows_is_reckoned_anew_by_the_same(learning: Nights, manager: FlaskClient) -> None:
    learned(learning, "s1", 54)
    over(learning)
    learned(learning, "s1", 30, count=1, until="2026-07-12")
    learning.told([learning.entry(Kind.COUNT, learning.sheet().starts, supply="town", count_l=1)])
    before = learning.used(manager)["total"]
    assert learning.reckon() == 1
    assert learning.used(manager)["total"] == before


def test_tables_and_books_say_how_many_stations_went_by_learned_flows(learning: Nights, manager: FlaskClient) -> None:
    learned(learning, "s1", 54)
    over(learning)
    rows = list(csv.reader(io.StringIO(manager.get(f"{USED_PATH}/table.csv").text)))
    assert rows[-2:] == [
        ["nights_by_learned_flows", "last_night", "stations_by_learned_flows", "stations"],
        ["1", NIGHT, "1", "3"],
    ]
    book = load_workbook(io.BytesIO(manager.get(f"{USED_PATH}/table.xlsx?language=en").data))
    column = [row[0].value for row in book.worksheets[0].iter_rows()]
    assert column[:4] == ["Month", "2026-07", "The whole site", None]
    assert column[4].startswith("Nights in which stations went by the flow learned from their meter: 1.")
