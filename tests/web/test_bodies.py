"""What may come in: bounded, of the right type, plain; and every fault named in our own words."""

from __future__ import annotations

import json
import re

import marshmallow
import pytest
from flask import Flask
from flask.testing import FlaskClient
from marshmallow import fields, validate

from pengan.engine.journal.fields import MOST_BYTES as JOURNAL_BYTES
from pengan.web import field_faults
from pengan.web.app import create_app
from pengan.web.bodies import DEEPEST, SMALL
from pengan.web.journal.bringing import MOST_BYTES as FILE_BYTES
from pengan.web.need.weather_routes import LARGEST
from pengan.web.photos.looking import KINDS as PICTURES
from pengan.web.photos.looking import MOST_BYTES as PHOTO_BYTES
from pengan.web.settings import Settings
from pengan.web.sync.schemas import MOST_BYTES

JOIN, PUSH = "/api/invitations/join", "/api/sync/push"


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> Flask:
    """One server for all of these: none of them leaves anything behind."""
    return create_app(Settings(data=tmp_path_factory.mktemp("data"), effort=1))


def post(client: FlaskClient, path: str, body: bytes, mimetype: str = "application/json") -> tuple[int, str]:
    answer = client.post(path, data=body, content_type=mimetype)
    assert answer.mimetype == "application/problem+json"
    return answer.status_code, answer.json["code"]


@pytest.mark.parametrize(("path", "limit"), [(JOIN, SMALL), (PUSH, MOST_BYTES)])
def test_a_body_over_its_routes_limit_is_not_read(client: FlaskClient, path: str, limit: int) -> None:
    assert post(client, path, b'{"x":"' + b"x" * limit + b'"}') == (413, "web.body_too_large")
    assert post(client, path, b'{"x":"' + b"x" * (limit - 8) + b'"}')[0] == 422


@pytest.mark.parametrize("mimetype", ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data", ""])
def test_a_type_that_a_form_of_another_site_could_send_is_not_taken(client: FlaskClient, mimetype: str) -> None:
    assert post(client, JOIN, b'{"code":"x"}', mimetype) == (415, "web.body_type")


def test_every_route_that_takes_a_body_takes_json_alone(app: Flask) -> None:
    """A route that takes more says so here too, with its own limit and types."""
    views = {getattr(view, "view_class", None) for view in app.view_functions.values()}
    larger = {view.__name__: view.max_body for view in views if hasattr(view, "max_body")}
    journals = {"Journal": JOURNAL_BYTES, "Entries": JOURNAL_BYTES, "JournalTable": FILE_BYTES}
    assert larger == {"Push": MOST_BYTES, "Readings": LARGEST, "OnePhoto": PHOTO_BYTES, **journals}
    assert {view.__name__ for view in views if hasattr(view, "takes_bytes")} == {"Entries"}
    others = {view.__name__: view.body_types for view in views if hasattr(view, "body_types")}
    assert others == {"OnePhoto": PICTURES, "JournalTable": ("text/csv",)}


@pytest.mark.parametrize(
    ("body", "code"),
    [
        (b"", "fault.not_json"),
        (b"{", "fault.not_json"),
        (b"\xff\xfe{}", "fault.not_utf8"),
        (b'{"a": NaN}', "fault.not_finite"),
        (b'{"a": 1, "a": 2}', "fault.name_twice"),
        (b'{"a": ' + b"9" * 10_000 + b"}", "fault.too_long_number"),
        (b"[" * (DEEPEST + 1) + b"]" * (DEEPEST + 1), "web.body_too_deep"),
        (b'{"a":' * 3000, "web.body_too_deep"),
        (b'{"a": "\\u0000"}', "web.text_not_plain"),
        (b'{"\\ud800": 1}', "web.text_not_plain"),
    ],
)
def test_what_is_no_plain_json_is_a_problem(client: FlaskClient, body: bytes, code: str) -> None:
    assert post(client, JOIN, body) == (400, code)


def test_brackets_inside_texts_are_not_depth(client: FlaskClient) -> None:
    body = json.dumps({"code": "[" * 500 + '\\"{', "name": '"' * 20}).encode()
    assert post(client, JOIN, body) == (422, "web.fields_wrong")


@pytest.mark.parametrize("path", ["/api/sites/%00/document", "/api/people?site=%00", "/api/people?site=a%00b", "/%00"])
def test_a_zero_character_in_an_address_reaches_no_database(client: FlaskClient, path: str) -> None:
    assert client.get(path).status_code == 400


def test_every_fault_of_a_body_is_named_with_its_field(client: FlaskClient) -> None:
    body = {"code": 7, "name": "", "language": None, "device_name": "x" * 201, "hour_cycle": "13", "extra": 1}
    answer = client.post(JOIN, json=body, headers={"Accept-Language": "es"})
    assert {(fault["field"], fault["code"]) for fault in answer.json["fields"]} == {
        ("code", "web.field_not_text"),
        ("name", "web.field_length"),
        ("name", "web.field_not_right"),
        ("language", "web.field_not_empty"),
        ("device_name", "web.field_length"),
        ("hour_cycle", "web.field_not_one_of"),
        ("extra", "web.field_unknown"),
    }
    assert answer.json["code"] == "web.fields_wrong"


def test_what_marshmallow_says_of_plain_fields_is_known_in_our_words() -> None:
    """A new marshmallow that words something else is noticed here."""
    kinds = (fields.String, fields.Integer, fields.Float, fields.Boolean, fields.List, fields.Nested, fields.Dict)
    said = [
        text for kind in kinds for one in kind.__mro__ for text in vars(one).get("default_error_messages", {}).values()
    ]
    said += marshmallow.Schema._default_error_messages.values()
    assert not [text for text in said if text not in field_faults._PLAIN]


@pytest.mark.parametrize(
    ("check", "wrong", "code"),
    [
        (validate.OneOf(["a", "b"]), "c", "web.field_not_one_of"),
        (validate.Length(max=3), "long", "web.field_too_long"),
        (validate.Length(min=3), "s", "web.field_too_short"),
        (validate.Length(2, 3), "long", "web.field_length"),
        (validate.Range(0, 5), 9, "web.field_out_of_range"),
        (validate.Range(min=0), -1, "web.field_too_small"),
        (validate.Range(max=5.5), 9, "web.field_too_big"),
    ],
)
def test_what_its_checks_say_keeps_the_limits(check: validate.Validator, wrong: object, code: str) -> None:
    with pytest.raises(marshmallow.ValidationError) as caught:
        check(wrong)
    message = field_faults.in_our_words(str(caught.value.messages[0]))
    assert message.code == code and message.params


def test_a_body_wrong_all_through_is_answered_in_bounds(client: FlaskClient) -> None:
    answer = client.post(JOIN, json={f"field{number}": 1 for number in range(900)})
    assert len(answer.json["fields"]) == field_faults.MOST


def test_every_problem_has_the_shape_that_is_described(client: FlaskClient) -> None:
    described = client.get("/api/openapi.json").json["components"]
    shape = described["schemas"]["Problem"]
    assert set(shape["required"]) == set(client.get("/api/nothing").json)
    assert "application/problem+json" in json.dumps(described["responses"]["DEFAULT_ERROR"])


def test_no_text_of_an_address_comes_back_as_markup(client: FlaskClient) -> None:
    answer = client.get("/api/sites/<script>alert(1)<%2Fscript>/document")
    assert answer.mimetype in ("application/problem+json",) and answer.headers["X-Content-Type-Options"] == "nosniff"
    assert not re.search("text/html", answer.content_type)
