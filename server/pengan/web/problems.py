"""Every failure in one shape: RFC 9457 problem details with `code`, `params` and `fields`, in the reader's language."""

from __future__ import annotations

import json
from collections.abc import Sequence

from flask import Flask, Response, current_app, g, request
from werkzeug.exceptions import HTTPException
from werkzeug.http import HTTP_STATUS_CODES

from pengan.engine.document.fault import Fault
from pengan.engine.message import Message, saying
from pengan.words.reader import Reader
from pengan.words.say import say

from .field_faults import field_faults
from .languages import reader_of

no_such_site = saying("web.no_such_site", "There is no site {site_id} here.")
no_such_night = saying("web.no_such_night", "{given} is not a night. Write a date as YYYY-MM-DD, or tonight.")
night_out_of_reach = saying(
    "web.night_out_of_reach",
    "The night of {night_date} is out of reach. Nights from {earliest_date} to {latest_date} can be worked out.",
)
nothing_here = saying("web.nothing_here", "There is nothing at this address.")
not_that_way = saying("web.not_that_way", "This address does not take that kind of request.")
not_understood = saying("web.not_understood", "The request could not be read.")
fields_wrong = saying("web.fields_wrong", "Some of what was sent cannot be taken. Nothing was changed.")
server_failed = saying("web.server_failed", "The server made a mistake. Nothing was changed. Please try again.")

_BY_STATUS = {404: nothing_here, 405: not_that_way, 422: fields_wrong, 500: server_failed}
_KEPT_HEADERS = ("allow", "retry-after")


class Problem(Exception):
    """A failure that its reader can do something about: a status, what is said, and the fields at fault."""

    def __init__(
        self, status: int, message: Message, fields: Sequence[Fault] = (), retry_after_s: int | None = None
    ) -> None:
        super().__init__(message.code)
        self.retry_after_s = retry_after_s
        self.status = status
        self.message = message
        self.fields = tuple(fields)


def answer_problems(app: Flask) -> None:
    """Make the app answer every failure as a problem."""
    app.register_error_handler(Problem, problem_response)
    app.register_error_handler(HTTPException, http_problem)
    app.register_error_handler(Exception, _unexpected)


def problem_response(problem: Problem) -> Response:
    """The problem as `application/problem+json`."""
    reader = reader_of(request)
    message = problem.message.as_json()
    g.problem = message["code"]  # for the log
    body = {
        "type": "about:blank",
        "title": HTTP_STATUS_CODES.get(problem.status, ""),
        "status": problem.status,
        "detail": say(problem.message, reader),
        "code": message["code"],
        "params": message["params"],
        "fields": [_field(fault, reader) for fault in problem.fields],
    }
    response = Response(json.dumps(body, ensure_ascii=False), problem.status, mimetype="application/problem+json")
    response.content_language.add(reader.language)
    response.cache_control.no_store = True
    if problem.retry_after_s is not None:
        response.retry_after = problem.retry_after_s
    return response


def _field(fault: Fault, reader: Reader) -> dict[str, object]:
    return {**fault.as_json(), "detail": say(fault.message, reader)}


def http_problem(error: HTTPException) -> Response:
    """A failure that Flask or a library raised, in the same shape."""
    status = error.code or 500
    otherwise = server_failed if status >= 500 else not_understood
    messages = getattr(error, "data", {}).get("messages", {})
    response = problem_response(Problem(status, _BY_STATUS.get(status, otherwise)(), field_faults(messages)))
    response.headers.extend((name, value) for name, value in error.get_headers() if name.lower() in _KEPT_HEADERS)
    return response


def _unexpected(error: Exception) -> Response:
    """A mistake of ours: the log gets everything, the reader no more than that it happened."""
    current_app.logger.exception("unexpected failure", exc_info=error)
    return problem_response(Problem(500, server_failed()))
