"""The shapes of the history."""

from __future__ import annotations

from marshmallow import Schema, fields, validate

from ..sync.schemas import INSTANT, LARGEST, OUTCOMES

LARGEST_PAGE = 200
LATEST = 2**53


def _instant(about: str) -> fields.Integer:
    return fields.Integer(validate=validate.Range(0, LATEST), metadata={"description": f"{about}; {INSTANT}"})


class HistoryQuerySchema(Schema):
    """Which part of the history."""

    before_revision = fields.Integer(
        validate=validate.Range(0, LARGEST), metadata={"description": "only what came before this revision"}
    )
    limit = fields.Integer(load_default=100, validate=validate.Range(1, LARGEST_PAGE))
    person = fields.String(validate=validate.Length(max=64))
    table = fields.String(validate=validate.Length(max=64))
    record = fields.String(validate=validate.Length(max=64))
    set = fields.String(validate=validate.Length(max=64))
    outcome = fields.String(validate=validate.OneOf(OUTCOMES))
    since = _instant("from this instant on")
    until = _instant("before this instant")


class HistoryEditSchema(Schema):
    """One edit: who, what, when, from where, and what became of it."""

    id = fields.String(required=True)
    set = fields.String(required=True)
    kind = fields.String(required=True)
    table = fields.String(required=True)
    record = fields.String(required=True)
    field = fields.String(required=True, allow_none=True)
    seen = fields.Raw(required=True, allow_none=True)
    was = fields.Raw(required=True, allow_none=True, metadata={"description": "what its editor saw"})
    before = fields.Raw(required=True, allow_none=True, metadata={"description": "what was in force"})
    now = fields.Raw(required=True, allow_none=True)
    format = fields.Integer(required=True)
    outcome = fields.String(required=True, validate=validate.OneOf(OUTCOMES))
    version = fields.Integer(required=True, allow_none=True)
    revision = fields.Integer(required=True)
    person = fields.String(required=True, metadata={"description": "empty: the server itself"})
    device = fields.String(required=True, allow_none=True)
    at = fields.Integer(required=True, metadata=INSTANT)
    phone_time = fields.String(required=True, allow_none=True)
    decided_by = fields.String(required=True, allow_none=True)
    decided_at = fields.Integer(required=True, allow_none=True, metadata=INSTANT)
    settles = fields.String(required=True, allow_none=True)
    undoes = fields.String(required=True, allow_none=True)
    effect = fields.Dict(required=True, allow_none=True, metadata={"description": "what it did to tonight, once known"})


class HistorySchema(Schema):
    """A page of the history, the newest first."""

    site = fields.String(required=True)
    edits = fields.List(fields.Nested(HistoryEditSchema), required=True)
    people = fields.Dict(required=True, metadata={"description": "names of the people the page speaks of, by id"})
    next = fields.Integer(
        required=True, allow_none=True, metadata={"description": "`before_revision` of the next page"}
    )


class UndoSchema(Schema):
    """What is to be undone."""

    which = fields.String(
        required=True,
        validate=validate.Length(1, 64),
        metadata={"description": "the id of a set, or of one edit"},
    )


class ThenSchema(Schema):
    """When: at a revision or at an instant; neither means today."""

    revision = fields.Integer(validate=validate.Range(0, LARGEST))
    at = _instant("as it stood at this instant")


class DocumentThenSchema(Schema):
    """The document as it stood."""

    revision = fields.Integer(required=True)
    document = fields.Dict(required=True, metadata={"description": "in the shape of `Document`"})
