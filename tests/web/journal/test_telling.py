"""What people and reporters tell: taken once, judged one by one, and kept aside where it is no entry."""

from __future__ import annotations

import json
from typing import Any

import pytest
from flask.testing import FlaskClient
from sqlalchemy import select, update

from pengan.web.journal.aside import MOST_ROWS
from pengan.web.journal.models import JournalAside, JournalHead
from pengan.web.people.models import TeamSite
from pengan.web.people.rights import Role
from pengan.web.sites.operations import put_document
from web.journal.conftest import ENTRIES, JOURNAL, NOW, a_park, aside, counted, made_reporter, outcomes, read, row, send
from web.people.crew import BESIDE, SITE, Server, me

REPORTERS = f"/api/sites/{SITE}/reporters"


def test_a_reporters_token_lets_it_tell_until_it_is_ended(server: Server, manager: FlaskClient, token: str) -> None:
    listed = manager.get(REPORTERS).json
    assert [(one["name"], one["heard_at"], one["taken"]) for one in listed] == [("Cabinet by the gate", None, 0)]
    assert token not in manager.get(REPORTERS).text
    assert outcomes(send(server, token, row(), row("flow"), row("flow", flow_lpm=-2))) == [
        "taken", "taken", "journal.negative_flow",
    ]  # fmt: skip
    now = manager.get(REPORTERS).json[0]
    assert (now["heard_at"], now["taken"], now["aside"]) == (server.now, 2, 1)
    assert manager.delete(f"{REPORTERS}/{listed[0]['id']}").status_code == 204
    assert manager.get(REPORTERS).json == []
    assert send(server, token, row()).status_code == 401
    assert counted(server) == (2, 1)
    assert read(manager)["names"] == {f"reporter:{listed[0]['id']}": "Cabinet by the gate"}


@pytest.mark.parametrize("given", ["", "Bearer", "Bearer x.y.z", "Basic eHl6", "Bearer nobody"])
def test_without_a_token_nothing_is_told(server: Server, given: str) -> None:
    answer = server.browser().post(ENTRIES, json={"entries": [row()]}, headers={"Authorization": given})
    assert (answer.status_code, answer.json["code"]) == (401, "journal.not_a_reporter")
    assert counted(server) == (0, 0)


def test_another_reporters_secret_opens_nothing_nor_does_a_site_that_changed_its_team(
    server: Server, manager: FlaskClient, token: str
) -> None:
    team, reporter, _secret = token.split(".")
    other = made_reporter(manager, "Meter")["token"].split(".")[2]
    for wrong in (f"{team}.{reporter}.{other}", f"none.{reporter}.{_secret}"):
        assert send(server, wrong, row()).status_code == 401
    with server.shared.database.session() as session, session.begin():
        beside = session.scalar(select(TeamSite.team).where(TeamSite.site == BESIDE))
        session.execute(update(TeamSite).where(TeamSite.site == SITE).values(team=beside))
    refused = send(server, token, row()).status_code
    with server.shared.database.session() as session, session.begin():
        session.execute(update(TeamSite).where(TeamSite.site == SITE).values(team=team))
    assert refused == 401


def test_what_is_told_twice_is_one_entry_in_whatever_batch(server: Server, manager: FlaskClient, token: str) -> None:
    first, second = row(), row("closed")
    assert outcomes(send(server, token, first, first)) == ["taken", "known"]
    assert outcomes(send(server, token, second, first, second)) == ["taken", "known", "known"]
    again = made_reporter(manager, "The same, with another token")["token"]
    assert outcomes(send(server, again, first)) == ["known"], "its id tells, whatever token it came with"
    assert counted(server) == (2, 0)


def test_an_id_is_used_once(server: Server, manager: FlaskClient, token: str) -> None:
    first = row()
    send(server, token, first)
    assert outcomes(send(server, token, {**first, "at": NOW - 30})) == ["journal.id_taken"]
    note = row("note")
    assert outcomes(send(server, token, note, {**note, "text": "Dry"})) == ["taken", "journal.id_taken"]
    assert [entry["text"] for entry in read(manager, "kind=note")["entries"]] == ["Wet by the gate"]


def test_a_flood_of_the_same_is_one_entry_and_one_row_that_counts(
    server: Server, manager: FlaskClient, token: str
) -> None:
    """A broken gateway makes a new id each time it says the same."""
    for _batch in range(3):
        answer = send(server, token, *(row("flow") for _time in range(100)))
        assert answer.status_code == 200
    assert counted(server) == (1, 1)
    line = aside(manager)[0]
    assert (line["times"], line["faults"][0]["code"]) == (299, "journal.told_before")


@pytest.mark.parametrize(
    ("wrong", "field", "code"),
    [
        (row("flow", at=NOW + 901), "at", "journal.from_the_future"),
        (row("flow", at=300), "at", "journal.clock_not_set"),
        (row("flow", at="1970-01-01T00:05:00Z"), "at", "journal.clock_not_set"),
        (row("flow", flow_lpm=-0.5), "flow_lpm", "journal.negative_flow"),
        (row(station="s99"), "station", "journal.no_such_station"),
        (row("flow", supply="s1"), "supply", "journal.no_such_supply"),
        (row("alive", controller="none"), "controller", "journal.no_such_controller"),
        (row("note", text="x" * 2001), "text", "fault.too_long"),
        (row(id="?"), "id", "journal.not_an_id"),
        (row("alarm_opened"), "kind", "journal.not_yours"),
        (row("finding"), "kind", "journal.not_yours"),
        ({**row(), "by": "person:ana"}, "by", "fault.unknown_field"),
        (["opened"], None, "fault.not_object"),
    ],
)
def test_what_is_no_entry_is_kept_aside_with_its_reason_and_never_mixed_in(
    server: Server, manager: FlaskClient, token: str, wrong: Any, field: str | None, code: str
) -> None:
    sound = row()
    answer = send(server, token, wrong, sound)
    assert outcomes(answer) == [code, "taken"]
    assert answer.json["answers"][0]["faults"][0]["detail"]
    line = aside(manager)[0]
    assert (line["faults"][0]["field"], line["faults"][0]["code"], line["times"]) == (field, code, 1)
    assert json.loads(line["given"]) == wrong
    assert [entry["id"] for entry in read(manager)["entries"]] == [sound["id"]]
    assert outcomes(send(server, token, wrong)) == [code]
    assert [one["times"] for one in aside(manager)] == [2]


@pytest.mark.parametrize(
    ("body", "code"),
    [
        (json.dumps({"entries": [row("note", text="a picture follows: " + "AAAA" * 300)]})[:700], "fault.not_json"),
        ("\x89PNG", "fault.not_json"),
        ("[]", "fault.not_object"),
        ('{"entries": 7}', "journal.no_entries"),
        ('{"entries": [], "site": "beside"}', "fault.unknown_field"),
        (json.dumps({"entries": [0] * 1001}), "journal.too_many"),
        ('{"entries": [{"id": "\\ud800\\u0000"', "fault.not_json"),
    ],
)
def test_half_a_body_is_kept_aside_and_its_sender_told(
    server: Server, manager: FlaskClient, token: str, body: str, code: str
) -> None:
    answer = server.browser().post(
        ENTRIES, data=body, content_type="application/json", headers={"Authorization": f"Bearer {token}"}
    )
    assert (answer.status_code, answer.json["fields"][0]["code"]) == (400, code)
    line = aside(manager)[0]
    assert (line["faults"][0]["code"], line["given"][:400]) == (code, body[:400])
    assert counted(server) == (0, 1)
    assert manager.get(REPORTERS).json[0]["aside"] == 1


def test_a_body_beyond_all_bounds_is_not_read(server: Server, token: str) -> None:
    body = b'{"entries": "' + b"x" * 600_000 + b'"}'
    headers = {"Authorization": f"Bearer {token}", "Content-Type": "application/json"}
    assert server.browser().post(ENTRIES, data=body, headers=headers).status_code == 413


@pytest.mark.parametrize(
    ("role", "kinds"),
    [
        ("crew", {"note", "finding", "opened", "count", "alarm_seen"}),
        ("lead", {"note", "finding", "opened", "count", "alarm_seen", "stopped", "shut", "replaced"}),
        ("manager", {"note", "finding", "opened", "count", "alarm_seen", "stopped", "shut", "replaced"}),
    ],
)
def test_people_tell_what_their_role_allows(server: Server, role: Role, kinds: set[str]) -> None:
    """Only the watch itself opens an alarm, and only a controller says that it is heard."""
    tried = ("note", "finding", "opened", "count", "alarm_seen", "stopped", "shut", "replaced", "alarm_opened", "alive")
    client = server.person(role)
    found = outcomes(client.post(JOURNAL, json={"entries": [row(kind) for kind in tried]}))
    assert {kind for kind, outcome in zip(tried, found, strict=True) if outcome == "taken"} == kinds
    assert {outcome for outcome in found if outcome != "taken"} == {"journal.not_yours"}
    by = f"person:{me(client)['person']}"
    page = read(client)
    assert ({entry["by"] for entry in page["entries"]}, page["names"]) == ({by}, {by: "Maria"})


def test_an_outbox_may_be_sent_again_and_again(server: Server) -> None:
    """A phone that did not hear the answer sends the same once more."""
    client = server.person("crew")
    box = [row("note", text=f"Bed {number}") for number in range(3)]
    assert outcomes(client.post(JOURNAL, json={"entries": box})) == ["taken"] * 3
    assert outcomes(client.post(JOURNAL, json={"entries": [*box, row("finding")]})) == ["known"] * 3 + ["taken"]


def test_an_outbox_is_taken_of_nobody_but_its_person(server: Server, manager: FlaskClient) -> None:
    note, mine = row("note"), me(manager)["person"]
    other = server.person("crew").post(JOURNAL, json={"person": mine, "entries": [note]})
    assert (other.status_code, other.json["code"]) == (401, "journal.other_person")
    assert counted(server) == (0, 0)
    answer = manager.post(JOURNAL, json={"person": mine, "entries": [note]})
    assert outcomes(answer) == ["taken"]
    assert (other.headers["Pengan-Protocol"], answer.headers["Pengan-Protocol"]) == ("1", "1")


def test_nobody_tells_another_teams_site(server: Server, token: str) -> None:
    client = server.person("manager")
    assert client.post(f"/api/sites/{BESIDE}/journal", json={"entries": [row()]}).status_code == 404
    assert client.get(f"/api/sites/{BESIDE}/journal").status_code == 404
    send(server, token, row())
    beside = server.person("manager", BESIDE, "Ben")
    assert read(beside, site=BESIDE)["entries"] == []


def test_what_is_about_a_removed_station_is_still_taken(server: Server, token: str) -> None:
    """The entry came late, and the station ran before it was removed; a new station is known at once."""
    document = a_park(stations=("s0", "s1", "s7"))
    assert outcomes(send(server, token, row(station="s2"), row(station="s7"))) == ["taken", "journal.no_such_station"]
    with server.shared.database.session() as session:
        put_document(session, document)
    late = [row(station="s2", at=NOW - 500), row(station="s7", at=NOW - 500)]
    assert outcomes(send(server, token, *late)) == ["taken", "taken"]


def test_what_is_kept_aside_makes_room_when_there_is_too_much(server: Server, manager: FlaskClient, token: str) -> None:
    send(server, token, row(station="the-oldest"))
    with server.shared.database.session() as session, session.begin():
        session.execute(update(JournalHead).values(newest_aside=MOST_ROWS))
    send(server, token, row(station="the-newest"))
    with server.shared.database.session() as session:
        given = session.scalars(select(JournalAside.given)).all()
    assert len(given) == 1 and "the-newest" in given[0]


def test_a_page_of_what_was_kept_aside_leads_to_the_next(server: Server, manager: FlaskClient, token: str) -> None:
    send(server, token, *(row(station=f"x{number}") for number in range(5)))
    first = manager.get(f"{JOURNAL}/aside?limit=3").json
    second = manager.get(f"{JOURNAL}/aside?limit=3&before={first['next']}").json
    stations = [json.loads(line["given"])["station"] for line in (*first["aside"], *second["aside"])]
    assert stations == ["x4", "x3", "x2", "x1", "x0"]
    assert second["next"] is None
