"""The shapes of what was used."""

from __future__ import annotations

from marshmallow import Schema, fields
from marshmallow.validate import OneOf

from pengan.engine.journal.delivered import Lost

from ..ahead.schemas import INSTANT
from ..need.schemas import CAUTION, MONEY, SaidSchema

BY = ("supply", "program", "hydrozone", "month")
LITRES = {"description": "litres"}
LOCAL = {"description": "YYYY-MM-DDTHH:MM on the site's clock"}


class UsedQuerySchema(Schema):
    """Which nights, and put together by what."""

    first = fields.Date(
        data_key="from", load_default=None, metadata={"description": "the first night; else the year's first"}
    )
    last = fields.Date(data_key="until", load_default=None, metadata={"description": "the last night; else last night"})
    by = fields.String(load_default="month", validate=OneOf(BY))


class UsedLostSchema(Schema):
    """Planned water that did not come, by why."""

    why = fields.String(required=True, validate=OneOf([why.value for why in Lost]))
    volume_l = fields.Float(required=True, metadata=LITRES)


class UsedLineSchema(Schema):
    """Planned = delivered + assumed + lost. What came is delivered + assumed + beyond."""

    key = fields.String(
        required=True, metadata={"description": "a record's id, or YYYY-MM; empty: of none, or the whole site"}
    )
    name = fields.String(
        required=True, metadata={"description": "the record's name; empty where it has none, as after it was removed"}
    )
    planned_l = fields.Float(required=True, metadata=LITRES)
    delivered_l = fields.Float(
        required=True,
        allow_none=True,
        metadata={"description": "what of it is known to have come; null: nothing was told, and it is not known"},
    )
    assumed_l = fields.Float(
        required=True, metadata={"description": "what of it counts as come, since nothing was told of its valves"}
    )
    beyond_l = fields.Float(required=True, metadata={"description": "what came besides the plan"})
    lost_l = fields.Float(required=True, metadata={"description": "what was planned and did not come"})
    lost = fields.List(fields.Nested(UsedLostSchema), required=True)
    came_l = fields.Float(required=True, metadata={"description": "all that came, as far as it is known or assumed"})
    before_l = fields.Float(
        required=True, allow_none=True, metadata={"description": "what came in the same nights a year before"}
    )
    allowed_l = fields.Float(
        required=True, allow_none=True, metadata={"description": "the budget of the months, whole months each"}
    )


class UsedMeterSchema(Schema):
    """A supply's meter, from its first reading to its last, and what came to the stations below it meanwhile."""

    supply = fields.String(required=True)
    starts = fields.Integer(required=True, metadata=INSTANT)
    ends = fields.Integer(required=True, metadata=INSTANT)
    starts_local = fields.String(required=True, metadata=LOCAL)
    ends_local = fields.String(required=True, metadata=LOCAL)
    counted_l = fields.Float(required=True, metadata=LITRES)
    came_l = fields.Float(required=True, metadata=LITRES)
    unaccounted_l = fields.Float(required=True, metadata={"description": "counted, and come to no station"})
    said = fields.List(fields.Nested(SaidSchema), required=True)


class UsedFaultSchema(Schema):
    """What an alarm cost: its size times its time, about."""

    alarm = fields.String(required=True)
    kind = fields.String(required=True)
    supply = fields.String(required=True, allow_none=True)
    controller = fields.String(required=True, allow_none=True)
    since = fields.Integer(required=True, metadata=INSTANT)
    until = fields.Integer(required=True, allow_none=True, metadata={"description": "null: it is not over"})
    escaped_l = fields.Float(required=True, metadata={"description": "ran away"})
    kept_l = fields.Float(required=True, metadata={"description": "never came to the plants"})
    cost = fields.String(
        required=True,
        allow_none=True,
        metadata={"description": f"how much less the months' bills would have been without it; {MONEY['description']}"},
    )
    said = fields.Nested(SaidSchema, required=True)


class UsedSchema(Schema):
    """What was used. `nights` were reckoned up; of `told` of them something was told, the others' plan is assumed."""

    first = fields.Date(required=True, data_key="from")
    last = fields.Date(required=True, data_key="until")
    by = fields.String(required=True, validate=OneOf(BY))
    currency = fields.String(required=True, allow_none=True)
    nights = fields.Integer(required=True)
    told = fields.Integer(required=True)
    lines = fields.List(fields.Nested(UsedLineSchema), required=True)
    total = fields.Nested(UsedLineSchema, required=True)
    meters = fields.List(fields.Nested(UsedMeterSchema), required=True)
    unaccounted_l = fields.Float(
        required=True, allow_none=True, metadata={"description": "of the topmost meters; null: there is none"}
    )
    faults = fields.List(fields.Nested(UsedFaultSchema), required=True)
    said = fields.List(fields.Nested(SaidSchema), required=True, metadata={"description": "what was taken for granted"})
    caution = fields.String(required=True, metadata=CAUTION)
