"""Attempts are counted in the database, by address and by what is tried, whichever process they reach."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

import pytest
from sqlalchemy import select

from pengan.web.app import create_app
from pengan.web.people.attempts import PER_ADDRESS, PER_SUBJECT, WINDOW_S, by_address
from pengan.web.people.models import Attempts
from web.people.crew import Server, joining

WRONG = {"name": "maria", "password": "wrong", "device_name": "desk"}


@pytest.fixture(autouse=True)
def no_hashing(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nobody's password is right here; what counts is how often it is tried."""
    monkeypatch.setattr("pengan.web.people.passwords.matches", lambda _kept, _password: False)


def statuses(server: Server, count: int, ip: str = "192.0.2.1", **body: str) -> list[int]:
    return [server.browser(ip).post("/api/session", json=WRONG | body).status_code for _ in range(count)]


def test_one_account_is_tried_so_often_and_no_more_from_wherever(server: Server) -> None:
    tried = [statuses(server, 1, f"198.51.100.{number}")[0] for number in range(PER_SUBJECT + 2)]
    assert tried == [403] * PER_SUBJECT + [429] * 2


def test_one_address_tries_so_often_and_no_more_whatever_it_tries(server: Server) -> None:
    tried = [statuses(server, 1, name=f"name {number}")[0] for number in range(PER_ADDRESS + 2)]
    assert tried == [403] * PER_ADDRESS + [429] * 2
    assert statuses(server, 1, "192.0.2.99", name="name 1") == [403]


def test_codes_are_counted_too_and_a_good_one_waits_as_well(server: Server) -> None:
    browser = server.browser()
    for number in range(PER_ADDRESS):
        browser.post("/api/invitations/join", json=joining(f"CODE{number}"))
    answer = browser.post("/api/invitations/join", json=joining(server.code("crew")))
    assert (answer.status_code, answer.json["code"]) == (429, "people.too_often")
    assert answer.retry_after is not None and 0 < answer.json["params"]["wait_s"] <= WINDOW_S


def test_after_a_while_one_may_try_again(server: Server) -> None:
    statuses(server, PER_SUBJECT + 1)
    server.later(seconds=WINDOW_S)
    assert statuses(server, 1) == [403]


def test_a_crew_that_joins_from_one_address_is_not_held_up(server: Server) -> None:
    for _ in range(PER_ADDRESS + 3):
        server.person("crew")


def test_the_other_process_counts_on(server: Server) -> None:
    other = Server(create_app(server.shared.settings))
    statuses(server, PER_SUBJECT)
    assert statuses(other, 1) == [429]
    other.shared.database.engine.dispose()


def test_many_at_once_are_counted_one_by_one(server: Server) -> None:
    with ThreadPoolExecutor(8) as many:
        tried = list(many.map(lambda number: statuses(server, 1, f"198.51.100.{number}")[0], range(24)))
    assert sorted(tried) == [403] * PER_SUBJECT + [429] * (24 - PER_SUBJECT)


def test_the_table_of_attempts_names_nobody_and_forgets(server: Server) -> None:
    statuses(server, 3)
    with server.shared.database.session() as session:
        kept = [row.subject for row in session.scalars(select(Attempts))]
    assert len(kept) == 2 and all(len(subject) == 64 for subject in kept)
    server.later(hours=1)
    statuses(server, 1, "192.0.2.77", name="else")
    with server.shared.database.session() as session:
        assert not {row.subject for row in session.scalars(select(Attempts))} & set(kept)


def test_an_ipv6_network_counts_as_one_address(server: Server) -> None:
    secret = server.shared.secret
    one, same, other = (by_address(secret, "x", ip) for ip in ("2001:db8::1", "2001:db8::ffff:2", "2001:db8:0:1::1"))
    assert one == same != other
    assert by_address(secret, "x", "::ffff:192.0.2.1") != by_address(secret, "x", "::ffff:192.0.2.2")


def test_whoever_is_in_is_never_asked(server: Server) -> None:
    """Trying a manager's name all day keeps nobody who is signed in from working."""
    manager = server.person("manager")
    statuses(server, PER_ADDRESS + 5)
    assert manager.get("/api/session").status_code == 200


def test_a_forwarded_address_is_believed_only_of_ones_own_proxies(server: Server) -> None:
    """Without the setting a caller cannot make up an address of its own for every attempt."""
    forged = [
        server.browser().post(
            "/api/session", json=WRONG | {"name": f"n{number}"}, headers={"X-Forwarded-For": f"198.51.100.{number}"}
        )
        for number in range(PER_ADDRESS + 1)
    ]
    assert forged[-1].status_code == 429
    behind = Server(create_app(replace(server.shared.settings, proxies=1)))
    answer = behind.browser().post(
        "/api/session", json=WRONG | {"name": "m"}, headers={"X-Forwarded-For": "203.0.113.9"}
    )
    assert answer.status_code == 403
    behind.shared.database.engine.dispose()
