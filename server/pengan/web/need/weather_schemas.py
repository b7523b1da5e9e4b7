"""The shapes of weather stations and of what they send."""

from __future__ import annotations

from marshmallow import Schema, fields
from marshmallow.validate import Length

from ..ahead.schemas import INSTANT
from ..people.schemas import Line
from .readings import HOUR_FIELDS, MOST_DAYS, MOST_HOURS
from .schemas import SaidSchema


class NewWeatherStationSchema(Schema):
    """A weather station to come."""

    name = Line(longest=80, required=True, metadata={"description": "what people call it; the history names it so"})


class MadeWeatherStationSchema(Schema):
    """A new weather station. Its token is told this once."""

    id = fields.String(required=True)
    name = fields.String(required=True)
    token = fields.String(required=True, metadata={"description": "for `Authorization: Bearer`"})


class WeatherStationSchema(Schema):
    """A weather station that may report."""

    id = fields.String(required=True)
    name = fields.String(required=True)
    made_at = fields.Integer(required=True, metadata=INSTANT)
    heard_at = fields.Integer(required=True, allow_none=True, metadata=INSTANT)


class ReadingsSchema(Schema):
    """Readings of days on the site's calendar, and of hours that begin at an instant."""

    units = fields.Dict(
        keys=fields.String(validate=Length(max=40)),
        values=fields.String(validate=Length(max=40)),
        load_default=dict,
        validate=Length(max=40),
        metadata={"description": "field → unit, as `wind_mps: kmh`; else the one in the field's name"},
    )
    days = fields.List(
        fields.Dict(keys=fields.String()),
        load_default=list,
        validate=Length(max=MOST_DAYS),
        metadata={"description": "`day` and fields of the weather table; null clears a field"},
    )
    hours = fields.List(
        fields.Dict(keys=fields.String()),
        load_default=list,
        validate=Length(max=MOST_HOURS),
        metadata={"description": f"`starts` (an instant with its offset) and any of {', '.join(HOUR_FIELDS)}"},
    )


class ReadingFaultSchema(SaidSchema):
    """What is wrong with a row. The row was not taken: send it again, mended."""

    field = fields.String(required=True, metadata={"description": "as `days.3.wind_mps`, counted from 0"})


class ReadingsTakenSchema(Schema):
    """What was taken."""

    days = fields.Integer(required=True)
    hours = fields.Integer(required=True)
    changed = fields.List(fields.Date(), required=True, metadata={"description": "the days whose record has changed"})
    faults = fields.List(fields.Nested(ReadingFaultSchema), required=True)
