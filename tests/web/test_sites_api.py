"""Sites and documents over the API."""

from __future__ import annotations

from typing import Any

from flask import Flask
from flask.testing import FlaskClient

from pengan.engine.document.read import read_document
from pengan.engine.document.write import write_document
from pengan.words.pseudo import accented

SITE = "/api/sites/quinta-das-mares"


def test_the_first_document_is_there_from_the_start(client: FlaskClient) -> None:
    assert client.get("/api/sites").json == [{"id": "quinta-das-mares", "name": "Quinta das Marés", "revision": 1}]


def test_a_document_comes_back_as_it_was_loaded(client: FlaskClient, demo_data: dict[str, Any]) -> None:
    served = client.get(f"{SITE}/document").json
    assert read_document(served) == read_document(demo_data)
    assert served == write_document(read_document(demo_data))


def test_a_browser_that_has_the_document_is_not_sent_it_again(client: FlaskClient) -> None:
    first = client.get(f"{SITE}/document")
    again = client.get(f"{SITE}/document", headers={"If-None-Match": first.headers["ETag"]})
    assert (first.status_code, again.status_code, again.data) == (200, 304, b"")


def test_an_unknown_site_is_a_problem_with_code_and_params(client: FlaskClient) -> None:
    answer = client.get("/api/sites/nowhere/document")
    assert answer.content_type.startswith("application/problem+json")
    assert answer.json == {
        "type": "about:blank",
        "title": "Not Found",
        "status": 404,
        "detail": "There is no site nowhere here.",
        "code": "web.no_such_site",
        "params": {"site_id": "nowhere"},
        "fields": [],
    }


def test_a_problem_is_told_in_the_language_asked_for(client: FlaskClient) -> None:
    header = client.get("/api/sites/x/document", headers={"Accept-Language": "xx, en-XA;q=0.8, en;q=0.5"})
    address = client.get("/api/sites/x/document?language=en-XA", headers={"Accept-Language": "en"})
    assert header.headers["Content-Language"] == address.headers["Content-Language"] == "en-XA"
    assert header.json["detail"] == address.json["detail"]
    assert header.json["detail"] == accented("There is no site {site_id} here.").replace("{site_id}", "x")


def test_the_description_names_every_address_of_the_api(app: Flask, client: FlaskClient) -> None:
    described = client.get("/api/openapi.json").json
    rules = {str(rule).replace("<", "{").replace(">", "}") for rule in app.url_map.iter_rules()}
    itself = {"/api/openapi.json", "/api/reference", "/api/reference.css"}
    served = {rule for rule in rules if rule.startswith("/api/")} - itself
    assert set(described["paths"]) == served
    assert described["components"]["schemas"]["NightSheet"]["properties"]["runs"]
    assert described["components"]["schemas"]["Document"]["properties"]["records"]


def test_an_address_of_the_api_that_does_not_exist_is_a_problem_not_the_page(client: FlaskClient) -> None:
    answer = client.get("/api/nothing")
    assert (answer.status_code, answer.json["code"]) == (404, "web.nothing_here")


def test_a_wrong_method_says_which_are_right(client: FlaskClient) -> None:
    answer = client.post("/api/sites")
    assert (answer.status_code, answer.json["code"]) == (405, "web.not_that_way")
    assert "GET" in answer.headers["Allow"]
