"""The nights ahead, and what is to be known about them."""

from __future__ import annotations

from flask import Response, request
from flask.views import MethodView

from pengan.words.say import say

from ..answers import json_answer
from ..bodies import Blueprint
from ..extensions import session
from ..languages import reader_of
from ..people.signing_in import current_actor_if_any
from .operations import notices_for, sheets_for
from .schemas import NoticeSchema

ahead = Blueprint("ahead", __name__, url_prefix="/api/sites/<site_id>", description="Nights ahead")


@ahead.route("/nights")
class Nights(MethodView):
    """The nights ahead."""

    @ahead.response(200, {"$ref": "#/components/schemas/NightsAhead"})
    def get(self, site_id: str) -> Response:
        """The sheets of tonight and the thirteen nights after it, as far as they are worked out, and their clocks."""
        return json_answer(sheets_for(session(), current_actor_if_any(), site_id).as_text())


@ahead.route("/notices")
class Notices(MethodView):
    """What is to be known about the nights ahead."""

    @ahead.response(200, NoticeSchema(many=True))
    def get(self, site_id: str) -> Response:
        """Changes of the clock, and nights that somebody else's edits have changed by much, by night."""
        reader = reader_of(request)
        notices, names = notices_for(session(), current_actor_if_any(), site_id)
        return json_answer([notice.as_json() | {"detail": say(notice.message, reader, names)} for notice in notices])
