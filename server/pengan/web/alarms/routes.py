"""Alarms over HTTP: read, seen, explained, ended."""

from __future__ import annotations

from typing import Any

from flask import request
from flask.views import MethodView

from ..bodies import Blueprint
from ..extensions import now, session
from ..languages import reader_of
from ..people.signing_in import current_actor, current_actor_if_any
from .answering import end_by_hand, explain, see
from .finding import alarms_at, alarms_since, one_alarm
from .schemas import AlarmPageSchema, AlarmQuerySchema, AlarmSchema, EndSchema, ExplainSchema
from .shown import alarm_shown, page_shown

Body = dict[str, Any]
alarms = Blueprint(
    "alarms", __name__, url_prefix="/api/sites/<site_id>/alarms", description="What the watch noticed at a site"
)


@alarms.route("")
class Alarms(MethodView):
    """The alarms of a site."""

    @alarms.arguments(AlarmQuerySchema, location="query")
    @alarms.response(200, AlarmPageSchema)
    def get(self, query: Body, site_id: str) -> Body:
        """A page of alarms, open ones first; with `since` in the order in which they changed. Who has seen them is
        told to those who work at the site."""
        actor, limit = current_actor_if_any(), query["limit"]
        if "since" in query:
            page = alarms_since(session(), actor, site_id, query["since"], limit, now())
        else:
            page = alarms_at(session(), actor, site_id, query["state"], query.get("page"), limit, now())
        return page_shown(page, reader_of(request))


@alarms.route("/<alarm_id>/seen")
class AlarmSeen(MethodView):
    """That one has seen an alarm."""

    @alarms.response(200, AlarmSchema)
    def put(self, site_id: str, alarm_id: str) -> Body:
        """I have seen it."""
        see(session(), current_actor(), site_id, alarm_id, now())
        return _one(site_id, alarm_id)


@alarms.route("/<alarm_id>/explained")
class AlarmExplained(MethodView):
    """What an alarm was."""

    @alarms.arguments(ExplainSchema)
    @alarms.response(200, AlarmSchema)
    def put(self, body: Body, site_id: str, alarm_id: str) -> Body:
        """Say what it was. It stays open for as long as readings show it, or until somebody ends it."""
        explain(session(), current_actor(), site_id, alarm_id, body["kind"], body["text"], now())
        return _one(site_id, alarm_id)


@alarms.route("/<alarm_id>/ended")
class AlarmEnded(MethodView):
    """That an alarm is over."""

    @alarms.arguments(EndSchema)
    @alarms.response(200, AlarmSchema)
    def put(self, body: Body, site_id: str, alarm_id: str) -> Body:
        """Say that it is over, whatever readings show. It opens again only for a fault that begins anew."""
        end_by_hand(session(), current_actor(), site_id, alarm_id, body["text"], now())
        return _one(site_id, alarm_id)


def _one(site: str, alarm: str) -> Body:
    page = one_alarm(session(), current_actor(), site, alarm, now())
    return alarm_shown(page.alarms[0], page, reader_of(request))
