"""What a broker hands over, without a broker: whose it is, and what is kept aside of it."""

from __future__ import annotations

import json
from typing import Any

import pytest
from flask.testing import FlaskClient

from pengan.engine.journal.schema import topic_of
from pengan.web.journal.messages import Message, take_messages
from web.journal.conftest import NOW, aside, counted, made_reporter, read, row
from web.people.crew import SITE, Server


def message(token: str, *entries: object, of: str = "", **more: Any) -> Message:
    body = json.dumps({"token": token, "entries": entries, **more})
    return Message(topic_of(of or token.split(".")[1]), body.encode())


def take(server: Server, *messages: Message) -> list[list[str] | None]:
    with server.shared.database.session() as session:
        answers = take_messages(session, messages, NOW)
    return [None if told is None else [one.outcome for one in told] for told in answers]


def test_messages_of_several_reporters_are_taken_together(server: Server, manager: FlaskClient) -> None:
    one, other = made_reporter(manager, "One"), made_reporter(manager, "Other")
    first, second = row(), row("flow")
    told = take(
        server,
        message(one["token"], first),
        message(other["token"], second, row("flow", flow_lpm=-1)),
        message(one["token"], first, second),
        message(one["token"]),
    )
    assert told == [["taken"], ["taken", "aside"], ["known", "known"], []]
    page = read(manager)
    assert {entry["by"]: entry["id"] for entry in page["entries"]} == {
        f"reporter:{one['id']}": first["id"],
        f"reporter:{other['id']}": second["id"],
    }
    listed = {one["name"]: (one["taken"], one["aside"]) for one in manager.get(f"/api/sites/{SITE}/reporters").json}
    assert listed == {"One": (1, 0), "Other": (1, 1)}


def test_without_its_token_nothing_is_taken_in_a_reporters_name(
    server: Server, manager: FlaskClient, token: str
) -> None:
    """However often it is tried, that is one row for managers to see, and the reporter was not heard."""
    other = made_reporter(manager, "Other")["token"]
    reporter = token.split(".")[1]
    wrong = token[:-4] + "AAAA"
    for _time in range(3):
        told = take(
            server,
            message(wrong, row()),
            message(other, row(), of=reporter),
            Message(topic_of(reporter), json.dumps({"entries": [row()]}).encode()),
        )
        assert told == [None, None, None]
    lines = aside(manager)
    assert [(one["times"], one["by"], one["faults"][0]["code"]) for one in lines] == [
        (9, f"reporter:{reporter}", "journal.wrong_token")
    ]
    assert wrong not in lines[0]["given"] and token[-20:-4] not in lines[0]["given"]
    assert {one["heard_at"] for one in manager.get(f"/api/sites/{SITE}/reporters").json} == {None}


def test_an_ended_reporter_is_heard_no_more(server: Server, manager: FlaskClient) -> None:
    made = made_reporter(manager)
    manager.delete(f"/api/sites/{SITE}/reporters/{made['id']}")
    assert take(server, message(made["token"], row())) == [None]
    assert counted(server) == (0, 1)


@pytest.mark.parametrize("topic", ["pengan/1/nobody/entries", "pengan/1/entries", "other", "pengan/2/x/entries"])
def test_what_is_nobodys_is_dropped(server: Server, token: str, topic: str) -> None:
    assert take(server, Message(topic, message(token, row()).payload)) == [None]
    assert counted(server) == (0, 0)


@pytest.mark.parametrize(
    ("payload", "code"),
    [
        (b"", "fault.not_json"),
        (b"\x00\x01\xff\xfe", "fault.not_utf8"),
        (b"31.5", "fault.not_object"),
        (b'{"token": "a.b.cccc", "entries": [{"id": "half-a-pho', "fault.not_json"),
        (b'{"token": "t", "entries": {}}', "journal.no_entries"),
        (b'{"token": "t", "entries": [], "entries": []}', "fault.name_twice"),
        (b'{"a":' * 100_000, "fault.too_deep"),
        (b"x" * 600_000, "journal.too_large"),
    ],
)
def test_a_malformed_message_is_kept_aside_without_its_token_and_holds_nothing_up(
    server: Server, manager: FlaskClient, token: str, payload: bytes, code: str
) -> None:
    reporter = token.split(".")[1]
    sound = row()
    assert take(server, Message(topic_of(reporter), payload), message(token, sound)) == [None, ["taken"]]
    line = aside(manager)[0]
    assert (line["faults"][0]["code"], line["by"]) == (code, f"reporter:{reporter}")
    assert "a.b.cccc" not in line["given"]
    assert [entry["id"] for entry in read(manager)["entries"]] == [sound["id"]]


def test_a_token_is_shown_to_nobody_wherever_it_stands(server: Server, manager: FlaskClient, token: str) -> None:
    take(server, message(token, row("note", text="x", station=token), {**row(), "token": token}))
    assert len(aside(manager)) == 2
    assert all(token[-30:] not in line["given"] for line in aside(manager))
