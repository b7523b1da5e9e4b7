"""The page's own client, run in Node against the real server: the promises hold for it as for the model of a phone."""

from __future__ import annotations

import json
import subprocess
from collections.abc import Iterator
from pathlib import Path
from threading import Thread
from typing import Any

import pytest
from flask import Flask
from werkzeug.serving import make_server

from ground.node import find_node
from sync.grounds import BAD, FIELDS, REMOVABLE, records_of
from sync.history import History
from sync.phone import Phone
from sync.quiet import check_at_rest

Row = dict[str, Any]
DRIVER = Path(__file__).parent / "page_client.mjs"
HISTORIES = 4
STEPS = 40
PATIENCE_S = 120
KEPT = ("cursor", "scope", "records", "versions", "removed", "waiting", "outbox", "overlaid", "answers", "elsewhere")
EDITORS = ("ana", "ben", "cai")


@pytest.fixture
def served(one_server: Flask) -> Iterator[str]:
    """The server on this machine alone, at a port that is free."""
    server = make_server("127.0.0.1", 0, one_server, threaded=True)
    thread = Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        thread.join(10)


def test_the_pages_client_keeps_every_promise_on_a_bad_line(one_server: Flask, served: str, tmp_path: Path) -> None:
    histories = [History(one_server) for _ in range(HISTORIES)]
    told = run_client(given_to(histories, served), tmp_path)
    for history, client in zip(histories, told, strict=True):
        assert client["reloads"] == []
        take_over(history, client)
        check_at_rest(history)
        for (_short, phone), own in zip(history.phones, client["phones"], strict=True):
            assert own["view"] == phone.view() == phone.records
    outcomes = {answer["outcome"] for client in told for own in client["phones"] for answer in own["answers"].values()}
    assert outcomes >= {"taken", "agreed", "disputed", "removed", "refused"}
    assert {how for client in told for own in client["phones"] for how in own["elsewhere"].values()} >= {"folded"}


def given_to(histories: list[History], base: str) -> Row:
    """What the client is to do, and as whom."""
    return {
        "base": base,
        "steps": STEPS,
        "fields": [[*place, list(records_of(place, "{site}")), list(values)] for place, values in FIELDS.items()],
        "bad": BAD,
        "removable": REMOVABLE,
        "histories": [
            {"site": history.grounds.site, "seed": number + 1, "phones": [member(history, short) for short in EDITORS]}
            for number, history in enumerate(histories)
        ],
    }


def member(history: History, short: str) -> Row:
    found = history.grounds.members[short]
    return {"person": found.person, "token": found.token}


def run_client(given: Row, folder: Path) -> list[Row]:
    """Let the client do it; what it then holds."""
    command = [str(find_node().node), str(DRIVER), json.dumps(given), str(folder)]
    done = subprocess.run(command, capture_output=True, text=True, timeout=PATIENCE_S, check=False)
    assert done.returncode == 0, done.stderr[-4000:]
    found: list[Row] = json.loads((folder / "told.json").read_text(encoding="utf-8"))
    return found


def take_over(history: History, client: Row) -> None:
    """The client's phones take the place of the model's, so that the same checks are held against them."""
    history.phones = []
    for short, own in zip(EDITORS, client["phones"], strict=True):
        phone = Phone(history.grounds.members[short].person, history.grounds.site, history.new_id)
        phone.kept |= {name: own[name] for name in KEPT}
        history.phones.append((short, phone))
        history.made |= {edit["id"]: edit for edit in own["made"]}
    history.arrived = dict.fromkeys(client["arrived"], True)
