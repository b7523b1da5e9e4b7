"""Entries over HTTP, against a server that answers as it is told to."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, HTTPServer
from threading import Thread
from typing import Any

import pytest

from pengan.engine.journal.entry import Entry, Kind
from pengan.field.line.over_http import ATTEMPTS, OverHttp
from pengan.field.line.sending import SendingFault
from pengan.words import say

ENTRIES = [
    Entry("entry-0001", 1_800_000_000, Kind.FLOW, "reporter:x", supply="north", flow_lpm=12.5),
    Entry("entry-0002", 1_800_000_060, Kind.OPENED, "reporter:x", station="s1"),
]
TOKEN = "team.reporter.secret"
Answer = tuple[int, Any]


class Server(HTTPServer):
    """Answers with what stands in `answers`, the last one for good; keeps what it heard."""

    answers: list[Answer]

    def __init__(self, answers: list[Answer]) -> None:
        super().__init__(("127.0.0.1", 0), Answering)
        self.answers, self.heard = answers, list[tuple[str, str | None, Any]]()


class Answering(BaseHTTPRequestHandler):
    server: Server

    def do_POST(self) -> None:
        body = json.loads(self.rfile.read(int(self.headers["Content-Length"])))
        self.server.heard.append((self.path, self.headers["Authorization"], body))
        status, answer = self.server.answers[0]
        if len(self.server.answers) > 1:
            self.server.answers.pop(0)
        self.send_response(status)
        if status == 302:
            self.send_header("Location", answer)
        self.end_headers()
        self.wfile.write(json.dumps(answer).encode())

    def log_message(self, *_words: Any) -> None:
        """Tests are quiet."""


@contextmanager
def serving(*answers: Answer) -> Iterator[Server]:
    server = Server(list(answers))
    thread = Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield server
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


def sender(server: HTTPServer, slept: list[float] | None = None) -> OverHttp:
    pauses = [] if slept is None else slept
    return OverHttp(f"http://127.0.0.1:{server.server_port}/", TOKEN, sleep=pauses.append)


def taken(*outcomes: str) -> Answer:
    return 200, {"answers": [{"id": "entry-0001", "outcome": outcome, "faults": []} for outcome in outcomes]}


def test_entries_go_to_the_journals_address_with_the_token() -> None:
    with serving(taken("taken", "known")) as server:
        assert sender(server).send(ENTRIES) == Counter(taken=1, known=1)
    assert server.heard == [
        (
            "/api/journal/entries",
            f"Bearer {TOKEN}",
            {
                "entries": [
                    {"id": "entry-0001", "at": 1_800_000_000, "kind": "flow", "supply": "north", "flow_lpm": 12.5},
                    {"id": "entry-0002", "at": 1_800_000_060, "kind": "opened", "station": "s1"},
                ]
            },
        )
    ]


@pytest.mark.parametrize("status", [503, 429, 502])
def test_a_server_that_is_busy_is_asked_again_ever_later(status: int) -> None:
    slept: list[float] = []
    with serving((status, {}), (status, {}), taken("taken")) as server:
        assert sender(server, slept).send(ENTRIES) == Counter(taken=1)
    assert slept == [1, 2]
    assert server.heard[0] == server.heard[2]


def test_a_server_that_stays_away_is_given_up() -> None:
    slept: list[float] = []
    with serving() as server:
        address = sender(server, slept)
    with pytest.raises(SendingFault) as found:
        address.send(ENTRIES)
    assert len(slept) == ATTEMPTS - 1
    assert "could not be reached" in say(found.value.message)


@pytest.mark.parametrize("status", [400, 401, 403, 404, 413])
def test_what_is_turned_away_is_not_sent_again(status: int) -> None:
    with serving((status, {"title": "Not a reporter"})) as server, pytest.raises(SendingFault) as found:
        sender(server).send(ENTRIES)
    assert len(server.heard) == 1
    assert f"turned the entries away: {status} Not a reporter" in say(found.value.message)


def test_a_token_follows_no_detour() -> None:
    with serving(taken("taken")) as elsewhere:
        target = f"http://127.0.0.1:{elsewhere.server_port}/api/journal/entries"
        with serving((302, target)) as server, pytest.raises(SendingFault):
            sender(server).send(ENTRIES)
    assert elsewhere.heard == []


@pytest.mark.parametrize("answer", [[], {"hello": 1}, {"answers": 3}, {"answers": [{}]}])
def test_an_answer_that_says_nothing_is_a_fault(answer: object) -> None:
    with serving((200, answer)) as server, pytest.raises(SendingFault):
        sender(server).send(ENTRIES)
