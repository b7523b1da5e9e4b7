"""Nights are reckoned up once they are over, and anew when something is told late."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import pytest
from flask.testing import FlaskClient
from sqlalchemy import select, update

from pengan.engine.journal.entry import Kind
from pengan.web.ahead.models import PlanningJob
from pengan.web.used.models import UsedHead, UsedNight
from web.used.conftest import DAY_S, NIGHT, Nights, a_park

PLANNED_L = 20 * (60 + 40 + 30)


def test_tonight_is_not_reckoned_up_before_it_is_over(nights: Nights, manager: FlaskClient) -> None:
    nights.told(nights.as_planned())
    assert nights.reckon() == 0
    nights.pass_days()
    assert (nights.reckon(), nights.reckon()) == (1, 0)
    found = nights.used(manager)
    assert (found["nights"], found["told"], found["total"]["delivered_l"]) == (1, 1, PLANNED_L)


def test_nothing_told_means_not_known_and_the_plan_is_assumed(nights: Nights, manager: FlaskClient) -> None:
    nights.pass_days()
    nights.reckon()
    found = nights.used(manager)
    total = found["total"]
    assert (found["nights"], found["told"]) == (1, 0)
    assert (total["planned_l"], total["delivered_l"], total["assumed_l"]) == (PLANNED_L, None, PLANNED_L)


def test_entries_that_come_late_have_their_night_reckoned_up_anew(nights: Nights, manager: FlaskClient) -> None:
    nights.pass_days()
    nights.reckon()
    run = nights.sheet().runs[0]
    late = nights.as_planned(but=[run.station])
    late += [nights.entry(Kind.OPENED, run.start, station=run.station)]
    late += [nights.entry(Kind.CLOSED, run.start + 300, station=run.station)]
    nights.told(late)
    assert (nights.reckon(), nights.reckon()) == (1, 0)
    total = nights.used(manager)["total"]
    assert total["lost"] == [{"why": "closed_early", "volume_l": pytest.approx(run.volume_l * 900 / 1200)}]
    assert total["planned_l"] == total["delivered_l"] + total["assumed_l"] + total["lost_l"]


def test_a_main_shut_days_ago_and_told_of_only_now_changes_the_nights_since(
    nights: Nights, manager: FlaskClient
) -> None:
    before = nights.now - 3600
    nights.pass_days(1)
    nights.plan()
    nights.pass_days(1)
    assert nights.reckon() == 2
    nights.told([nights.entry(Kind.SHUT, before, supply="north")])
    assert nights.reckon() == 2
    lines = {line["key"]: line for line in nights.used(manager, "by=supply")["lines"]}
    assert lines["north"]["lost"] == [{"why": "shut", "volume_l": 2 * 2000}]
    assert lines["south"]["lost_l"] == 0


def test_reckoned_up_twice_is_the_same(nights: Nights) -> None:
    nights.told([*nights.as_planned(), nights.entry(Kind.COUNT, nights.now, supply="town", count_l=5)])
    nights.pass_days()
    nights.reckon()
    first = nights.rows()
    with nights.server.shared.database.session() as session, session.begin():
        session.execute(update(UsedNight).values(stale=True))
    assert nights.reckon() == 1
    assert nights.rows() == first
    assert first["used_water"]
    assert first["used_meters"]


def test_two_processes_at_once_write_each_night_once(nights: Nights, manager: FlaskClient) -> None:
    nights.told(nights.as_planned())
    nights.pass_days()
    with ThreadPoolExecutor(2) as processes:
        counts = list(processes.map(lambda _number: nights.reckon(), range(2)))
    assert sum(counts) == 1
    assert nights.used(manager)["total"]["delivered_l"] == PLANNED_L


def test_a_claim_whose_holder_died_runs_out(nights: Nights) -> None:
    nights.pass_days()
    nights.reckon()
    nights.told(nights.as_planned())
    with nights.server.shared.database.session() as session, session.begin():
        session.execute(update(UsedHead).values(until=1000))
    assert (nights.reckon(real=999), nights.reckon(real=1000)) == (0, 1)


def test_a_station_that_went_to_other_plants_since_leaves_the_past_where_it_was(
    nights: Nights, manager: FlaskClient
) -> None:
    nights.pass_days()
    data = a_park()
    station = next(one for one in data["records"] if one["id"] == "s1" and one["table"] == "stations")
    station["hydrozone"] = None
    nights.put(data)
    nights.reckon()
    lines = {line["key"]: line["planned_l"] for line in nights.used(manager, "by=hydrozone")["lines"]}
    assert lines == {"": 1400, "lawn": 1200}


def test_where_a_counter_begins_again_may_be_stated_later(nights: Nights, manager: FlaskClient) -> None:
    starts = nights.sheet().starts
    readings = ((starts, 99_000), (starts + DAY_S - 60, 1_500))
    nights.told([nights.entry(Kind.COUNT, at, supply="town", count_l=litres) for at, litres in readings])
    nights.pass_days()
    nights.reckon()
    (meter,) = nights.used(manager)["meters"]
    assert (meter["counted_l"], [one["code"] for one in meter["said"]]) == (0, ["counts.went_back"])
    data = a_park()
    next(one for one in data["records"] if one["id"] == "town")["counter_l"] = 100_000
    nights.put(data)
    nights.told([nights.entry(Kind.NOTE, nights.now, text="Six digits")])
    nights.reckon()
    (meter,) = nights.used(manager)["meters"]
    assert (meter["counted_l"], [one["code"] for one in meter["said"]]) == (2500, ["counts.rolled_over"])


def test_planning_is_neither_asked_nor_held(nights: Nights) -> None:
    nights.told(nights.as_planned())
    nights.pass_days()
    database = nights.server.shared.database
    with database.session() as session:
        before = session.execute(select(PlanningJob.__table__)).all()
    nights.reckon()
    with database.session() as session:
        assert session.execute(select(PlanningJob.__table__)).all() == before
        assert session.scalar(select(UsedNight.night)) == NIGHT
