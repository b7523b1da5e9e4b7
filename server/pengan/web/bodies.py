"""What may come in: how large, of which type, how deep. Looked at before any route sees the request.

A view that takes more than a small JSON body says so with `max_body` (bytes) and `body_types` on its class; one that
keeps what it cannot read, with `takes_bytes`. Blueprints made here hand a body that was read once to the view's schema;
JSON is read as strictly as a document's file.
"""

from __future__ import annotations

import re
from itertools import accumulate
from typing import Any

import flask_smorest
from flask import Flask, current_app, g, request
from flask_smorest.arguments import FlaskParser
from werkzeug.exceptions import RequestEntityTooLarge

from pengan.engine.document.fault import DocumentFaults
from pengan.engine.document.json_text import data_in
from pengan.engine.message import saying

from .problems import Problem

SMALL = 16 * 1024
"""The most bytes a view takes that asks for no more."""
DEEPEST = 16
"""How many lists and objects may stand inside one another."""
JSON = ("application/json",)
WITH_A_BODY = ("POST", "PUT", "PATCH")
_UNKEPT = re.compile("[\0\ud800-\udfff]")
_TEXT = re.compile(rb'"(?:[^"\\]|\\.)*"', re.DOTALL)
_NO_BRACKET = re.compile(rb"[^\[\]{}]+")

body_too_large = saying("web.body_too_large", "This is too large: the server takes {limit} bytes here.")
body_type = saying("web.body_type", "This address takes {types}, not what was sent.")
text_not_plain = saying("web.text_not_plain", "A text holds a character that cannot be kept.")
body_too_deep = saying("web.body_too_deep", "Lists and objects are nested too deep.")


class BodyParser(FlaskParser):
    """Takes the body that was read already."""

    def _raw_load_json(self, req: Any) -> Any:
        return g.body if "body" in g else super()._raw_load_json(req)


class Blueprint(flask_smorest.Blueprint):
    """A feature's routes, whose bodies are read once."""

    ARGUMENTS_PARSER = BodyParser()


def bound_bodies(app: Flask) -> None:
    """Look at each request's body before its route does."""
    app.config["MAX_CONTENT_LENGTH"] = SMALL
    app.before_request(_look)


def _look() -> None:
    if "\0" in request.path or "\0" in request.query_string.decode("latin-1") or b"%00" in request.query_string:
        raise Problem(400, text_not_plain())
    if request.method not in WITH_A_BODY or request.endpoint is None:
        return
    view = getattr(current_app.view_functions[request.endpoint], "view_class", None)
    limit, types = getattr(view, "max_body", SMALL), getattr(view, "body_types", JSON)
    request.max_content_length = limit
    if request.mimetype not in types:
        raise Problem(415, body_type(types=", ".join(types)))
    try:
        body = request.get_data()
    except RequestEntityTooLarge:
        raise Problem(413, body_too_large(limit=limit)) from None
    if request.mimetype in JSON and not getattr(view, "takes_bytes", False):
        g.body = _json(body)


def _json(body: bytes) -> object:
    if _depth(body) > DEEPEST:
        raise Problem(400, body_too_deep())
    try:
        read = data_in(body)
    except DocumentFaults as found:
        raise Problem(400, found.faults[0].message) from None
    if b"\\u" in body and not _plain(read):
        raise Problem(400, text_not_plain())
    return read


def _plain(value: object) -> bool:
    """Whether every text can be kept: PostgreSQL takes no zero character, and half a surrogate pair is no character."""
    if isinstance(value, str):
        return not _UNKEPT.search(value)
    if isinstance(value, dict):
        return all(_plain(name) and _plain(below) for name, below in value.items())
    return all(map(_plain, value)) if isinstance(value, list) else True


def _depth(body: bytes) -> int:
    """How deep brackets stand inside one another, those in texts left out."""
    brackets = _NO_BRACKET.sub(b"", _TEXT.sub(b"", body))
    steps = (1 if bracket in b"[{" else -1 for bracket in brackets)
    return max(accumulate(steps), default=0)
