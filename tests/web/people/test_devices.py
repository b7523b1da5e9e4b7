"""Devices: recognised by their token, listed, ended from any other; cookies no script and no other site can use."""

from __future__ import annotations

from dataclasses import replace
from importlib.metadata import version

import pytest
import tzdata
from flask.testing import FlaskClient

from pengan.web.extensions import KEY
from pengan.web.people import tokens
from pengan.web.people.tokens import Token, read_token
from web.people.crew import BESIDE, SITE, Server, joining, me


def second_device(server: Server, first: FlaskClient) -> FlaskClient:
    client = server.browser()
    code = first.post("/api/devices/code", json={}).json["code"]
    assert client.post("/api/invitations/join", json=joining(code, device_name="second")).status_code == 201
    return client


def cookie_of(client: FlaskClient) -> str:
    cookie = client.get_cookie("pengan")
    assert cookie is not None
    return cookie.value


def test_nobody_is_signed_in_at_first(server: Server) -> None:
    answer = server.browser().get("/api/session")
    assert (answer.status_code, answer.json["code"]) == (401, "people.signed_out")


def test_the_cookie_is_kept_from_scripts_and_other_sites(server: Server) -> None:
    answer = server.browser().post("/api/invitations/join", json=joining(server.code("crew")))
    cookie = answer.headers["Set-Cookie"]
    assert cookie.startswith("pengan=") and "HttpOnly" in cookie and "SameSite=Strict" in cookie
    assert "Secure" not in cookie


def test_over_tls_the_cookie_is_secure_and_of_this_host_alone(server: Server) -> None:
    client = server.browser()
    answer = client.post("/api/invitations/join", json=joining(server.code("crew")), base_url="https://localhost")
    cookie = answer.headers["Set-Cookie"]
    assert cookie.startswith("__Host-pengan=") and "Secure" in cookie and "Path=/" in cookie and "Domain" not in cookie
    assert client.get("/api/session", base_url="https://localhost").status_code == 200
    assert (
        "max-age=31536000; includeSubDomains"
        in client.get("/api/session", base_url="https://localhost").headers["Strict-Transport-Security"]
    )


def test_a_device_ended_from_another_is_let_in_no_more(server: Server) -> None:
    first = server.person("crew")
    second = second_device(server, first)
    assert [line["this_one"] for line in first.get("/api/devices").json].count(True) == 1
    assert first.delete(f"/api/devices/{me(second)['device']}").status_code == 204
    assert second.get("/api/session").status_code == 401
    assert [line["name"] for line in first.get("/api/devices").json] == ["phone"]


def test_all_others_can_be_ended_at_once(server: Server) -> None:
    first = server.person("crew")
    others = [second_device(server, first) for _ in range(2)]
    assert first.delete("/api/devices").status_code == 204
    assert [client.get("/api/session").status_code for client in others] == [401, 401]
    assert first.get("/api/session").status_code == 200


def test_a_new_token_in_the_same_browser_ends_the_old_one(server: Server) -> None:
    """Nobody who kept a copy of the former token comes in by it."""
    client = server.person("crew")
    kept = cookie_of(client)
    assert client.post("/api/invitations/join", json=joining(server.code("crew", BESIDE))).status_code == 201
    assert cookie_of(client) != kept
    copy = server.browser()
    copy.set_cookie("pengan", kept)
    assert copy.get("/api/session").status_code == 401


def test_signing_out_ends_the_device_and_takes_the_cookie(server: Server) -> None:
    client = server.person("crew")
    kept = cookie_of(client)
    assert client.delete("/api/session").status_code == 204
    assert client.get_cookie("pengan") is None
    client.set_cookie("pengan", kept)
    assert client.get("/api/session").status_code == 401


def test_a_device_unused_for_long_lapses_and_a_used_one_does_not(server: Server) -> None:
    used, unused = server.person("crew"), server.person("crew")
    for _ in range(3):
        server.later(days=90)
        assert "pengan=" in used.get("/api/session").headers["Set-Cookie"]
    assert unused.get("/api/session").status_code == 401


@pytest.mark.parametrize("change", ["secret", "device", "team"])
def test_a_token_changed_anywhere_is_nobodys(server: Server, change: str) -> None:
    client, other = server.person("crew"), server.person("lead", BESIDE)
    token, others = read_token(cookie_of(client)), read_token(cookie_of(other))
    assert token is not None and others is not None
    client.set_cookie("pengan", str(replace(token, **{change: getattr(others, change)})))
    assert client.get("/api/session").status_code == 401


@pytest.mark.parametrize("cookie", ["", ".", "..", "a.b.c", "a.b", "x" * 5000, "a.b.c.d", "ä.b.c", "%00.b.c"])
def test_what_is_no_token_is_nobodys(server: Server, cookie: str) -> None:
    answer = server.browser().get("/api/session", headers={"Cookie": f"pengan={cookie}".encode().decode("latin-1")})
    assert answer.status_code == 401


def test_tokens_are_compared_in_constant_time(server: Server, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every look at a token passes through `hmac.compare_digest`, one that names no device as well."""
    client = server.person("crew")
    compared: list[str] = []

    def watched(mine: str, kept: str) -> bool:
        compared.append(kept)
        return mine == kept

    monkeypatch.setattr(tokens.hmac, "compare_digest", watched)
    assert client.get("/api/session").status_code == 200
    client.set_cookie("pengan", str(Token("no-team", "no-device", "x" * 43)))
    assert client.get("/api/session").status_code == 401
    assert len(compared) == 2 and all(len(kept) == 64 for kept in compared)


def test_one_person_cannot_end_anothers_device(server: Server) -> None:
    mine, theirs = server.person("crew"), server.person("crew")
    assert mine.delete(f"/api/devices/{me(theirs)['device']}").status_code == 404
    assert theirs.get("/api/session").status_code == 200


def test_a_manager_ends_a_lost_phone_and_lets_the_next_one_in(server: Server) -> None:
    manager, crew = server.person("manager"), server.person("crew")
    who = me(crew)["person"]
    lost = manager.get(f"/api/people/{who}/devices").json[0]["id"]
    assert manager.delete(f"/api/people/{who}/devices/{lost}").status_code == 204
    assert crew.get("/api/session").status_code == 401
    code = manager.post(f"/api/people/{who}/code", json={}).json["code"]
    assert crew.post("/api/invitations/join", json=joining(code)).json["person"] == who


def test_a_manager_of_one_site_gets_no_code_into_anothers_manager(server: Server) -> None:
    """Somebody who manages a second site as well is out of reach: the code would let one into that site too."""
    manager = server.person("manager")
    both = server.person("crew")
    other = "second-site"
    second_site(server, other)
    both.post("/api/invitations/join", json=joining(server.code("manager", other)))
    assert [line["site"] for line in me(both)["sites"]] == [SITE, other]
    who = me(both)["person"]
    assert manager.post(f"/api/people/{who}/code", json={}).status_code == 404
    assert manager.get(f"/api/people/{who}/devices").status_code == 404
    assert manager.delete(f"/api/people/{who}").status_code == 404


def second_site(server: Server, site: str) -> None:
    """A further site of the first site's team."""
    from pengan.web.people.teams import adopt, team_of
    from pengan.web.sites.operations import put_document

    document = {"format": 1, "records": [{"table": "site", "id": site, "name": "Second", "zone": "Europe/Lisbon"}]}
    with server.shared.database.session() as session:
        put_document(session, document)
        with session.begin():
            adopt(session, site, team_of(session, SITE))


def test_whoever_is_in_is_spoken_to_in_their_own_language_and_units(server: Server) -> None:
    """A run of 40 hours is refused with the limit it broke, a flow in gallons, whatever the browser asks for."""
    client = server.browser()
    client.post("/api/invitations/join", json=joining(server.code("lead"), units="us"))
    station = next(
        record for record in client.get(f"/api/sites/{SITE}/document").json["records"] if record["table"] == "stations"
    )
    edit = {"id": "e1", "kind": "set", "table": "stations", "record": station["id"], "field": "flow_lpm"}
    sent = {"sets": [{"id": "set1", "site": SITE, "edits": [{**edit, "seen": 1, "now": -5, "format": 1}]}]}
    told = [
        client.post(f"/api/sync/push{query}", json=sent, headers={"Accept-Language": "en-GB"}).json["answers"][0]
        for query in ("", "?language=en")
    ]
    assert told[0]["outcome"] == told[1]["outcome"] == "refused"
    assert "gpm" in str(told[1]) and "L/min" not in str(told[1])
    assert str(told[0]) != str(told[1])


def test_the_servers_secret_shows_in_no_text_of_it(server: Server) -> None:
    shared = server.app.extensions[KEY]
    assert str(shared.secret.key) not in repr(shared)


def test_who_is_let_in_is_told_what_runs_here(server: Server) -> None:
    told = server.person("crew").get("/api/about").json
    assert told["version"] == version("pengan") and told["zone_data"] == tzdata.IANA_VERSION
