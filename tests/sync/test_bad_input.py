"""Bad input gets a clear answer in the reader's language, and nothing of anybody's is lost."""

from __future__ import annotations

import json
from typing import Any

import pytest
from sqlalchemy import update

from pengan.web.people.models import Device
from pengan.web.sync.models import Edit
from sync.history import PUSH, History
from sync.line import PROBLEM, Request
from sync.quiet import fresh_copy
from sync.world import shared_of

Row = dict[str, Any]
BEN = 1
LARGEST_FLOW_LPM = 60_000


def change(record: str, field: str, now: Any) -> Row:
    """An edit of one field."""
    table = "turns" if record.startswith("p1.") else "stations"
    return {"kind": "set", "table": table, "record": record, "field": field, "now": now}


def run(seconds: int) -> Row:
    """A run time with what belongs to it."""
    return {"run_s": seconds, "cycles": 1, "soak_s": 0}


def ask(crew: History, body: bytes, language: str = "en", token: str | None = None) -> Any:
    """A push as it is, in a reader's language."""
    client = crew.app.test_client()
    client.set_cookie("pengan", crew.grounds.members["ben"].token if token is None else token)
    return client.post(f"{PUSH}?language={language}", data=body, content_type="application/json")


BAD = {
    "an unknown field": ((change("s1", "colour", "red"),), "sync.no_such_field", "colour"),
    "a run time of -5": ((change("p1.s1", "run", run(-5)),), "fault.outside_s", "run_s"),
    "a run time of 40 hours": ((change("p1.s1", "run", run(40 * 3600)),), "fault.outside_s", "run_s"),
    # 20,000 gallons a minute, written as litres: beyond what any pipe of a site carries.
    "a flow in the wrong unit": ((change("s1", "flow_lpm", 75_708),), "fault.outside_lpm", "flow_lpm"),
}


@pytest.mark.parametrize("case", BAD)
def test_a_bad_edit_is_refused_with_the_limit_it_broke_in_the_readers_language(crew: History, case: str) -> None:
    edits, code, field = BAD[case]
    crew.make(BEN, edits)
    crew.make(BEN, [change("s2", "name", "Sound")])
    push = json.dumps(crew.phone(BEN).next_push()).encode()
    told = {}
    for language in ("en", "es"):
        answer = ask(crew, push, language)
        refused, sound = answer.json["answers"]
        assert (answer.status_code, refused["outcome"], sound["outcome"]) == (200, "refused", "taken")
        assert (refused["code"], refused["faults"][0]["code"]) == (code, code)
        assert refused["faults"][0]["field"] == field
        assert refused["params"]
        told[language] = refused["detail"]
    assert told["en"] and told["es"] and told["en"] != told["es"], told
    assert fresh_copy(crew).open_waiting("refused")[0]["answer"]["code"] == code


def test_a_refused_flow_names_its_limit(crew: History) -> None:
    crew.make(BEN, [change("s1", "flow_lpm", 75_708)])
    crew.push(BEN)
    [answer] = crew.phone(BEN).kept["answers"].values()
    assert answer["params"]["most_lpm"] == LARGEST_FLOW_LPM
    assert answer["params"]["given_lpm"] == 75_708


@pytest.mark.parametrize("language", ["en", "es"])
def test_a_set_of_ten_thousand_edits_is_a_problem_and_the_site_stays(crew: History, language: str) -> None:
    before = fresh_copy(crew).records
    edit = {"id": "e", "format": 1, "seen": 1, **change("s1", "name", "Many")}
    edits = [edit | {"id": f"many{number}"} for number in range(10_000)]
    body = json.dumps({"sets": [{"id": "many", "site": crew.grounds.site, "edits": edits}]}).encode()
    answer = ask(crew, body, language)
    assert (answer.status_code, answer.mimetype) == (413, PROBLEM)
    assert answer.json["detail"]
    assert answer.json["params"]["limit"] == 64 * 1024
    assert fresh_copy(crew).records == before


def test_a_phone_whose_clock_says_2060_is_shown_as_saying_so_and_nothing_else(crew: History) -> None:
    crew.phone(BEN).clock_s = 2_850_000_000
    [edit] = crew.make(BEN, [change("s1", "name", "From 2060")])
    crew.push(BEN)
    assert crew.phone(BEN).kept["answers"][edit]["outcome"] == "taken"
    with shared_of(crew.app).database.session() as session:
        kept = session.get(Edit, (crew.grounds.site, edit))
    assert kept is not None
    assert kept.phone_time == "2850000000"
    assert kept.at < 2_000_000_000


def test_an_expired_token_is_answered_401_and_the_outbox_goes_through_once_signed_in_again(crew: History) -> None:
    edits = [crew.make(BEN, [change(f"s{n % 3 + 1}", "notes", f"Note {n}")])[0] for n in range(40)]
    crew.phone(BEN).next_push()
    unsent = len(crew.phone(BEN).outbox)
    end_devices(crew, seen_at=0)
    reply = crew.push(BEN)
    assert (reply.status, reply.ours, reply.body["code"]) == (401, True, "people.signed_out")
    assert len(crew.phone(BEN).outbox) == unsent
    end_devices(crew, seen_at=2_000_000_000)
    crew.push(BEN)
    answers = crew.phone(BEN).kept["answers"]
    assert {answers[edit]["outcome"] for edit in edits if edit in answers} == {"taken"}
    assert not crew.phone(BEN).outbox


def test_a_revoked_device_is_answered_401_and_its_outbox_stays(crew: History) -> None:
    crew.make(BEN, [change("s1", "name", "From a lost phone")])
    end_devices(crew, ended_at=1)
    for language, reply in ((tongue, ask(crew, push_of(crew), tongue)) for tongue in ("en", "es")):
        assert (reply.status_code, reply.json["code"]) == (401, "people.signed_out"), language
    assert len(crew.phone(BEN).outbox) == 1
    assert fresh_copy(crew).records["stations/s1"]["name"] == "S1"


@pytest.mark.parametrize("token", ["", "nonsense", "a.b.c", "x" * 5000, "team.device.\u0000"])
def test_a_token_that_is_none_is_answered_401(crew: History, token: str) -> None:
    crew.make(BEN, [change("s1", "name", "Nobody's")])
    reply = crew.line.deliver(Request(PUSH, push_of(crew), token))
    assert reply.status == 401


def push_of(crew: History) -> bytes:
    """What Ben's phone would send."""
    return json.dumps(crew.phone(BEN).next_push()).encode()


def end_devices(crew: History, **values: Any) -> None:
    """Something happens to Ben's devices."""
    own = update(Device).where(Device.person == crew.grounds.members["ben"].person)
    with shared_of(crew.app).database.session() as session, session.begin():
        session.execute(own.values(**values))
