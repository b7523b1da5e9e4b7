"""A site's nights, worked out."""

from __future__ import annotations

from datetime import date

from flask import Response
from flask.views import MethodView

from ..answers import json_answer
from ..bodies import Blueprint
from ..extensions import now, session, shared
from ..people.signing_in import current_actor_if_any
from ..problems import Problem, no_such_night
from .clocks import NightClock
from .operations import clock_over, sheet_for
from .schemas import NightClockSchema

TONIGHT = "tonight"
nights = Blueprint("nights", __name__, url_prefix="/api/sites/<site_id>/nights", description="Night sheets")


@nights.route("/<night>")
class Night(MethodView):
    """One night of one site."""

    @nights.response(200, {"$ref": "#/components/schemas/NightSheet"})
    def get(self, site_id: str, night: str) -> Response:
        """The sheet of a night: `tonight`, or the date on which its noon falls, as `YYYY-MM-DD`."""
        sheet = sheet_for(session(), current_actor_if_any(), site_id, _date(night), now(), shared().settings.effort)
        return json_answer(sheet.body)


@nights.route("/<night>/clock")
class Clock(MethodView):
    """The site's clock over one night."""

    @nights.response(200, NightClockSchema)
    def get(self, site_id: str, night: str) -> NightClock:
        """What a reader of the sheet needs to write its instants as the wall shows them, and when the light changes."""
        return clock_over(session(), current_actor_if_any(), site_id, _date(night), now())


def _date(night: str) -> date | None:
    if night == TONIGHT:
        return None
    try:
        return date.fromisoformat(night)
    except ValueError:
        raise Problem(404, no_such_night(given=night)) from None
