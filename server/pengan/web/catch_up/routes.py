"""The rest of tonight after an interruption: its offers, and accepting one."""

from __future__ import annotations

from typing import Any

from flask import Response
from flask.views import MethodView

from pengan.engine.catch_up.rest import Way

from ..bodies import Blueprint
from ..extensions import now, session
from ..people.signing_in import current_actor
from ..sync.schemas import PROTOCOL
from .accepting import Acceptance, accept
from .offering import offers_for
from .schemas import AcceptanceSchema, CatchUpQuerySchema, CatchUpSchema, TakenSchema

Body = dict[str, Any]
catch_up = Blueprint(
    "catch_up",
    __name__,
    url_prefix="/api/sites/<site_id>/nights/tonight/catch-up",
    description="The rest of a night after an interruption",
)


@catch_up.after_request
def _with_protocol(response: Response) -> Response:
    """By this header a phone knows that the answer is the server's, and not a hotel's page for signing in."""
    response.headers["Pengan-Protocol"] = str(PROTOCOL)
    return response


@catch_up.route("")
class CatchUp(MethodView):
    """The rest of tonight."""

    @catch_up.arguments(CatchUpQuerySchema, location="query")
    @catch_up.response(200, CatchUpSchema)
    def get(self, query: Body, site_id: str) -> Body:
        """What interrupted tonight, and where something was missed, both rests of it with their effects."""
        return offers_for(session(), current_actor(), site_id, now(), with_rests=query["offers"]).shown()

    @catch_up.arguments(AcceptanceSchema)
    @catch_up.response(200, TakenSchema)
    def post(self, body: Body, site_id: str) -> Body:
        """Accept one: tonight is planned from it at once, and phones get it as they get every night."""
        actor = current_actor()
        given = Acceptance(
            body["id"],
            body["night"].isoformat(),
            body["at"],
            Way(body["way"]),
            body["effort"],
            tuple(body["promised"]),
        )
        accept(session(), actor, site_id, given, now(), body.get("person", actor.person))
        return {"id": given.id}
