"""The shapes of the nights ahead and of what is to be known about them."""

from __future__ import annotations

from marshmallow import Schema, fields

INSTANT = {"description": "whole seconds since 1970-01-01T00:00Z"}
NIGHTS_AHEAD = {
    "type": "object",
    "description": "The nights ahead. `revision` is the document's for which they are worked out, `next` the cursor to "
    "ask for later ones with. `clocks` has the site's clock over each night of `sheets`, in the same order.",
    "required": ["next", "revision", "tonight", "sheets", "clocks"],
    "properties": {
        "next": {"type": "integer", "minimum": 0},
        "revision": {"type": "integer", "minimum": 0},
        "tonight": {"type": "string", "description": "the date on which tonight's noon falls; empty before the first"},
        "sheets": {"type": "array", "items": {"$ref": "#/components/schemas/NightSheet"}},
        "clocks": {"type": "array", "items": {"$ref": "#/components/schemas/NightClock"}},
    },
}


class MessageSchema(Schema):
    """Something said, to be put into the reader's language."""

    code = fields.String(required=True)
    params = fields.Dict(keys=fields.String(), required=True)


class NoticeSchema(Schema):
    """Something to know about a night: a change of the clock, or what edits did to the night."""

    night = fields.Date(required=True, metadata={"description": "the date on which its noon falls"})
    message = fields.Nested(MessageSchema, required=True)
    detail = fields.String(required=True, metadata={"description": "the message in the reader's language"})
    people = fields.List(fields.String(), required=True, metadata={"description": "whose edits brought it about"})
    revision = fields.Integer(
        required=True, allow_none=True, metadata={"description": "the document's revision that brought it about"}
    )
    made_at = fields.Integer(required=True, metadata=INSTANT)
