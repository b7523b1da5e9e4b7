"""Managers' passwords: strong, slow to try, and told to nobody whether name or password was wrong."""

from __future__ import annotations

import pytest
from argon2 import PasswordHasher
from flask.testing import FlaskClient
from sqlalchemy import select

from pengan.web.people import passwords
from pengan.web.people.models import Person
from pengan.web.people.passwords import easily_guessed, matches
from web.people.crew import Server, me

GOOD = "oleander terrace pump 7"


@pytest.fixture(autouse=True)
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Cheap hashes here; the settings that count are looked at in a test of their own."""
    monkeypatch.setattr(passwords, "_hasher", PasswordHasher(time_cost=1, memory_cost=8, parallelism=1))
    passwords._nobodys.cache_clear()


def set_password(client: FlaskClient, name: str = "maria", password: str = GOOD, present: str | None = None) -> int:
    body = {"name": name, "password": password, "present_password": present}
    return client.put("/api/session/password", json=body).status_code


def sign_in(server: Server, name: str = "maria", password: str = GOOD, ip: str = "192.0.2.1") -> FlaskClient | int:
    client = server.browser(ip)
    body = {"name": name, "password": password, "device_name": "desk"}
    answer = client.post("/api/session", json=body)
    return client if answer.status_code == 201 else answer.status_code


def test_a_manager_signs_in_with_name_and_password(server: Server) -> None:
    manager = server.person("manager")
    assert set_password(manager) == 204
    desk = sign_in(server, " MARIA ")
    assert isinstance(desk, FlaskClient)
    assert me(desk)["person"] == me(manager)["person"]
    assert me(desk)["device"] != me(manager)["device"]


@pytest.mark.parametrize("role", ["lead", "crew"])
def test_only_who_manages_a_site_has_a_password(server: Server, role: str) -> None:
    assert role in ("lead", "crew")
    assert set_password(server.person(role)) == 403  # type: ignore[arg-type]


def test_a_wrong_name_and_a_wrong_password_are_told_the_same(server: Server) -> None:
    assert set_password(server.person("manager")) == 204
    wrong = [
        server.browser().post("/api/session", json={"name": name, "password": password, "device_name": "desk"})
        for name, password in [("maria", "another one of them"), ("nobody", GOOD)]
    ]
    assert wrong[0].status_code == wrong[1].status_code == 403
    assert wrong[0].json == wrong[1].json


def test_an_unknown_name_costs_a_password_check_too(server: Server, monkeypatch: pytest.MonkeyPatch) -> None:
    checked: list[str] = []

    def watched(kept: str, _password: str) -> bool:
        checked.append(kept)
        return False

    monkeypatch.setattr(passwords, "matches", watched)
    assert sign_in(server, "nobody") == 403
    assert len(checked) == 1 and checked[0].startswith("$argon2id$")


def test_a_removed_managers_password_is_gone(server: Server) -> None:
    server.person("manager", name="Other")
    manager = server.person("manager")
    set_password(manager)
    manager.delete(f"/api/people/{me(manager)['person']}")
    assert sign_in(server) == 403


def test_to_change_a_password_one_has_to_know_it(server: Server) -> None:
    manager = server.person("manager")
    set_password(manager)
    assert set_password(manager, password="a further good secret") == 403
    assert set_password(manager, password="a further good secret", present="guessed") == 403
    assert set_password(manager, password="a further good secret", present=GOOD) == 204
    assert sign_in(server) == 403
    assert isinstance(sign_in(server, password="a further good secret"), FlaskClient)


def test_a_new_password_signs_all_other_devices_out(server: Server) -> None:
    manager = server.person("manager")
    set_password(manager)
    desk = sign_in(server)
    assert isinstance(desk, FlaskClient)
    assert set_password(manager, present=GOOD) == 204
    assert (desk.get("/api/session").status_code, manager.get("/api/session").status_code) == (401, 200)


def test_two_people_cannot_sign_in_by_one_name(server: Server) -> None:
    assert set_password(server.person("manager"), "Maria") == 204
    assert set_password(server.person("manager"), "maria") == 409


def test_a_password_is_kept_as_an_argon2id_hash_alone(server: Server) -> None:
    set_password(server.person("manager"))
    with server.shared.database.session() as session:
        kept = session.scalars(select(Person.password_hash).where(Person.password_hash.is_not(None))).one()
    assert kept.startswith("$argon2id$") and GOOD not in kept


def test_hashes_are_as_slow_as_published_advice_asks() -> None:
    """RFC 9106 section 4, second recommended option: 64 MiB, 3 passes, 4 lanes."""
    usual = PasswordHasher()
    assert (usual.memory_cost, usual.time_cost, usual.parallelism, usual.type.name) == (65536, 3, 4, "ID")


@pytest.mark.parametrize(
    "password", ["password123", "qwertyuiop", "1234567890", "maria-maria", "aaaaaaaaaaaa", "pengan-pengan"]
)
def test_what_is_easily_guessed_is_not_taken(password: str) -> None:
    assert easily_guessed(password, "maria")


@pytest.mark.parametrize(
    "password",
    [
        GOOD,
        "Grüße vom Seegarten 12",
        "".join(chr(33 + (n * n * 31 + 7 * n) % 94) for n in range(180)),
        "水やりの順番を守ること庭",
    ],
)
def test_long_ones_of_any_script_are(password: str) -> None:
    assert not easily_guessed(password, "maria")


def test_a_short_password_and_a_huge_one_name_the_field(server: Server) -> None:
    manager = server.person("manager")
    for password in ("Zk7#qP9", "x" * 201):
        answer = manager.put("/api/session/password", json={"name": "maria", "password": password})
        assert (answer.status_code, answer.json["fields"][0]["field"]) == (422, "password")


def test_accents_typed_in_either_way_are_the_same_password() -> None:
    kept = passwords._hasher.hash(passwords.plain("crème brûlée au citron"))
    assert matches(kept, "cre\u0300me bru\u0302le\u0301e au citron")
