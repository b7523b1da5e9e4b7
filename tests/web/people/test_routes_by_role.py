"""Every route is tried as nobody, as another team's manager, and in every role; what it does then is looked at too."""

from __future__ import annotations

import ast
import json
import logging
from collections.abc import Mapping
from typing import Any
from uuid import uuid4

import pytest
from flask.testing import FlaskClient
from sqlalchemy.orm import Session

from pengan.web.people.devices import enrol
from pengan.web.people.invitations import invite_from_the_server
from pengan.web.people.models import Grant, Person
from pengan.web.people.rights import ACTS, ROLES, may
from pengan.web.people.teams import team_of
from pengan.web.system.logs import JsonLines
from project.sources import imports, modules
from web.people.crew import BESIDE, SITE, Server
from web.people.route_table import ROWS, WHO, Ids, Row, planting

STRANGER_AT = SITE


@pytest.fixture
def clients(server: Server) -> dict[str, FlaskClient]:
    """A browser for each of `WHO`."""
    with server.shared.database.session() as session, session.begin():
        tokens = {role: _person(session, server, role, BESIDE, role)[1] for role in ROLES}
        tokens["stranger"] = _person(session, server, "stranger", STRANGER_AT, "manager")[1]
    found = {who: server.browser() for who in WHO}
    for who, token in tokens.items():
        found[who].set_cookie("pengan", token)
    return found


def _person(session: Session, server: Server, name: str, site: str, role: str) -> tuple[str, str]:
    """Somebody's id and their device's token."""
    team = team_of(session, site)
    assert team is not None
    person = Person(team=team, id=str(uuid4()), name=name, language="en", units="metric", joined_at=server.now)
    session.add(person)
    session.flush()
    session.add(Grant(site=site, person=person.id, team=team, role=role, scope=1))
    return person.id, str(enrol(session, person, "phone", server.now))


@pytest.fixture
def ids(server: Server) -> Ids:
    """Somebody with the role `crew`, and what is theirs."""
    with server.shared.database.session() as session, session.begin():
        person, token = _person(session, server, "target", BESIDE, "crew")
    with server.shared.database.session() as session:
        invited = invite_from_the_server(session, server.shared.secret, BESIDE, "crew", None, server.now, 72)
    target, held = server.browser(), str(uuid4())
    target.set_cookie("pengan", token)
    assert target.post("/api/sync/push", json=planting(held)).json["answers"][0]["outcome"] == "held"
    return Ids(person, token.split(".")[1], invited.id, held, invited.code)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: " ".join(reversed(row.key)))
def test_each_route_answers_each_role_as_the_table_says(clients: Mapping[str, FlaskClient], ids: Ids, row: Row) -> None:
    got = tuple(_ask(clients[who], row, ids).status_code for who in WHO)
    assert dict(zip(WHO, got, strict=True)) == dict(zip(WHO, row.expected, strict=True))


def _ask(client: FlaskClient, row: Row, ids: Ids) -> Any:
    """Streams are left after their head: they would go on for a minute."""
    body = None if row.method in ("GET", "DELETE") else row.body(ids)
    answer = client.open(row.path(ids), method=row.method, json=body, buffered=False)
    answer.close()
    return answer


def test_the_table_has_a_row_for_every_route(server: Server) -> None:
    routes = {
        (rule.rule, method)
        for rule in server.app.url_map.iter_rules()
        for method in rule.methods or ()
        if method not in ("HEAD", "OPTIONS")
    }
    assert {row.key for row in ROWS} == routes
    assert len(ROWS) == len(routes)


@pytest.mark.parametrize("who", WHO)
def test_a_push_is_carried_out_only_by_those_who_may_edit(
    clients: Mapping[str, FlaskClient], ids: Ids, who: str
) -> None:
    """An edit without the right to make it is not lost and does nothing; another team's is told nothing of the site."""
    before = clients["manager"].get(f"/api/sites/{BESIDE}/document").json
    answer = clients[who].post("/api/sync/push", json=planting())
    after = clients["manager"].get(f"/api/sites/{BESIDE}/document").json
    outcome = answer.json["answers"][0]["outcome"] if answer.status_code == 200 else None
    assert outcome == {"nobody": None, "stranger": "refused", "crew": "held", "lead": "taken", "manager": "taken"}[who]
    assert (before != after) == (outcome == "taken")


def test_the_list_of_sites_shows_those_one_may_read(clients: Mapping[str, FlaskClient]) -> None:
    listed = {who: [line["id"] for line in clients[who].get("/api/sites").json] for who in WHO}
    assert listed == {"nobody": [SITE], "stranger": [SITE]} | {role: [BESIDE, SITE] for role in ROLES}


def test_hello_and_push_tell_nothing_of_another_teams_site(clients: Mapping[str, FlaskClient]) -> None:
    """Word for word what they tell of a site that does not exist."""
    for who in ("nobody", "stranger"):
        hello = {"protocol": 1, "site": BESIDE}
        sent = planting()
        for path, body in (("/api/sync/hello", hello), ("/api/sync/push", sent)):
            unknown = json.loads(json.dumps(body).replace(BESIDE, "none"))
            told = [clients[who].post(path, json=asked) for asked in (body, unknown)]
            assert told[0].status_code == told[1].status_code
            assert told[0].text.replace(BESIDE, "none") == told[1].text


@pytest.mark.parametrize(
    "path", ["/document", "/nights", "/nights/tonight", "/nights/tonight/clock", "/notices", "/history/document"]
)
def test_the_demo_site_is_read_without_signing_in_and_the_other_site_is_as_if_it_were_not(
    server: Server, path: str
) -> None:
    stranger = server.browser()
    assert stranger.get(f"/api/sites/{SITE}{path}").status_code == 200
    closed, unknown = (stranger.get(f"/api/sites/{site}{path}") for site in (BESIDE, "no-such-site"))
    assert (closed.status_code, closed.json["code"]) == (unknown.status_code, unknown.json["code"])
    assert closed.json["detail"].replace(BESIDE, "no-such-site") == unknown.json["detail"]


def test_strangers_read_the_demo_site_without_anybodys_name(server: Server, clients: Mapping[str, FlaskClient]) -> None:
    """Neither who works there nor who changed what; not even another team's people."""
    for path in (f"/api/people?site={SITE}", f"/api/sites/{SITE}/history"):
        assert clients["stranger"].get(path).status_code == 200
        assert clients["crew"].get(path).status_code == 403
        assert clients["nobody"].get(path).status_code == 401
    pulled = clients["nobody"].post("/api/sync/pull", json={"site": SITE}).json
    assert (pulled["waiting"], pulled["role"]) == ([], None)


def test_what_was_turned_away_is_in_the_log_without_who(
    clients: Mapping[str, FlaskClient], ids: Ids, caplog: pytest.LogCaptureFixture
) -> None:
    with caplog.at_level(logging.INFO, "pengan"):
        clients["crew"].put(f"/api/people/{ids.person}/role", json={"site": BESIDE, "role": "manager"})
        clients["nobody"].post("/api/session", json={"name": "maria", "password": "pass-word", "device_name": "d"})
    told = [(vars(line).get("status"), vars(line).get("code")) for line in caplog.records if line.msg == "request"]
    assert told == [(403, "people.not_your_role"), (403, "people.not_signed_in")]
    lines = [JsonLines().format(line) for line in caplog.records]
    assert not [line for line in lines for secret in (ids.person, "maria", "pass-word", "192.0.2.1") if secret in line]


def test_what_each_role_may_do() -> None:
    """Managers and leads edit and settle; managers alone decide what is held and who comes in; crews read and note."""
    allowed = {role: [act for act in ACTS if may(role, act)] for role in ROLES}
    assert allowed == {"manager": list(ACTS), "lead": ["read", "note", "edit", "settle"], "crew": ["read", "note"]}
    assert not any(may(None, act) for act in ACTS)


def test_roles_are_asked_about_in_operations_and_never_in_routes() -> None:
    asking = ("require", "may", "role_at", "roles_of", "readable_sites", "open_to_read")
    routes = [module for module in modules() if module.path.name in ("routes.py", "watching.py")]
    assert len(routes) > 5
    for module in routes:
        names = {node.id for node in ast.walk(module.tree) if isinstance(node, ast.Name)}
        assert not names & set(asking), module.path
        assert list(imports(module))
