"""The shapes of alarms: what was noticed, who may be behind it, who has seen it, and how it ended."""

from __future__ import annotations

from marshmallow import Schema, fields
from marshmallow.validate import Length, OneOf, Range

from pengan.engine.journal.entry import Explained
from pengan.engine.journal.finding import Cause, Noticed

from ..ahead.schemas import INSTANT
from ..need.schemas import SaidSchema
from .names import DRIFT, GRAVITIES, MOST_ON_A_PAGE

LATEST = 2**53
LONGEST_TEXT = 2000
KINDS = [*(kind.value for kind in Noticed), DRIFT]


class AlarmQuerySchema(Schema):
    """Which alarms."""

    state = fields.String(load_default="all", validate=OneOf(("open", "ended", "all")))
    since = fields.Integer(
        validate=Range(0, LATEST),
        metadata={
            "description": "in the order of change, those that changed after this count: for whoever keeps a copy"
        },
    )
    page = fields.String(validate=Length(max=120), metadata={"description": "`next` of the page before"})
    limit = fields.Integer(load_default=50, validate=Range(1, MOST_ON_A_PAGE))


class CulpritSchema(Schema):
    """Who may be behind an alarm: a station, a supply or a controller."""

    cause = fields.String(required=True, validate=OneOf([cause.value for cause in Cause]))
    sure = fields.Float(required=True, metadata={"description": "how sure, from 0 to 1"})
    size_lpm = fields.Float(required=True)
    station = fields.String(required=True, allow_none=True)
    supply = fields.String(required=True, allow_none=True)
    controller = fields.String(required=True, allow_none=True)
    said = fields.Nested(SaidSchema, required=True)


class TrialSchema(Schema):
    """What to run to tell culprits apart: no station, one, or a pair."""

    stations = fields.List(fields.String(), required=True)
    said = fields.Nested(SaidSchema, required=True, allow_none=True)


class SeenSchema(Schema):
    """Who has seen an alarm, and when first."""

    person = fields.String(required=True)
    at = fields.Integer(required=True, metadata=INSTANT)


class ExplainedSchema(Schema):
    """What a person said that it was. The latest; all are in the journal."""

    kind = fields.String(required=True, validate=OneOf([kind.value for kind in Explained]))
    text = fields.String(required=True)
    by = fields.String(required=True, allow_none=True, metadata={"description": "the person's id"})
    at = fields.Integer(required=True, metadata=INSTANT)


class EndedSchema(Schema):
    """Since when an alarm is over, who says so, and why."""

    at = fields.Integer(required=True, metadata=INSTANT)
    by = fields.String(required=True, metadata={"description": "`server`, or `person:<id>`"})
    why = fields.Nested(SaidSchema, required=True)


class AlarmSchema(Schema):
    """One fault that was noticed. Its id stays while it goes on, over noon and in whatever order it is told of."""

    id = fields.String(required=True)
    change = fields.Integer(required=True, metadata={"description": "the site's count at its last change"})
    night = fields.String(required=True, metadata={"description": "the first night that showed it, as `2026-07-10`"})
    last_night = fields.String(
        required=True, metadata={"description": "the latest night that showed it, as `2026-07-10`"}
    )
    kind = fields.String(required=True, validate=OneOf(KINDS))
    gravity = fields.String(required=True, validate=OneOf(GRAVITIES))
    supply = fields.String(required=True, allow_none=True)
    controller = fields.String(required=True, allow_none=True)
    station = fields.String(required=True, allow_none=True, metadata={"description": "the likeliest, if it is one"})
    size_lpm = fields.Float(required=True, metadata={"description": "so much too much or too little, about"})
    lost_l = fields.Float(required=True, metadata={"description": "what escaped or did not come so far, about"})
    since = fields.Integer(required=True, metadata=INSTANT)
    opened_at = fields.Integer(required=True, metadata=INSTANT)
    spells = fields.List(
        fields.List(fields.Integer(allow_none=True)),
        required=True,
        metadata={"description": "from when to when: `[start, noticed, end]`, the end null while it lasts"},
    )
    said = fields.Nested(SaidSchema, required=True)
    culprits = fields.List(fields.Nested(CulpritSchema), required=True, metadata={"description": "the surest first"})
    trial = fields.Nested(TrialSchema, required=True)
    seen = fields.List(fields.Nested(SeenSchema), required=True)
    explained = fields.Nested(ExplainedSchema, required=True, allow_none=True)
    ended = fields.Nested(EndedSchema, required=True, allow_none=True)


class AlarmPageSchema(Schema):
    """A page of alarms."""

    alarms = fields.List(fields.Nested(AlarmSchema), required=True)
    names = fields.Dict(
        keys=fields.String(), values=fields.String(), required=True, metadata={"description": "people's, by id"}
    )
    next = fields.String(
        required=True,
        allow_none=True,
        metadata={"description": "`page` of the next page, or its `since` where `since` was asked for; null: no more"},
    )
    newest = fields.Integer(required=True, metadata={"description": "the newest count: the next `since`"})
    caution = fields.Nested(SaidSchema, required=True)


class ExplainSchema(Schema):
    """What it was."""

    kind = fields.String(required=True, validate=OneOf([kind.value for kind in Explained]))
    text = fields.String(load_default="", validate=Length(max=LONGEST_TEXT))


class EndSchema(Schema):
    """That it is over."""

    text = fields.String(load_default="", validate=Length(max=LONGEST_TEXT))
