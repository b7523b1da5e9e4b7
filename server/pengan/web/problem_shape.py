"""The shape of every failure, for the API's description."""

from __future__ import annotations

from marshmallow import Schema, fields


class FieldFaultSchema(Schema):
    """One thing that is wrong, and where."""

    table = fields.String(allow_none=True)
    record = fields.String(allow_none=True)
    field = fields.String(allow_none=True)
    code = fields.String(required=True)
    params = fields.Dict(required=True)
    detail = fields.String(required=True, metadata={"description": "the same in the reader's language"})


class ProblemSchema(Schema):
    """Problem details (RFC 9457)."""

    type = fields.String(required=True)
    title = fields.String(required=True)
    status = fields.Integer(required=True)
    detail = fields.String(required=True, metadata={"description": "what is wrong, in the reader's language"})
    code = fields.String(required=True, metadata={"description": "stable; says what is wrong"})
    params = fields.Dict(required=True, metadata={"description": "what the sentence speaks of"})
    fields_ = fields.List(fields.Nested(FieldFaultSchema), required=True, data_key="fields", attribute="fields")
