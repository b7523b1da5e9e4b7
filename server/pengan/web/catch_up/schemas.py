"""The shapes of the rest of a night: its offers, and what is accepted."""

from __future__ import annotations

from marshmallow import Schema, fields
from marshmallow.validate import Length, OneOf, Range, Regexp

from pengan.engine.catch_up.rest import Way

from ..ahead.schemas import INSTANT
from .kept import ENDINGS
from .offering import EFFORT

LATEST = 2**53
MOST_EFFORT = 64
WAYS = [way.value for way in Way]


class InterruptionSchema(Schema):
    """A span of tonight without power, water or permission."""

    what = fields.String(required=True, validate=OneOf(("power", "shut", "stopped")))
    since = fields.Integer(required=True, metadata=INSTANT)
    until = fields.Integer(required=True, allow_none=True, metadata={"description": "null: it goes on"})
    controller = fields.String(required=True, allow_none=True)
    supply = fields.String(required=True, allow_none=True)


class CarriedSchema(Schema):
    """What a hydrozone lacks of what was planned for it tonight; the next night's need knows it."""

    hydrozone = fields.String(required=True)
    volume_l = fields.Float(required=True)
    depth_mm = fields.Float(required=True, allow_none=True)


class RestEffectSchema(Schema):
    """What a rest of the night changes."""

    finish_before = fields.Integer(required=True, allow_none=True, metadata=INSTANT)
    finish_after = fields.Integer(required=True, allow_none=True, metadata=INSTANT)
    delivered_l = fields.Float(required=True)
    missed_l = fields.Float(required=True, metadata={"description": "what keeping to the clock loses"})
    recovered_l = fields.Float(required=True, metadata={"description": "what of it comes after all"})
    lost_l = fields.Float(required=True, metadata={"description": "what of the plan does not come"})
    later_count = fields.Integer(required=True, metadata={"description": "runs that were still to come"})
    moved_count = fields.Integer(required=True, metadata={"description": "those of them that move or do not run"})
    carried = fields.List(fields.Nested(CarriedSchema), required=True)


class RestSchema(Schema):
    """One rest of the night: the sheet of the whole of it, and what that changes."""

    sheet = fields.Dict(required=True, metadata={"description": "in the shape of `NightSheet`"})
    effect = fields.Nested(RestEffectSchema, required=True)


class RestsSchema(Schema):
    """Both rests, side by side."""

    keep = fields.Nested(RestSchema, required=True)
    recover = fields.Nested(RestSchema, required=True)


class CatchUpQuerySchema(Schema):
    """How much of it."""

    offers = fields.Boolean(
        load_default=True, metadata={"description": "false: without the rests, which take seconds to work out"}
    )


class PromiseSchema(Schema):
    """An interruption that is expected to be over at an instant."""

    kind = fields.String(required=True, validate=OneOf([kind.value for kind in ENDINGS]))
    at = fields.Integer(required=True, validate=Range(0, LATEST), metadata=INSTANT)
    supply = fields.String(validate=Length(max=64))
    controller = fields.String(validate=Length(max=64))


class AcceptedSchema(Schema):
    """A rest that was accepted tonight."""

    id = fields.String(required=True)
    at = fields.Integer(required=True, metadata=INSTANT)
    way = fields.String(required=True, validate=OneOf(WAYS))
    promised = fields.List(fields.Nested(PromiseSchema), required=True)
    by = fields.String(required=True)
    worked_out = fields.Boolean(required=True, metadata={"description": "tonight's sheet knows of it"})
    effect = fields.Nested(RestEffectSchema, required=True, allow_none=True)


class CatchUpSchema(Schema):
    """Tonight as it stands, and its offers; null where tonight goes on as its sheet has it."""

    night = fields.String(required=True)
    now = fields.Integer(required=True, metadata=INSTANT)
    interruptions = fields.List(fields.Nested(InterruptionSchema), required=True)
    offers = fields.Nested(RestsSchema, required=True, allow_none=True)
    accepted = fields.List(fields.Nested(AcceptedSchema), required=True)
    names = fields.Dict(keys=fields.String(), values=fields.String(), required=True)


class AcceptanceSchema(Schema):
    """A rest of tonight that somebody accepts."""

    id = fields.String(
        required=True,
        validate=Regexp(r"[A-Za-z0-9-]{8,48}\Z"),
        metadata={"description": "made by whoever accepts; sent twice, it is taken once"},
    )
    person = fields.String(
        validate=Length(max=64), metadata={"description": "Who accepted it. Sent as somebody else, it is turned away."}
    )
    night = fields.Date(required=True, metadata={"description": "the date on which its noon falls"})
    at = fields.Integer(required=True, validate=Range(0, LATEST), metadata=INSTANT)
    way = fields.String(required=True, validate=OneOf(WAYS))
    effort = fields.Integer(
        load_default=EFFORT,
        validate=Range(1, MOST_EFFORT),
        metadata={"description": "constructions: the same effort gives the same night everywhere"},
    )
    promised = fields.List(fields.Nested(PromiseSchema), load_default=list, validate=Length(max=100))


class TakenSchema(Schema):
    """What was accepted is kept, now or before."""

    id = fields.String(required=True)
