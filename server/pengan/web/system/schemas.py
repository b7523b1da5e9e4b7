"""The shapes of health, versions and clock."""

from __future__ import annotations

from marshmallow import Schema, fields


class HealthSchema(Schema):
    """The server is well."""

    status = fields.String(required=True, metadata={"description": "`ok`"})


class AboutSchema(Schema):
    """What runs here."""

    version = fields.String(required=True, metadata={"description": "the server's version"})
    planner = fields.String(required=True, metadata={"description": "the planning engine's version"})
    zone_data = fields.String(required=True, metadata={"description": "which time zone data, as `2026a`"})


class ClockSchema(Schema):
    """The server's clock."""

    now = fields.Integer(required=True, metadata={"description": "whole seconds since 1970-01-01T00:00Z"})
    stands = fields.Boolean(required=True, metadata={"description": "whether the clock was made to stand still"})
