"""The API's page for people says what the description says, in the reader's language, without scripts."""

from __future__ import annotations

import re

import pytest
from flask.testing import FlaskClient

from pengan.web.reference.operations import METHODS, shapes, subjects


@pytest.fixture
def page(client: FlaskClient) -> str:
    answer = client.get("/api/reference")
    assert answer.status_code == 200 and answer.mimetype == "text/html"
    return answer.get_data(as_text=True)


def test_every_call_of_the_description_stands_on_the_page_once(client: FlaskClient, page: str) -> None:
    paths = client.get("/api/openapi.json").get_json()["paths"]
    described = sorted((method.upper(), path) for path, item in paths.items() for method in METHODS if method in item)
    shown = sorted(re.findall(r"<summary><b>([A-Z]+)</b> <code>([^<]+)</code>", page))
    assert shown == described


def test_every_shape_that_is_pointed_at_is_there(page: str) -> None:
    pointed_at = set(re.findall(r'href="#(shape-[^"]+)"', page))
    there = set(re.findall(r'id="(shape-[^"]+)"', page))
    assert pointed_at and pointed_at <= there


def test_it_speaks_the_readers_language_and_runs_no_script(client: FlaskClient, page: str) -> None:
    assert "The API of this server" in page
    spanish = client.get("/api/reference?language=es").get_data(as_text=True)
    assert '<html lang="es" dir="ltr">' in spanish and "The API of this server" not in spanish
    assert "<script" not in page and "style=" not in page
    assert client.get("/api/reference.css").mimetype == "text/css"


def test_a_reference_is_followed_and_a_list_shows_the_shape_of_its_items() -> None:
    spec = {
        "tags": [{"name": "walks", "description": "Wet checks"}],
        "paths": {
            "/walks": {
                "get": {
                    "tags": ["walks"],
                    "responses": {"200": {"$ref": "#/components/responses/Walks"}},
                    "parameters": [{"name": "site", "in": "query"}],
                }
            }
        },
        "components": {
            "responses": {
                "Walks": {
                    "description": "All of them",
                    "content": {"application/json": {"schema": {"items": {"$ref": "#/components/schemas/Walk"}}}},
                }
            },
            "schemas": {"Walk": {"type": "object"}},
        },
    }
    [subject] = subjects(spec)
    [call] = subject.calls
    assert (call.method, call.path, call.parameters) == ("GET", "/walks", (("site", "query", ""),))
    assert [(one.status, one.meaning, one.shape) for one in call.answers] == [("200", "All of them", "Walk")]
    assert shapes(spec) == [("Walk", '{\n  "type": "object"\n}')]
