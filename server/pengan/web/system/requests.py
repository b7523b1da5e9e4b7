"""What is noted of each request: a name to ask after it by, its route, how it was answered and how long it took."""

from __future__ import annotations

import logging
import re
import time
from uuid import uuid4

from flask import Flask, Response, g, request

from .metrics import count_request

HEADER = "X-Request-Id"
GIVEN = re.compile(r"[A-Za-z0-9-]{8,64}")
NO_ROUTE = "none"
WATCHERS = frozenset({"/health", "/ready", "/metrics"})
"""Asked every few seconds by machines: counted, and logged only where they fail."""
logger = logging.getLogger(__name__)


def note_requests(app: Flask) -> None:
    """Note every request of the app. To be called before anything else looks at them, so that all of it is timed."""
    app.before_request(_begin)
    app.after_request(_end)


def _begin() -> None:
    g.began = time.perf_counter()
    given = request.headers.get(HEADER, "")
    g.request_id = given if GIVEN.fullmatch(given) else uuid4().hex


def _end(response: Response) -> Response:
    if "began" not in g:
        return response
    seconds = time.perf_counter() - g.began
    route = NO_ROUTE if request.url_rule is None else request.url_rule.rule
    method = request.method if request.url_rule is not None else NO_ROUTE
    count_request(method, route, response.status_code, seconds)
    level = logging.DEBUG if route in WATCHERS and response.status_code < 400 else logging.INFO
    noted = {"request": g.request_id, "method": method, "route": route, "status": response.status_code}
    if "problem" in g:
        noted["code"] = g.problem
    logger.log(level, "request", extra={**noted, "ms": round(seconds * 1000, 1)})
    response.headers[HEADER] = g.request_id
    return response
