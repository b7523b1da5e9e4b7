"""Notices of clock changes and of nights that somebody's edits have changed, and the effect of edits on tonight."""

from __future__ import annotations

import json
from datetime import datetime
from typing import Any

from sqlalchemy import select

from pengan.web.ahead.notices import Notice, notices_of
from pengan.web.ahead.told import Told
from pengan.web.sync.models import Edit
from web.ahead.conftest import NOON, Jobs, a_garden

OCTOBER = int(datetime.fromisoformat("2026-10-15T21:00:00+01:00").timestamp())
BACK_AT = int(datetime.fromisoformat("2026-10-25T01:00:00+00:00").timestamp())


def notices(jobs: Jobs, person: str | None = None) -> list[Notice]:
    with jobs.database.session() as session, session.begin():
        return notices_of(session, "garden", person)


def edited(jobs: Jobs, person: str, **fields: Any) -> int:
    """A document put in place, with an entry in the history that says who did it."""
    revision = jobs.put(a_garden(**fields))
    entry: dict[str, Any] = {"kind": "set", "record_table": "stations", "record": "s0", "field": "flow_lpm"}
    with jobs.database.session() as session, session.begin():
        session.add(
            Edit(site="garden", id=f"e{revision}", revision=revision, place=0, edit_set=f"set{revision}", format=1,
                 outcome="taken", answer="{}", person=person, at=jobs.now, **entry)
        )  # fmt: skip
    return revision


def effect(jobs: Jobs, revision: int) -> Any:
    with jobs.database.session() as session, session.begin():
        found = session.scalar(select(Edit.effect).where(Edit.revision == revision, Edit.id == f"e{revision}"))
    return None if found is None else json.loads(found)


def test_a_coming_change_of_the_clock_is_told_once(jobs: Jobs) -> None:
    jobs.now = OCTOBER
    jobs.put(a_garden())
    jobs.work_all()
    first = notices(jobs)
    jobs.now += 24 * 3600
    jobs.work_all()
    assert notices(jobs) == first
    assert [(item.night, item.message.code, dict(item.message.params)) for item in first] == [
        ("2026-10-24", "ahead.clock_back", {"night_date": "2026-10-24", "step_s": 3600})
    ]
    assert (first[0].people, first[0].revision) == ((), None)


def test_a_change_that_will_not_come_after_all_is_taken_back(jobs: Jobs) -> None:
    """The site is given a clock of its own without summer time, as when a government has done away with it."""
    jobs.now = OCTOBER
    jobs.put(a_garden())
    jobs.work_all()
    jobs.put(a_garden(zone_rule="WET0"))
    jobs.work_all()
    assert notices(jobs) == []


def test_notices_go_when_their_night_is_over(jobs: Jobs) -> None:
    jobs.now = OCTOBER
    jobs.put(a_garden())
    jobs.work_all()
    jobs.now = BACK_AT + 3 * 24 * 3600
    jobs.work_all()
    assert notices(jobs) == []


def test_a_night_that_somebody_elses_edit_moved_by_much_is_told_to_others(jobs: Jobs) -> None:
    """Half the flow lets four stations run at a time instead of two: the night ends sooner."""
    jobs.now = NOON
    jobs.put(a_garden())
    jobs.work_all()
    revision = edited(jobs, "ana", flow_lpm=30)
    jobs.work_all()
    told = notices(jobs, "ben")
    assert {(item.message.code, item.people, item.revision) for item in told} == {
        ("ahead.ends_sooner", ("ana",), revision)
    }
    assert len(told) == 14
    assert notices(jobs, "ana") == []


def test_a_night_moved_by_little_is_not_told(jobs: Jobs) -> None:
    jobs.put(a_garden())
    jobs.work_all()
    edited(jobs, "ana", flow_lpm=30)
    jobs.work(told=Told(finish_s=24 * 3600))
    assert notices(jobs) == []


def test_water_that_no_longer_fits_is_told(jobs: Jobs) -> None:
    jobs.put(a_garden())
    jobs.work_all()
    edited(jobs, "ana", finish_by="12:40")
    jobs.work_all()
    codes = {item.message.code for item in notices(jobs)}
    assert "ahead.more_short" in codes


def test_a_document_put_in_place_at_the_server_is_told_to_all(jobs: Jobs) -> None:
    jobs.put(a_garden())
    jobs.work_all()
    jobs.put(a_garden(flow_lpm=30))
    jobs.work_all()
    assert {(item.message.code, item.people) for item in notices(jobs, "ana")} == {("ahead.ends_sooner", ())}


def test_what_an_edit_did_to_tonight_stands_in_the_history(jobs: Jobs) -> None:
    jobs.now = NOON
    jobs.put(a_garden())
    jobs.work_all()
    first = edited(jobs, "ana", flow_lpm=30)
    jobs.work_all()
    second = edited(jobs, "ben", flow_lpm=60)
    jobs.work_all()
    there, back = effect(jobs, first), effect(jobs, second)
    assert there["night"] == "2026-07-14" and there["revisions"] == [first, first]
    assert there["before"] == back["after"] and there["after"] == back["before"]
    assert there["before"]["finish"] - there["after"]["finish"] == 1200


def test_edits_planned_together_say_so(jobs: Jobs) -> None:
    jobs.put(a_garden())
    jobs.work_all()
    first, second = edited(jobs, "ana", flow_lpm=40), edited(jobs, "ben", flow_lpm=30)
    jobs.work_all()
    assert effect(jobs, first) == effect(jobs, second)
    assert effect(jobs, first)["revisions"] == [first, second]
    assert {item.people for item in notices(jobs, "ana")} == {("ana", "ben")}


def test_an_edit_that_leaves_tonight_as_it_is_says_that_too(jobs: Jobs) -> None:
    jobs.put(a_garden())
    jobs.work_all()
    revision = edited(jobs, "ana", notes="Ask the gardener first.")
    jobs.work_all()
    known = effect(jobs, revision)
    assert known["before"] == known["after"]
