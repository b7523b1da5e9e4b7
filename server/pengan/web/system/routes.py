"""Whether the server is well, what runs, and what time it has."""

from __future__ import annotations

from flask.views import MethodView
from flask_smorest import Blueprint

from ..extensions import now, session, shared
from ..people.signing_in import current_actor
from .operations import answers, versions
from .schemas import AboutSchema, ClockSchema, HealthSchema

system = Blueprint("system", __name__, url_prefix="/api", description="Health and the server's clock")


@system.route("/health")
class Health(MethodView):
    """For whoever watches over the server."""

    @system.response(200, HealthSchema)
    def get(self) -> dict[str, object]:
        """Say that the server and its database answer."""
        answers(session())
        return {"status": "ok"}


@system.route("/about")
class About(MethodView):
    """For whoever asks for help, and has to say what runs."""

    @system.response(200, AboutSchema)
    def get(self) -> dict[str, str]:
        """The versions of the server, its planning engine and its time zone data, for those who are let in."""
        current_actor()
        return versions()


@system.route("/clock")
class Clock(MethodView):
    """The page follows this clock, since a phone's own may be wrong."""

    @system.response(200, ClockSchema)
    def get(self) -> dict[str, object]:
        """The instant it is."""
        return {"now": now(), "stands": shared().settings.now is not None}
