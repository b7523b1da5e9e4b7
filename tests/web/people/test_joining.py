"""Coming in by a code: once, for a while, and no further than the code says."""

from __future__ import annotations

import re
from concurrent.futures import ThreadPoolExecutor

import pytest
from sqlalchemy import select

from pengan.web.people.codes import ALPHABET, bare, new_code
from pengan.web.people.models import Device, Invitation
from web.people.crew import BESIDE, SITE, Server, joining, me

JOIN = "/api/invitations/join"


def test_a_code_lets_somebody_in_with_its_role_and_their_own_language(server: Server) -> None:
    client = server.browser()
    answer = client.post(JOIN, json=joining(server.code("lead"), "Inês", units="us", hour_cycle="12", digits="arab"))
    assert answer.status_code == 201
    spoken = {"units": "us", "hour_cycle": "12", "first_day": None, "digits": "arab"}
    assert me(client)["profile"] == {"name": "Inês", "language": "es", **spoken}
    assert me(client)["sites"] == [{"site": SITE, "role": "lead", "scope": 1}]


def test_a_code_is_good_once(server: Server) -> None:
    code = server.code("crew")
    answers = [server.browser().post(JOIN, json=joining(code)) for _ in range(2)]
    assert [answer.status_code for answer in answers] == [201, 403]
    assert answers[1].json["code"] == "people.code_not_good"


def test_of_many_who_use_one_code_at_once_one_comes_in(server: Server) -> None:
    code = server.code("crew")

    def come(_number: int) -> int:
        return server.browser().post(JOIN, json=joining(code)).status_code

    with ThreadPoolExecutor(6) as many:
        assert sorted(many.map(come, range(6))) == [201, 403, 403, 403, 403, 403]


def test_a_code_is_good_for_a_while(server: Server) -> None:
    early, late = server.code("crew"), server.code("crew")
    server.later(hours=71, minutes=59)
    assert server.browser().post(JOIN, json=joining(early)).status_code == 201
    server.later(minutes=1)
    assert server.browser().post(JOIN, json=joining(late)).status_code == 403


@pytest.mark.parametrize(
    "written", [str.lower, lambda code: code.replace("-", ""), lambda code: f" {code[:3]} {code[3:]} "]
)
def test_case_hyphens_and_spaces_of_a_code_do_not_matter(server: Server, written: object) -> None:
    assert callable(written)
    assert server.browser().post(JOIN, json=joining(written(server.code("crew")))).status_code == 201


def test_codes_have_no_signs_that_look_alike_and_differ() -> None:
    codes = [new_code() for _ in range(500)]
    assert len(set(codes)) == 500
    assert all(re.fullmatch(f"[{ALPHABET}]{{5}}-[{ALPHABET}]{{5}}", code) for code in codes)
    assert not set(ALPHABET) & set("0O1IL5S2Z8BUAE")


def test_neither_codes_nor_tokens_are_in_the_database(server: Server) -> None:
    code = server.code("manager")
    client = server.browser()
    client.post(JOIN, json=joining(code))
    cookie = client.get_cookie("pengan")
    assert cookie is not None
    secret = cookie.value.split(".")[2]
    with server.shared.database.session() as session:
        kept = [
            str(value)
            for model in (Invitation, Device)
            for row in session.scalars(select(model))
            for value in vars(row).values()
        ]
    assert not [text for text in kept if bare(code) in bare(text) or secret in text]


def test_a_withdrawn_code_lets_nobody_in(server: Server) -> None:
    manager = server.person("manager")
    made = manager.post("/api/invitations", json={"site": SITE, "role": "crew", "name": "Rui"}).json
    assert [line["name"] for line in manager.get(f"/api/invitations?site={SITE}").json] == ["Rui"]
    assert manager.delete(f"/api/invitations/{made['id']}").status_code == 204
    assert manager.get(f"/api/invitations?site={SITE}").json == []
    assert server.browser().post(JOIN, json=joining(made["code"])).status_code == 403


def test_a_code_dies_with_its_makers_right_to_make_it(server: Server) -> None:
    server.person("manager", name="Staying")
    leaving = server.person("manager", name="Leaving")
    code = leaving.post("/api/invitations", json={"site": SITE, "role": "manager"}).json["code"]
    assert leaving.delete(f"/api/people/{me(leaving)['person']}").status_code == 204
    assert server.browser().post(JOIN, json=joining(code)).status_code == 403


def test_whoever_is_in_gets_a_further_role_as_who_they_are(server: Server) -> None:
    crew = server.person("crew")
    before = me(crew)
    answer = crew.post(JOIN, json=joining(server.code("lead"), "Somebody else"))
    assert answer.status_code == 201
    assert (answer.json["person"], answer.json["device"]) == (before["person"], before["device"])
    assert answer.json["profile"]["name"] == "Maria"
    assert answer.json["sites"] == [{"site": SITE, "role": "lead", "scope": 2}]


def test_a_code_takes_nothing_away(server: Server) -> None:
    manager = server.person("manager")
    manager.post(JOIN, json=joining(server.code("crew")))
    assert me(manager)["sites"] == [{"site": SITE, "role": "manager", "scope": 1}]


def test_another_teams_code_makes_another_person(server: Server) -> None:
    crew = server.person("crew")
    before = me(crew)
    crew.post(JOIN, json=joining(server.code("lead", BESIDE)))
    assert me(crew)["person"] != before["person"]
    assert [line["site"] for line in me(crew)["sites"]] == [BESIDE]


def test_an_invitation_comes_with_an_address_and_a_picture_that_keep_the_code_off_the_line(server: Server) -> None:
    manager = server.person("manager")
    made = manager.post("/api/invitations", json={"site": SITE, "role": "crew"}).json
    assert made["address"] == f"http://localhost/join#{made['code']}"
    assert made["qr"].startswith("<svg") and "script" not in made["qr"] and "style" not in made["qr"]


def test_the_next_device_of_a_person_is_that_person(server: Server) -> None:
    phone = server.person("crew")
    tablet = server.browser()
    code = phone.post("/api/devices/code", json={}).json["code"]
    assert tablet.post(JOIN, json=joining(code, "Ignored", device_name="tablet")).status_code == 201
    assert me(tablet)["person"] == me(phone)["person"]
    assert {line["name"] for line in phone.get("/api/devices").json} == {"phone", "tablet"}


def test_every_field_at_fault_is_named_at_once_in_the_readers_language(server: Server) -> None:
    body = {"code": "X", "name": " ", "language": "xx", "units": "cups", "hour_cycle": "13"}
    answer = server.browser().post(JOIN, json=body, headers={"Accept-Language": "es"})
    assert (answer.status_code, answer.headers["Content-Language"]) == (422, "es")
    assert {fault["field"] for fault in answer.json["fields"]} == {"name", "hour_cycle", "device_name"}
    better = {**body, "name": "A", "hour_cycle": "12", "device_name": "b"}
    answer = server.browser().post(JOIN, json=better)
    assert {fault["field"] for fault in answer.json["fields"]} == {"language", "units"}
