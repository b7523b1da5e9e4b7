"""Nights ahead: planned at the site's noon and after edits, tonight first, nothing twice."""

from __future__ import annotations

import json
from datetime import datetime, timedelta
from typing import Any

import pytest
from sqlalchemy import select

from pengan.engine.document.read import read_document
from pengan.engine.plan.night import plan_night
from pengan.engine.plan.sheet_json import loads
from pengan.web.ahead import planning
from pengan.web.ahead.models import PlanningJob
from pengan.web.ahead.operations import PLANNER, SheetChanges, queue_outdated, sheets_since
from pengan.web.nights.models import StoredSheet
from web.ahead.conftest import EVENING, Jobs, a_garden


def sheets(jobs: Jobs, cursor: int = 0, site: str = "garden") -> SheetChanges:
    with jobs.database.session() as session, session.begin():
        return sheets_since(session, site, cursor)


def job(jobs: Jobs, site: str = "garden") -> PlanningJob:
    with jobs.database.session() as session, session.begin():
        return session.scalars(select(PlanningJob).where(PlanningJob.site == site)).one()


def test_fourteen_nights_are_planned_tonight_first(jobs: Jobs) -> None:
    jobs.put(a_garden())
    worked = jobs.work()
    given = sheets(jobs)
    assert worked is not None and (worked.stage, worked.sheets, worked.fault) == (0, 14, None)
    assert [sheet.night.isoformat() for sheet in given.sheets][::13] == ["2026-07-14", "2026-07-27"]
    with jobs.database.session() as session, session.begin():
        numbers = session.execute(select(StoredSheet.night, StoredSheet.number).order_by(StoredSheet.number)).all()
    assert numbers[0] == ("2026-07-14", 1)
    assert (given.next, given.revision, given.tonight) == (14, 1, "2026-07-14")


def test_a_sheet_given_out_is_what_the_engine_makes_of_the_document(jobs: Jobs) -> None:
    data = a_garden()
    jobs.put(data)
    jobs.work()
    for given in sheets(jobs).sheets:
        assert loads(given.body) == plan_night(read_document(data), given.night, effort=planning.GLANCE)


def test_after_the_glance_tonight_alone_is_planned_with_all_its_effort(jobs: Jobs) -> None:
    jobs.put(a_garden())
    assert [(done.stage, done.sheets <= 1) for done in jobs.work_all()] == [(0, False), (1, True)]
    assert job(jobs).stage == 0


def test_next_work_is_at_the_sites_own_noon_whatever_its_clock_does(jobs: Jobs) -> None:
    """The night of 24 October 2026 is an hour longer in Lisbon: the next noon is 25 hours after the last."""
    jobs.now = int(datetime.fromisoformat("2026-10-24T21:00:00+01:00").timestamp())
    jobs.put(a_garden())
    jobs.put(a_garden("far", zone="Australia/Lord_Howe"))
    jobs.work_all()
    assert job(jobs).due == int(datetime.fromisoformat("2026-10-25T12:00:00+00:00").timestamp())
    assert job(jobs, "far").due == int(datetime.fromisoformat("2026-10-25T12:00:00+11:00").timestamp())


def test_at_noon_only_the_night_that_has_come_into_sight_is_worked_out(jobs: Jobs) -> None:
    jobs.put(a_garden())
    jobs.work_all()
    before = sheets(jobs)
    assert jobs.work() is None
    jobs.now = job(jobs).due
    first, _polish = jobs.work_all()
    after = sheets(jobs, before.next)
    assert (first.sheets, after.tonight) == (1, "2026-07-15")
    assert after.sheets[-1].night.isoformat() == "2026-07-28"


def test_a_worker_that_slept_through_two_noons_catches_up(jobs: Jobs) -> None:
    jobs.put(a_garden())
    jobs.work()
    jobs.now += int(timedelta(days=2).total_seconds())
    jobs.work_all()
    assert [sheet.night.day for sheet in sheets(jobs).sheets] == list(range(16, 30))


def test_an_edit_plans_again_only_the_nights_it_changes(jobs: Jobs) -> None:
    jobs.put(a_garden())
    jobs.work_all()
    before = sheets(jobs)
    data = a_garden()
    closure = {
        "table": "closures",
        "id": "k",
        "name": "Fair",
        "starts_on": "2026-07-17T14:00",
        "ends_on": "2026-07-17T22:00",
    }
    data["records"].append(closure)
    jobs.put(data)
    assert jobs.work_all()[0].sheets == 1
    after = sheets(jobs, before.next)
    assert [sheet.night.isoformat() for sheet in after.sheets] == ["2026-07-17"]
    assert (after.revision, len(sheets(jobs).sheets)) == (2, 14)


def test_a_new_name_changes_no_night(jobs: Jobs) -> None:
    jobs.put(a_garden())
    jobs.work_all()
    before = sheets(jobs)
    data = a_garden()
    next(record for record in data["records"] if record["table"] == "stations")["name"] = "The lawn by the gate"
    jobs.put(data)
    assert jobs.work_all()[0].sheets == 0
    assert sheets(jobs, before.next).sheets == ()
    assert sheets(jobs).revision == 2


def test_a_small_edit_moves_little(jobs: Jobs) -> None:
    jobs.put(a_garden())
    jobs.work_all()
    data = a_garden()
    next(record for record in data["records"] if record["table"] == "turns")["run_s"] = 1260
    jobs.put(data)
    jobs.work()
    tonight = loads(sheets(jobs).sheets[0].body)
    assert tonight.moved_pct == 0.0


def test_only_the_newest_of_several_edits_is_planned(jobs: Jobs) -> None:
    for flow in (30, 40, 60):
        jobs.put(a_garden(flow_lpm=flow))
    assert [done.sheets for done in jobs.work_all()][0] == 14
    with jobs.database.session() as session, session.begin():
        assert set(session.scalars(select(StoredSheet.revision))) == {3}


def test_an_edit_that_comes_while_nights_are_planned_is_planned_next(
    jobs: Jobs, monkeypatch: pytest.MonkeyPatch
) -> None:
    """After the sheet in hand the worker turns to the newer document; of the older one no more is worked out."""
    jobs.put(a_garden(flow_lpm=30))
    plan, planned = planning.plan_night, []

    def and_somebody_edits(document: Any, night: Any, **words: Any) -> Any:
        planned.append(document.stations["s0"].flow_lpm)
        if len(planned) == 1:
            jobs.put(a_garden(flow_lpm=60))
        return plan(document, night, **words)

    monkeypatch.setattr(planning, "plan_night", and_somebody_edits)
    jobs.work()
    assert planned[:3] == [30, 60, 60]
    assert sheets(jobs).revision == 2
    assert {sheet.revision for sheet in sheets(jobs).sheets} == {2}


def test_other_zone_data_or_another_engine_has_every_night_planned_again(jobs: Jobs) -> None:
    jobs.put(a_garden())
    jobs.work_all()
    with jobs.database.session() as session:
        assert queue_outdated(session, PLANNER) == 0
        assert queue_outdated(session, "1 2031a") == 1
    assert jobs.work() is not None


def test_sites_nobody_spoke_of_are_found(jobs: Jobs, monkeypatch: pytest.MonkeyPatch) -> None:
    """A site that was restored, or whose edit lost its way to the queue."""
    from pengan.web.sites.operations import put_document
    from pengan.web.sync import taken

    monkeypatch.setattr(taken, "_listeners", [])
    with jobs.database.session() as session:
        put_document(session, a_garden())
        assert queue_outdated(session, PLANNER) == 1
    jobs.work_all()
    with jobs.database.session() as session:
        put_document(session, a_garden(flow_lpm=30))
        assert queue_outdated(session, PLANNER) == 1
    jobs.work_all()
    assert sheets(jobs).revision == 2


def test_a_site_that_cannot_be_planned_waits_and_holds_up_nobody(jobs: Jobs, monkeypatch: pytest.MonkeyPatch) -> None:
    jobs.put(a_garden("one-broken"))
    jobs.put(a_garden("two-good"))
    plan = planning.plan_night

    def broken(document: Any, *args: Any, **words: Any) -> Any:
        if document.site.id == "one-broken":
            raise RuntimeError("a secret of somebody's")
        return plan(document, *args, **words)

    monkeypatch.setattr(planning, "plan_night", broken)
    done = jobs.work_all()
    assert {one.site: one.fault for one in done if one.stage == 0} == {"one-broken": "RuntimeError", "two-good": None}
    waiting = job(jobs, "one-broken")
    assert (waiting.due, waiting.tries, waiting.fault, waiting.worker) == (EVENING + 30, 1, "RuntimeError", None)
    jobs.now += 30
    jobs.work_all()
    assert job(jobs, "one-broken").due == jobs.now + 60
    monkeypatch.undo()
    jobs.put(a_garden("one-broken", flow_lpm=30))
    assert [one.fault for one in jobs.work_all()] == [None, None]
    assert job(jobs, "one-broken").tries == 0


def test_a_polish_that_noon_overtakes_becomes_the_next_nights(jobs: Jobs) -> None:
    jobs.put(a_garden())
    jobs.work()
    assert job(jobs).stage == 1
    jobs.now += int(timedelta(days=1).total_seconds())
    jobs.work_all()
    assert len(sheets(jobs).sheets) == 14
    assert sheets(jobs).tonight == "2026-07-15"


def test_a_phone_that_asks_with_a_cursor_of_another_database_gets_all(jobs: Jobs) -> None:
    jobs.put(a_garden())
    jobs.work_all()
    assert len(sheets(jobs, 10_000).sheets) == 14
    assert sheets(jobs, 0, "nowhere") == SheetChanges(0, 0, "", (), ())


def test_sheets_are_kept_whole_and_small(jobs: Jobs) -> None:
    jobs.put(a_garden())
    jobs.work()
    with jobs.database.session() as session, session.begin():
        packed = session.scalars(select(StoredSheet.packed)).all()
    bodies = [sheet.body for sheet in sheets(jobs).sheets]
    assert sum(map(len, packed)) < sum(len(body.encode()) for body in bodies) / 3
    assert all(json.loads(body)["site"] == "garden" for body in bodies)
