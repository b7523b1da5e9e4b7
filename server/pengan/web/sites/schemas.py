"""The shapes of sites and documents."""

from __future__ import annotations

from marshmallow import Schema, fields


class SiteSchema(Schema):
    """A site in the list of sites."""

    id = fields.String(required=True)
    name = fields.String(required=True)
    revision = fields.Integer(required=True, metadata={"description": "rises with every change of the document"})
