"""Sync over HTTP: hello, push, pull, nudges, and decisions about what waits."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from flask import Response, request
from flask.views import MethodView

from pengan.engine.message import saying

from ..bodies import Blueprint
from ..extensions import now, session, shared
from ..languages import reader_of
from ..people.signing_in import current_actor, current_actor_if_any
from ..problems import Problem
from . import operations
from .nudges import board, stream
from .schemas import (
    MOST_BYTES,
    PROTOCOL,
    DecisionSchema,
    HelloAnswerSchema,
    HelloSchema,
    PullAnswerSchema,
    PullSchema,
    PushAnswerSchema,
    PushSchema,
    RevisionSchema,
    SiteQuerySchema,
)
from .telling import as_json, told

too_many_listeners = saying(
    "sync.too_many_listeners", "Too many phones listen for changes. This one asks from time to time instead."
)
sync = Blueprint("sync", __name__, url_prefix="/api/sync", description="One schedule, many hands")


@sync.after_request
def _with_protocol(response: Response) -> Response:
    """By this header a phone knows that the answer is the server's, and not a hotel's page for signing in."""
    response.headers["Pengan-Protocol"] = str(PROTOCOL)
    return response


@sync.route("/hello")
class Hello(MethodView):
    """How to go on."""

    @sync.arguments(HelloSchema)
    @sync.response(200, HelloAnswerSchema)
    def post(self, asked: Mapping[str, Any]) -> dict[str, object]:
        """Say who the phone is and where it stands."""
        return operations.hello(session(), current_actor_if_any(), asked, now())


@sync.route("/push")
class Push(MethodView):
    """What a phone's outbox sends."""

    max_body = MOST_BYTES

    @sync.arguments(PushSchema)
    @sync.response(200, PushAnswerSchema)
    def post(self, sent: Mapping[str, Any]) -> Response:
        """Send edits; each is answered, whatever becomes of the others."""
        return as_json(told(operations.push(session(), current_actor(), sent, now()), reader_of(request)))


@sync.route("/pull")
class Pull(MethodView):
    """What has changed."""

    @sync.arguments(PullSchema)
    @sync.response(200, PullAnswerSchema)
    def post(self, asked: Mapping[str, Any]) -> Response:
        """A page of changes since the cursor, or of a fresh copy."""
        found = told(operations.pull(session(), current_actor_if_any(), asked, now()), reader_of(request))
        return as_json(found)


@sync.route("/revision")
class Revision(MethodView):
    """For phones that nudges do not reach."""

    @sync.arguments(SiteQuerySchema, location="query")
    @sync.response(200, RevisionSchema)
    def get(self, asked: Mapping[str, Any]) -> dict[str, object]:
        """Whether there is something to pull."""
        revision, alarms = operations.revision_of(session(), current_actor_if_any(), **asked)
        return {"site": asked["site"], "revision": revision, "alarms": alarms}


@sync.route("/nudges")
class Nudges(MethodView):
    """Hints that there is something to pull."""

    @sync.arguments(SiteQuerySchema, location="query")
    @sync.response(200, {"type": "string"}, content_type="text/event-stream")
    def get(self, asked: Mapping[str, Any]) -> Response:
        """Server-sent events for a minute at most; the phone connects again by itself. 503: ask `revision` instead."""
        operations.revision_of(session(), current_actor_if_any(), **asked)
        if not board.enter(shared().settings.nudges):
            raise Problem(503, too_many_listeners())
        site, database = asked["site"], shared().database
        events = stream(site, operations.looker(database, site), operations.alarms_looker(database, site))
        response = Response(events, mimetype="text/event-stream", headers={"Cache-Control": "no-store"})
        response.call_on_close(board.leave)
        return response


@sync.route("/sites/<site_id>/waiting/<edit_id>")
class Decision(MethodView):
    """An edit that waits, and with it its set."""

    @sync.arguments(DecisionSchema)
    @sync.response(200, PushAnswerSchema)
    def post(self, sent: Mapping[str, Any], site_id: str, edit_id: str) -> dict[str, object]:
        """Accept, decline or discard it."""
        found = operations.decide(session(), current_actor(), site_id, edit_id, sent["decision"], now())
        return told(found, reader_of(request))
