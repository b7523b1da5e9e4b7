"""The shape of a night's clock."""

from __future__ import annotations

from marshmallow import Schema, fields

INSTANT = {"description": "whole seconds since 1970-01-01T00:00Z"}


class ChangeSchema(Schema):
    """The clock is set from one offset to another."""

    at = fields.Integer(required=True, metadata=INSTANT)
    before_s = fields.Integer(required=True, metadata={"description": "seconds east of UTC until then"})
    after_s = fields.Integer(required=True, metadata={"description": "seconds east of UTC from then on"})


class NightClockSchema(Schema):
    """What the site's wall shows over one night, and when the light goes and comes."""

    night = fields.String(required=True, metadata={"description": "the date on which its noon falls"})
    starts = fields.Integer(required=True, metadata=INSTANT)
    ends = fields.Integer(required=True, metadata=INSTANT)
    offset_s = fields.Integer(required=True, metadata={"description": "seconds east of UTC at the start"})
    changes = fields.List(fields.Nested(ChangeSchema), required=True)
    sunset = fields.Integer(required=True, allow_none=True, metadata=INSTANT)
    sunrise = fields.Integer(required=True, allow_none=True, metadata=INSTANT)
