"""The rest of a night: offered after a power cut, accepted, planned from then on, and carried into the next need."""

from __future__ import annotations

from typing import Any

from sqlalchemy import select

from pengan.engine.check.rest_of_sheet import rest_violations
from pengan.engine.journal.entry import Kind
from pengan.engine.journal.outages import Outages
from pengan.web.journal.models import JournalEntry
from pengan.web.need.waterings import waterings
from pengan.web.sites.operations import document_of, put_document
from web.catch_up.conftest import CATCH_UP, NIGHT, Park, a_park, accepts, an_acceptance, at
from web.people.crew import SITE, me

NONE = Outages({}, {}, ())


def offers(park: Park, role: str = "lead") -> dict[str, Any]:
    found: dict[str, Any] = park.person(role).get(CATCH_UP).json  # type: ignore[arg-type]
    return found


def cut(park: Park) -> None:
    """An hour without power in the middle of the second run, and ten minutes later somebody looks."""
    park.power_cut(at("22:45"), at("23:40"))
    park.is_now(at("23:40"))


def test_without_an_interruption_nothing_is_offered(park: Park) -> None:
    park.is_now(at("22:45"))
    park.ran_until(at("22:45"))
    found = offers(park)
    assert (found["offers"], found["interruptions"], found["accepted"]) == (None, [], [])


def test_after_a_power_cut_both_rests_are_offered_with_what_they_change(park: Park) -> None:
    cut(park)
    found = offers(park)
    keep, recover = found["offers"]["keep"]["effect"], found["offers"]["recover"]["effect"]
    assert found["interruptions"] == [
        {"what": "power", "since": at("22:45"), "until": at("23:40"), "controller": "cab", "supply": None}
    ]
    assert keep["lost_l"] == keep["missed_l"] == recover["missed_l"] > 0
    assert (recover["recovered_l"], recover["lost_l"]) == (keep["missed_l"], 0)
    assert recover["finish_after"] > recover["finish_before"] == keep["finish_after"]


def test_accepted_by_a_lead_tonight_is_the_sheet_that_was_offered(park: Park) -> None:
    cut(park)
    offered = offers(park)["offers"]["recover"]
    lead = park.person("lead", name="Inês")
    before = park.stored().number
    assert accepts(lead) == (200, None)
    assert park.work() == 1
    stored, document = park.stored(), park_document(park)
    assert (stored.number or 0) > (before or 0)
    assert park.person("crew").get(f"/api/sites/{SITE}/nights/tonight").json == offered["sheet"]
    assert rest_violations(document, park.tonight(), at("23:40"), NONE) == ()
    after = offers(park)
    assert [(one["by"], one["way"], one["effect"]) for one in after["accepted"]] == [
        (f"person:{me(lead)['person']}", "recover", offered["effect"])
    ]
    assert after["names"] == {f"person:{me(lead)['person']}": "Inês"}


def park_document(park: Park) -> Any:
    with park.shared.database.session() as session:
        return document_of(session, SITE).document


def test_it_stands_in_the_journal_once_however_often_it_is_sent(park: Park) -> None:
    cut(park)
    lead, given = park.person("lead"), an_acceptance()
    assert [lead.post(CATCH_UP, json=given).status_code for _ in range(3)] == [200] * 3
    assert park.work() == 1
    assert park.work() == 0
    with park.shared.database.session() as session, session.begin():
        notes = session.scalars(select(JournalEntry).where(JournalEntry.kind == Kind.NOTE.value)).all()
    assert [(note.at, note.by) for note in notes] == [(at("23:40"), f"person:{me(lead)['person']}")]


def test_keeping_to_the_clock_leaves_what_was_missed_to_the_next_nights_need(park: Park) -> None:
    planned = brought(park)
    cut(park)
    offered = offers(park)["offers"]["keep"]["effect"]
    accepts(park.person("manager"), way="keep")
    park.work()
    assert [(one["hydrozone"], one["volume_l"]) for one in offered["carried"]] == [("lawn", offered["lost_l"])]
    assert abs(planned - brought(park) - offered["lost_l"]) < 0.01


def brought(park: Park) -> float:
    with park.shared.database.session() as session:
        document = document_of(session, SITE).document
        with session.begin():
            return sum(one.volume_l for one in waterings(session, SITE, document, NIGHT, NIGHT))


def test_an_edit_later_that_night_changes_what_is_to_come_alone(park: Park) -> None:
    cut(park)
    accepts(park.person("lead"))
    park.work()
    caught_up, now = park.tonight(), at("00:10", 11)
    park.is_now(now)
    park.put(a_park(run_s=1500))
    edited = park.tonight()
    assert [run for run in edited.runs if run.end <= now] == [run for run in caught_up.runs if run.end <= now]
    later = {run.station for run in edited.runs if run.start >= now}
    assert later and all(run.end - run.start <= 1500 for run in edited.runs if run.station in later)
    assert rest_violations(park_document(park), edited, now, NONE) == ()


def test_a_name_that_is_changed_leaves_the_accepted_night_as_it_is(park: Park) -> None:
    cut(park)
    accepts(park.person("lead"))
    park.work()
    caught_up, number, data = park.tonight(), park.stored().number, a_park()
    next(one for one in data["records"] if one["table"] == "stations")["name"] = "Lawn by the gate"
    park.put(data)
    assert (park.tonight(), park.stored().number) == (caught_up, number)


def test_an_outage_that_goes_on_stays_out_after_an_edit(park: Park) -> None:
    """The cabinet is promised its power at two; an edit at half past midnight must plan nothing before that."""
    park.ran_until(at("22:45"))
    park.told((Kind.POWER_LOST, at("22:45"), None))
    park.is_now(at("23:40"))
    two = at("02:00", 11)
    promised = [{"kind": "power_back", "at": two, "controller": "cab"}]
    assert accepts(park.person("lead"), promised=promised) == (200, None)
    park.work()
    assert min(run.start for run in park.tonight().runs if run.start > at("22:45")) >= two
    asked = park.person("crew").get(CATCH_UP + "?offers=false").json
    assert ([one["promised"] for one in asked["accepted"]], asked["offers"]) == ([promised], None)
    park.is_now(at("00:30", 11))
    park.put(a_park(run_s=1500))
    assert min(run.start for run in park.tonight().runs if run.start > at("22:45")) >= two


def test_a_second_interruption_is_caught_up_from_the_first_rest(park: Park) -> None:
    cut(park)
    accepts(park.person("lead"))
    park.work()
    park.told(*((Kind.OPENED, run.start, run.station) for run in park.tonight().runs if run.start == at("23:40")))
    park.told((Kind.POWER_LOST, at("23:50"), None), (Kind.POWER_BACK, at("00:20", 11), None))
    park.is_now(at("00:20", 11))
    offered = offers(park)["offers"]["recover"]
    accepts(park.person("lead"), at=at("00:20", 11))
    assert park.work() == 1
    assert park.person("crew").get(f"/api/sites/{SITE}/nights/tonight").json == offered["sheet"]
    assert [one["worked_out"] for one in offers(park)["accepted"]] == [True, True]


def test_what_came_late_is_worked_out_from_when_it_was_accepted(park: Park) -> None:
    """A phone without signal: its person accepted at 23:40, and it is heard an hour later."""
    cut(park)
    offered = offers(park)["offers"]["recover"]
    park.is_now(at("00:40", 11))
    accepts(park.person("lead"), at=at("23:40"))
    park.work()
    assert park.person("crew").get(f"/api/sites/{SITE}/nights/tonight").json == offered["sheet"]


def test_crew_and_strangers_accept_nothing(park: Park) -> None:
    cut(park)
    assert accepts(park.person("crew"))[0] == 403
    assert accepts(park.browser())[0] == 401
    assert accepts(park.person("lead"), person="somebody") == (401, "catch_up.other_person")
    assert park.work() == 0


def test_a_night_that_is_over_and_moments_to_come_are_turned_away(park: Park) -> None:
    cut(park)
    lead = park.person("lead")
    assert accepts(lead, at=at("23:56")) == (422, "catch_up.not_in_night")
    assert accepts(lead, night="2026-07-11") == (422, "catch_up.not_in_night")
    promised = [{"kind": "freed", "at": at("23:59"), "supply": "none"}]
    assert accepts(lead, promised=promised) == (422, "catch_up.unknown_part")
    park.is_now(at("13:00", 11))
    assert accepts(lead) == (409, "catch_up.night_over")


def test_a_server_without_a_worker_gives_the_accepted_night_after_an_edit(park: Park) -> None:
    cut(park)
    accepts(park.person("lead"))
    park.work()
    caught_up = park.tonight()
    with park.shared.database.session() as session:
        put_document(session, a_park(run_s=1500))
    runs = park.person("crew").get(f"/api/sites/{SITE}/nights/tonight").json["runs"]
    ran = [run.start for run in caught_up.runs if run.end <= at("23:40")]
    assert [run["start"] for run in runs if run["end"] <= at("23:40")] == ran
