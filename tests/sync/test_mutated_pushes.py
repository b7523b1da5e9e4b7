"""Thousands of pushes that no phone would send: each gets a clear answer, and none changes the site."""

from __future__ import annotations

import json
from random import Random
from typing import Any

from flask import Flask
from flask.testing import FlaskClient

from sync.history import PULL, PUSH, History
from sync.line import PROBLEM, PROTOCOL
from sync.poison import poisoned
from sync.world import new_grounds

Row = dict[str, Any]
PUSHES = 2000  # of each run; `python tests/sync --mutated 10000` for more
HARMLESS = {"refused", "held", "parked", "removed"}


def test_mutated_pushes_get_a_problem_each_and_change_nothing(one_server: Flask) -> None:
    assert push_poison(one_server, PUSHES, seed=1) == PUSHES


def test_mutated_pushes_on_the_other_database(server: Flask) -> None:
    assert push_poison(server, PUSHES // 10, seed=2) == PUSHES // 10


def push_poison(app: Flask, pushes: int, seed: int) -> int:
    """Send that many. Gives how many were answered as they have to be; fails at the first that was not."""
    crew, other = History(app), new_grounds(app).site
    random = Random(seed)
    client = app.test_client()
    client.set_cookie("pengan", crew.grounds.members["ben"].token)
    before = document(crew)
    for number in range(pushes):
        body = poisoned(a_push(crew, number, random), random, other)
        answer = client.post(PUSH, data=body, content_type="application/json")
        assert is_clear(answer.status_code, answer.mimetype, answer.headers.get(PROTOCOL), answer.data), (
            f"{answer.status_code} {answer.data[:600]!r} to {body[:600]!r}"
        )
        if number % 100 == 99:
            assert document(crew) == before, f"one of the 100 pushes up to number {number} changed the site"
    assert document(crew) == before
    return pushes


def a_push(crew: History, number: int, random: Random) -> Row:
    """A sound push by itself, of one set or of two, in which every edit would be taken."""
    site = crew.grounds.site
    run = {"run_s": 900, "cycles": 3, "soak_s": 1200}
    sound = [
        {"table": "turns", "record": "p1.s1", "field": "run", "now": run, "was": {**run, "run_s": 600}},
        {"table": "stations", "record": "s2", "field": "flow_lpm", "now": 45, "was": 60},
    ]
    edits = [
        {"id": f"m{number}-{place}", "kind": "set", "seen": 1, "format": 1, "phone_time": "2026-11-25", **edit}
        for place, edit in enumerate(random.sample(sound, 1))
    ]
    return {"sets": [{"id": f"set{number}", "site": site, "edits": edits}]}


def document(crew: History) -> tuple[Row, int]:
    """All that a fresh copy has of the site's document, and the revision of its last change."""
    asked = {"site": crew.grounds.site, "cursor": None, "scope": None}
    reply = crew.line.deliver(crew._request(0, PULL, asked))
    return {name: reply.body[name] for name in ("records", "removals")}, reply.body["revision"]


def is_clear(status: int, mimetype: str | None, protocol: str | None, data: bytes) -> bool:
    """A problem document, or an answer that takes none of the edits and says why."""
    if protocol != "1":
        return False
    said = json.loads(data)
    if status == 200:
        return all(answer["outcome"] in HARMLESS and says_why(answer) for answer in said["answers"])
    named = {"type", "title", "status", "detail", "code", "params", "fields"} <= said.keys()
    return 400 <= status < 500 and mimetype == PROBLEM and named and bool(said["detail"] and said["code"])


def says_why(answer: Row) -> bool:
    """A refusal names what is wrong, as code and as a sentence."""
    return answer["outcome"] != "refused" or bool(answer["code"] and answer["detail"] and answer["faults"])


def test_the_check_of_an_answer_notices_what_is_not_one(one_server: Flask) -> None:
    client: FlaskClient = one_server.test_client()
    good = client.post(PUSH, json={})
    assert is_clear(good.status_code, good.mimetype, good.headers.get(PROTOCOL), good.data)
    taken = json.dumps({"answers": [{"outcome": "taken"}]}).encode()
    assert not is_clear(200, "application/json", "1", taken)
    assert not is_clear(500, good.mimetype, "1", good.data)
    assert not is_clear(422, "text/html", "1", good.data)
    assert not is_clear(422, good.mimetype, None, good.data)
