"""Roles change, people leave, and a site always has a manager."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

from flask.testing import FlaskClient

from pengan.web.people.rights import role_at, scope_at
from web.people.crew import BESIDE, SITE, Server, joining, me


def change(manager: FlaskClient, person: str, role: str | None, site: str = SITE) -> int:
    return manager.put(f"/api/people/{person}/role", json={"site": site, "role": role}).status_code


def test_the_people_of_a_site_are_listed_with_their_roles(server: Server) -> None:
    server.person("manager", name="Ana")
    crew = server.person("crew", name="Zé")
    server.person("lead", BESIDE, name="Elsewhere")
    listed = crew.get(f"/api/people?site={SITE}").json
    assert [(line["name"], line["role"]) for line in listed] == [("Ana", "manager"), ("Zé", "crew")]


def test_each_change_of_a_role_raises_the_scope_and_no_change_does_not(server: Server) -> None:
    manager, crew = server.person("manager"), server.person("crew")
    who = me(crew)["person"]
    scopes = []
    for role in ("lead", "lead", None, None, "crew"):
        assert change(manager, who, role) == 204
        with server.shared.database.session() as session:
            scopes.append(scope_at(session, who, SITE))
    assert scopes == [2, 2, 3, 3, 4]


def test_a_role_taken_away_is_gone_at_once(server: Server) -> None:
    manager, crew = server.person("manager"), server.person("crew")
    assert crew.get(f"/api/people?site={SITE}").status_code == 200
    change(manager, me(crew)["person"], None)
    assert me(crew)["sites"] == []
    assert crew.get(f"/api/people?site={SITE}").status_code == 403


def test_the_last_manager_stays(server: Server) -> None:
    manager = server.person("manager")
    who = me(manager)["person"]
    assert change(manager, who, "lead") == 409
    assert manager.delete(f"/api/people/{who}").status_code == 409
    assert me(manager)["sites"][0]["role"] == "manager"


def test_two_managers_who_demote_each_other_at_once_leave_one(server: Server) -> None:
    first, second = server.person("manager"), server.person("manager")
    pairs = [(first, me(second)["person"]), (second, me(first)["person"])]
    with ThreadPoolExecutor(2) as both:
        done = sorted(both.map(lambda pair: change(pair[0], pair[1], "crew"), pairs))
    assert done in ([204, 403], [204, 409])
    with server.shared.database.session() as session:
        roles = [role_at(session, who, SITE) for _, who in pairs]
    assert sorted(map(str, roles)) == ["crew", "manager"]


def test_a_removed_person_is_out_everywhere(server: Server) -> None:
    manager, crew = server.person("manager"), server.person("crew", name="Leaving")
    who = me(crew)["person"]
    code = crew.post("/api/devices/code", json={}).json["code"]
    assert manager.delete(f"/api/people/{who}").status_code == 204
    assert crew.get("/api/session").status_code == 401
    assert server.browser().post("/api/invitations/join", json=joining(code)).status_code == 403
    assert "Leaving" not in manager.get(f"/api/people?site={SITE}").text
    assert manager.delete(f"/api/people/{who}").status_code == 404
    with server.shared.database.session() as session:
        assert (role_at(session, who, SITE), scope_at(session, who, SITE)) == (None, 2)


def test_somebody_may_leave_by_themself(server: Server) -> None:
    server.person("manager")
    crew = server.person("crew")
    assert crew.delete(f"/api/people/{me(crew)['person']}").status_code == 204
    assert crew.get("/api/session").status_code == 401


def test_people_of_another_team_are_nowhere(server: Server) -> None:
    """The same answer as for an id that never was."""
    manager, stranger = server.person("manager"), server.person("crew", BESIDE)
    for who in (me(stranger)["person"], "no-such-person"):
        assert change(manager, who, "crew") == 404
        assert manager.delete(f"/api/people/{who}").status_code == 404
        assert manager.post(f"/api/people/{who}/code", json={}).status_code == 404
    assert change(manager, me(manager)["person"], "crew", BESIDE) == 404
    assert manager.get(f"/api/people?site={BESIDE}").json == manager.get(f"/api/people?site={BESIDE}").json
    unknown, closed = (manager.get(f"/api/people?site={site}") for site in ("nowhere", BESIDE))
    assert (unknown.status_code, unknown.json["code"]) == (closed.status_code, closed.json["code"])


def test_what_people_type_is_kept_as_text(server: Server) -> None:
    typed = ["Robert'); DROP TABLE people; --", "<img src=x onerror=alert(1)>", "{site_id} %s {0.__class__}", "${7*7}"]
    crew = server.person("crew")
    for name in typed:
        crew.put("/api/session/profile", json={"name": name, "language": "en"})
        assert me(crew)["profile"]["name"] == name
        assert [line["name"] for line in crew.get(f"/api/people?site={SITE}").json] == [name]
    for site in typed:
        answer = crew.get("/api/people", query_string={"site": site})
        assert (answer.status_code, answer.json["params"]) == (404, {"site_id": site})


def test_people_change_how_they_are_spoken_to(server: Server) -> None:
    crew = server.person("crew")
    wanted = {"name": "Mária", "language": "es-MX", "units": "metric,flow=lps", "hour_cycle": "24"}
    wanted |= {"first_day": "sun", "digits": "deva"}
    assert crew.put("/api/session/profile", json=wanted).status_code == 200
    assert me(crew)["profile"] == wanted


def test_a_week_and_digits_there_are_none_of_are_named_at_once(server: Server) -> None:
    crew = server.person("crew")
    wrong = {"name": "Mária", "language": "es", "first_day": "someday", "digits": "roman"}
    answer = crew.put("/api/session/profile", json=wrong)
    assert answer.status_code == 422
    assert {fault["field"] for fault in answer.json["fields"]} == {"first_day", "digits"}
