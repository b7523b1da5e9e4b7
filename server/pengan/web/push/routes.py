"""Push over HTTP: the server's key, this device's subscription, one's own quiet hours."""

from __future__ import annotations

from typing import Any

from flask.views import MethodView

from pengan.engine.journal.alarm import Gravity

from ..alarms.names import GRAVITIES
from ..bodies import Blueprint
from ..extensions import now, session, shared
from ..people.signing_in import current_actor, current_actor_if_any
from .own_key import own_push_key, public_text
from .schemas import PushKeySchema, SubscriptionSchema, WishSchema
from .wishes import Wish, is_subscribed, own_wish, subscribe, unsubscribe, wish

Body = dict[str, Any]
push = Blueprint("push", __name__, url_prefix="/api/push", description="Alarms on one's own phone")


@push.route("/key")
class PushKey(MethodView):
    """The key by which push services know this server."""

    @push.response(200, PushKeySchema)
    def get(self) -> Body:
        """What a browser subscribes with, and whether this device is told already."""
        actor = current_actor_if_any()
        key = public_text(own_push_key(shared().settings.secret_path))
        return {"key": key, "subscribed": None if actor is None else is_subscribed(session(), actor)}


@push.route("/subscription")
class Subscription(MethodView):
    """Whether this device is told."""

    @push.arguments(SubscriptionSchema)
    @push.response(204)
    def put(self, body: Body) -> None:
        """Tell this device of alarms from now on, in the place of where it was told before."""
        keys, services = body["keys"], shared().settings.push_services.split()
        subscribe(session(), current_actor(), body["endpoint"], keys["p256dh"], keys["auth"], services, now())

    @push.response(204)
    def delete(self) -> None:
        """Tell this device no more."""
        unsubscribe(session(), current_actor())


@push.route("/wishes")
class Wishes(MethodView):
    """How one wants to be told, on all one's devices."""

    @push.response(200, WishSchema)
    def get(self) -> Body:
        """From which gravity on, and when rather not."""
        return _shown(own_wish(session(), current_actor()))

    @push.arguments(WishSchema)
    @push.response(200, WishSchema)
    def put(self, body: Body) -> Body:
        """Change it. What comes in quiet hours is told when they are over."""
        least, but = _gravity(body["least"]), body["quiet_but"] and _gravity(body["quiet_but"])
        wanted = Wish(least, body["quiet_from"], body["quiet_to"], but)
        wish(session(), current_actor(), wanted)
        return _shown(wanted)


def _gravity(name: str) -> Gravity:
    return Gravity(1 + GRAVITIES.index(name))


def _shown(one: Wish) -> Body:
    but = None if one.quiet_but is None else GRAVITIES[one.quiet_but - 1]
    return {"least": GRAVITIES[one.least - 1], "quiet_from": one.quiet_from, "quiet_to": one.quiet_to, "quiet_but": but}
