"""A night whose water has begun to run: an edit, another engine or another try change only what is still to come."""

from __future__ import annotations

from typing import Any

import pytest
from sqlalchemy import select

from builders import a_window
from pengan.engine.plan.sheet import NightSheet
from pengan.web.ahead import planning
from pengan.web.nights.models import StoredSheet
from pengan.web.nights.stored import sheet_in
from web.ahead.conftest import Jobs, a_garden

NIGHT = "2026-07-14"


def tonight(jobs: Jobs) -> NightSheet:
    """Tonight's sheet as phones had it last."""
    with jobs.database.session() as session, session.begin():
        newest = select(StoredSheet).where(StoredSheet.night == NIGHT).order_by(StoredSheet.number.desc()).limit(1)
        return sheet_in(session.scalars(newest).one())


def a_dark_garden(run_s: int = 1200) -> dict[str, Any]:
    """The garden, watered from 22:00 on."""
    data = a_garden()
    data["records"].append(a_window(opens="22:00", closes="06:00"))
    for record in data["records"]:
        if record["table"] == "turns":
            record["run_s"] = run_s
    return data


def under_way(jobs: Jobs) -> NightSheet:
    """Its night, ten minutes after the second pair of stations has begun: two ran, two run, two are to come."""
    jobs.put(a_dark_garden())
    jobs.work_all()
    sheet = tonight(jobs)
    jobs.now = sheet.runs[2].start + 600
    return sheet


def test_an_edit_leaves_what_ran_and_changes_what_is_open_and_to_come(jobs: Jobs) -> None:
    before = under_way(jobs)
    jobs.put(a_dark_garden(run_s=1500))
    jobs.work_all()
    after = tonight(jobs)
    assert [(run.turn, run.start, run.end) for run in after.runs[:2]] == [
        (run.turn, run.start, run.end) for run in before.runs[:2]
    ]
    assert {run.start for run in after.runs[2:4]} == {before.runs[2].start}
    assert [run.end - run.start for run in after.runs] == [1200, 1200, 1500, 1500, 1500, 1500]


def test_before_its_first_water_an_edit_plans_all_of_it(jobs: Jobs) -> None:
    jobs.put(a_dark_garden())
    jobs.work_all()
    jobs.now = tonight(jobs).runs[0].start
    jobs.put(a_dark_garden(run_s=1500))
    jobs.work_all()
    assert {run.end - run.start for run in tonight(jobs).runs} == {1500}


def test_an_edit_and_its_undo_bring_every_station_what_it_had(jobs: Jobs) -> None:
    """What was put off by the edit stays where it is: pulling it forward again is not worth a second move."""
    before = under_way(jobs)
    for run_s in (1500, 1200):
        jobs.put(a_dark_garden(run_s=run_s))
        jobs.work_all()
    after = tonight(jobs)
    lengths = [[(run.turn, run.end - run.start) for run in sheet.runs] for sheet in (before, after)]
    assert lengths[0] == lengths[1]
    assert before.finish is not None and after.finish is not None and 0 <= after.finish - before.finish <= 300


def test_another_engine_moves_nothing_into_the_past(jobs: Jobs, monkeypatch: pytest.MonkeyPatch) -> None:
    before = under_way(jobs)
    for module in ("pengan.web.ahead.planning", "pengan.web.ahead.operations", "pengan.web.nights.stored"):
        monkeypatch.setattr(f"{module}.PLANNER", "1 2031a")
    jobs.put(a_dark_garden(run_s=1500))
    jobs.work_all()
    after = tonight(jobs)
    assert [run.end - run.start for run in after.runs] == [1200, 1200, 1500, 1500, 1500, 1500]
    assert after.runs[0].start == before.runs[0].start


def test_it_is_not_polished_any_more(jobs: Jobs, monkeypatch: pytest.MonkeyPatch) -> None:
    under_way(jobs)
    planned: list[str] = []
    plan = planning.plan_night

    def counted(document: Any, night: Any, **words: Any) -> NightSheet:
        planned.append(night.isoformat())
        return plan(document, night, **words)

    monkeypatch.setattr(planning, "plan_night", counted)
    jobs.put(a_dark_garden(run_s=1500))
    assert [done.stage for done in jobs.work_all()] == [0, 1]
    assert len(planned) == 13 and NIGHT not in planned
