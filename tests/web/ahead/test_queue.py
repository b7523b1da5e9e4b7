"""Claims: nobody plans what another is planning, and what a worker that died held is soon somebody else's."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest
from sqlalchemy import select

from pengan.web.ahead import planning
from pengan.web.ahead.models import PlanningJob
from pengan.web.ahead.queue import LEASE_S, Claim, ClaimLost, claim_next, give_back, hold
from pengan.web.ahead.waiting import Waiting, waiting
from pengan.web.nights.models import StoredSheet
from web.ahead.conftest import EVENING, Jobs, a_garden


def claim(jobs: Jobs, worker: str) -> Claim | None:
    with jobs.database.session() as session:
        return claim_next(session, worker, jobs.now, jobs.real)


def test_a_claimed_site_is_nobody_elses_until_the_lease_runs_out(jobs: Jobs) -> None:
    jobs.put(a_garden())
    first = claim(jobs, "one")
    assert first is not None and claim(jobs, "two") is None
    jobs.real += LEASE_S
    assert claim(jobs, "two") == Claim("garden", 0, "two")


def test_who_waited_longest_comes_first_and_edits_before_noons(jobs: Jobs) -> None:
    for name in ("c", "b", "a"):
        jobs.put(a_garden(name))
    jobs.work_all()
    jobs.now += 24 * 3600
    jobs.put(a_garden("c", flow_lpm=30))
    order = [claim(jobs, str(number)) for number in range(3)]
    assert [item.site for item in order if item] == ["c", "a", "b"]


def test_a_worker_whose_lease_ran_out_stores_nothing_more(jobs: Jobs, monkeypatch: pytest.MonkeyPatch) -> None:
    """It was only slow; meanwhile another has claimed the site and done the work."""
    jobs.put(a_garden())
    plan = planning.plan_night

    def slow(*args: Any, **words: Any) -> Any:
        monkeypatch.setattr(planning, "plan_night", plan)
        jobs.real += LEASE_S
        done = jobs.work("two")
        assert done is not None and done.sheets == 14
        return plan(*args, **words)

    monkeypatch.setattr(planning, "plan_night", slow)
    late = jobs.work("one")
    assert late is not None and (late.sheets, late.fault) == (0, "ClaimLost")
    with jobs.database.session() as session, session.begin():
        assert len(session.scalars(select(StoredSheet.number)).all()) == 14


def test_a_lease_is_renewed_with_every_sheet(jobs: Jobs) -> None:
    """A site with slow nights stays its worker's, as long as each of them takes less than a lease."""
    jobs.put(a_garden())

    def ticking() -> int:
        jobs.real += LEASE_S - 1
        return jobs.real

    done = jobs.work("one", clock=ticking)
    assert done is not None and (done.sheets, done.fault) == (14, None)


def test_a_worker_told_to_stop_finishes_its_sheet_and_gives_the_claim_back(jobs: Jobs) -> None:
    jobs.put(a_garden())
    done = jobs.work("one", stopping=lambda: True)
    assert done is not None and done.sheets == 1
    again = jobs.work("two")
    assert again is not None and again.sheets == 13


def test_a_claim_on_a_site_that_is_gone_is_lost(jobs: Jobs) -> None:
    jobs.put(a_garden())
    held = claim(jobs, "one")
    assert held is not None
    with jobs.database.session() as session, session.begin():
        session.delete(session.get_one(PlanningJob, "garden"))
    with jobs.database.session() as session, pytest.raises(ClaimLost), session.begin():
        hold(session, held, jobs.real)
    with jobs.database.session() as session:
        give_back(session, held)


def test_workers_side_by_side_claim_every_site_once(jobs: Jobs) -> None:
    """Eight at once, on connections of their own."""
    for number in range(24):
        jobs.put(a_garden(f"site-{number:02}"))

    def claims(worker: str) -> list[str]:
        found = iter(lambda: claim(jobs, worker), None)
        return [item.site for item in found]

    with ThreadPoolExecutor(8) as pool:
        taken = [site for sites in pool.map(claims, map(str, range(8))) for site in sites]
    assert sorted(taken) == [f"site-{number:02}" for number in range(24)]


def test_the_queue_is_counted_for_those_who_watch(jobs: Jobs) -> None:
    jobs.put(a_garden("one"))
    jobs.put(a_garden("b"))
    jobs.work()
    claim(jobs, "two")
    with jobs.database.session() as session:
        assert waiting(session, EVENING, jobs.real) == Waiting(sites=2, due=1, polish=1, claimed=1, failing=0)
