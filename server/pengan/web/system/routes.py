"""Whether the server is well, and what time it has."""

from __future__ import annotations

from flask.views import MethodView
from flask_smorest import Blueprint

from ..extensions import now, session, shared
from .operations import answers
from .schemas import ClockSchema, HealthSchema

system = Blueprint("system", __name__, url_prefix="/api", description="Health and the server's clock")


@system.route("/health")
class Health(MethodView):
    """For whoever watches over the server."""

    @system.response(200, HealthSchema)
    def get(self) -> dict[str, object]:
        """Say that the server and its database answer."""
        answers(session())
        return {"status": "ok"}


@system.route("/clock")
class Clock(MethodView):
    """The page follows this clock, since a phone's own may be wrong."""

    @system.response(200, ClockSchema)
    def get(self) -> dict[str, object]:
        """The instant it is."""
        return {"now": now(), "stands": shared().settings.now is not None}
