"""The shapes of push: the server's key, a device's subscription, and how a person wants to be told."""

from __future__ import annotations

from marshmallow import Schema, fields, pre_load
from marshmallow.validate import Length, OneOf, Regexp

from ..alarms.names import GRAVITIES

CLOCK = {"description": "on the wall of the site that an alarm is about, as `22:00`; null: no quiet hours"}
OWN_FIELDS = ("endpoint", "keys")


class PushKeySchema(Schema):
    """What a browser is given to subscribe."""

    key = fields.String(required=True, metadata={"description": "`applicationServerKey`, as base64url"})
    subscribed = fields.Boolean(
        required=True,
        allow_none=True,
        metadata={"description": "whether this device is told; null: nobody is signed in"},
    )


class KeysSchema(Schema):
    """What messages are encrypted with (RFC 8291)."""

    p256dh = fields.String(required=True, validate=Regexp(r"^[A-Za-z0-9_-]{80,98}={0,2}\Z"))
    auth = fields.String(required=True, validate=Regexp(r"^[A-Za-z0-9_-]{20,38}={0,2}\Z"))


class SubscriptionSchema(Schema):
    """A browser's `PushSubscription`, as its `toJSON` writes it."""

    endpoint = fields.String(required=True, validate=Length(min=10, max=1000))
    keys = fields.Nested(KeysSchema, required=True)

    @pre_load
    def _own(self, given: object, **_words: object) -> object:
        """Browsers send what they like besides, as when it expires."""
        return {name: given[name] for name in OWN_FIELDS if name in given} if isinstance(given, dict) else given


class WishSchema(Schema):
    """How a person wants to be told of alarms."""

    least = fields.String(
        required=True, validate=OneOf(GRAVITIES), metadata={"description": "alarms less grave are not pushed"}
    )
    quiet_from = fields.String(
        load_default=None, allow_none=True, validate=Regexp(r"([01]\d|2[0-3]):[0-5]\d\Z"), metadata=CLOCK
    )
    quiet_to = fields.String(
        load_default=None, allow_none=True, validate=Regexp(r"([01]\d|2[0-3]):[0-5]\d\Z"), metadata=CLOCK
    )
    quiet_but = fields.String(
        load_default=None,
        allow_none=True,
        validate=OneOf(GRAVITIES),
        metadata={
            "description": "what is as grave is told in quiet hours too; null: everything waits until they are over"
        },
    )
