"""JSON answers that a browser may keep, as long as it asks each time whether they still hold (RFC 9110, ETag)."""

from __future__ import annotations

import hashlib
import json

from flask import Response, request


def json_answer(body: object, tag: str | None = None) -> Response:
    """The body as JSON (text is taken to be JSON already), or 304 where the browser has it."""
    written = body if isinstance(body, str) else json.dumps(body, ensure_ascii=False, separators=(",", ":"))
    response = Response(written, mimetype="application/json")
    response.set_etag(tag or hashlib.sha256(written.encode()).hexdigest()[:32])
    response.cache_control.no_cache = True
    response.make_conditional(request)
    return response
