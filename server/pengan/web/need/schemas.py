"""The shapes of the water need: nights, the work behind a turn, seasons, suggestions, budgets."""

from __future__ import annotations

from marshmallow import Schema, fields

from ..ahead.schemas import MessageSchema

MM = {"description": "mm"}
MONEY = {"description": "an exact decimal, in `currency`"}
CAUTION = {"description": "to be shown with the figures, in the reader's language"}


class SaidSchema(MessageSchema):
    """Something said, and the same in the reader's language."""

    detail = fields.String(required=True, metadata={"description": "the message in the reader's language"})


class StationNeedSchema(Schema):
    """What a hydrozone's need makes for one of its stations."""

    station = fields.String(required=True)
    net_mm = fields.Float(required=True, metadata=MM)
    gross_mm = fields.Float(required=True, metadata=MM)
    rate_mm_h = fields.Float(required=True, metadata={"description": "mm an hour"})
    rate_from = fields.String(required=True, metadata={"description": "how the rate is known"})
    uniformity = fields.Float(required=True, metadata={"description": "lower-quarter evenness, 0 to 1"})
    multiplier = fields.Float(required=True)
    run_s = fields.Integer(required=True, metadata={"description": "seconds of water, all cycles together"})
    cycles = fields.Integer(required=True)
    soak_s = fields.Integer(required=True, metadata={"description": "seconds between two cycles"})
    messages = fields.List(fields.Nested(SaidSchema), required=True)


class HydrozoneNeedSchema(Schema):
    """One hydrozone's night. Figures are null where something about it is missing; the messages say what."""

    hydrozone = fields.String(required=True)
    by_hand = fields.Boolean(
        required=True, metadata={"description": "no turn of it goes by the need: what its plants would be given"}
    )
    depletion_mm = fields.Float(
        required=True, allow_none=True, metadata={"description": "mm missing to field capacity before the night"}
    )
    ready_mm = fields.Float(required=True, allow_none=True, metadata={"description": "mm that plants take with ease"})
    total_mm = fields.Float(required=True, allow_none=True, metadata={"description": "mm that the root zone holds"})
    tonight_mm = fields.Float(required=True, allow_none=True, metadata={"description": "mm at the roots tonight"})
    share_pct = fields.Float(
        required=True, allow_none=True, metadata={"description": "percent of the need that is given"}
    )
    next_night = fields.Date(
        required=True, allow_none=True, metadata={"description": "the next night that is expected to have water"}
    )
    next_mm = fields.Float(required=True, allow_none=True, metadata=MM)
    decision = fields.Nested(SaidSchema, required=True, allow_none=True)
    stations = fields.List(fields.Nested(StationNeedSchema), required=True)
    messages = fields.List(fields.Nested(SaidSchema), required=True)


class NeedWeatherSchema(Schema):
    """The weather of a night's own day, and by which rung its reference was come by."""

    day = fields.Date(required=True)
    reference_mm = fields.Float(required=True, allow_none=True, metadata=MM)
    rung = fields.String(required=True)
    row = fields.String(required=True, metadata={"description": "the weather record; empty where there is none"})
    flags = fields.List(fields.Nested(SaidSchema), required=True, metadata={"description": "odd about it"})


class NightNeedSchema(Schema):
    """What every hydrozone with turns by need needs on a night."""

    night = fields.Date(required=True)
    weather = fields.Nested(NeedWeatherSchema, required=True, allow_none=True)
    hydrozones = fields.List(fields.Nested(HydrozoneNeedSchema), required=True)
    messages = fields.List(fields.Nested(SaidSchema), required=True)
    caution = fields.String(required=True, metadata=CAUTION)


class FigureSchema(Schema):
    """One number of the work. `inputs` are keys of figures before it."""

    key = fields.String(required=True)
    name = fields.String(required=True, metadata={"description": "what it is, in the reader's language"})
    value = fields.Float(required=True, allow_none=True)
    unit = fields.String(required=True, metadata={"description": "the base unit; 1 for a plain ratio"})
    inputs = fields.List(fields.String(), required=True)
    source = fields.String(required=True, metadata={"description": "a citation; empty where it needs none"})
    rung = fields.String(required=True, metadata={"description": "by which rung or from what it was come by"})
    row = fields.String(required=True, metadata={"description": "the weather record it came from"})


class WorkSchema(Schema):
    """All numbers behind a turn's run time, in the order in which they follow from each other."""

    turn = fields.String(required=True)
    night = fields.Date(required=True)
    decision = fields.Nested(SaidSchema, required=True, allow_none=True)
    figures = fields.List(fields.Nested(FigureSchema), required=True)
    messages = fields.List(fields.Nested(SaidSchema), required=True)
    caution = fields.String(required=True, metadata=CAUTION)


class SeasonQuerySchema(Schema):
    """Up to which day."""

    until = fields.Date(load_default=None, allow_none=True, metadata={"description": "the last day; else today's"})


class SeasonDaySchema(Schema):
    """One day of a balance, in mm, and where its reference came from."""

    day = fields.Date(required=True)
    reference_mm = fields.Float(required=True, allow_none=True, metadata=MM)
    rung = fields.String(required=True)
    row = fields.String(required=True, metadata={"description": "the weather record; empty where there is none"})
    demand_mm = fields.Float(required=True)
    rain_mm = fields.Float(required=True)
    effective_mm = fields.Float(required=True)
    lost_mm = fields.Float(required=True)
    rain_ran_off_mm = fields.Float(required=True)
    applied_mm = fields.Float(required=True)
    ran_off_mm = fields.Float(required=True)
    uneven_mm = fields.Float(required=True)
    taken_mm = fields.Float(required=True)
    percolated_mm = fields.Float(required=True)
    depletion_mm = fields.Float(required=True)
    ready_mm = fields.Float(required=True)
    total_mm = fields.Float(required=True)
    flags = fields.List(fields.Nested(SaidSchema), required=True, metadata={"description": "odd about its weather"})


class SeasonSchema(Schema):
    """A hydrozone's days. `start_mm` is what its soil lacked before the first."""

    hydrozone = fields.String(required=True)
    start_mm = fields.Float(required=True, metadata=MM)
    days = fields.List(fields.Nested(SeasonDaySchema), required=True)
    messages = fields.List(fields.Nested(SaidSchema), required=True)
    caution = fields.String(required=True, metadata=CAUTION)


class SuggestionSchema(Schema):
    """Another seasonal percentage for a program. `by_itself`: the program takes it without a person."""

    program = fields.String(required=True)
    from_pct = fields.Integer(required=True)
    to_pct = fields.Integer(required=True)
    by_itself = fields.Boolean(required=True)
    message = fields.Nested(SaidSchema, required=True)


class SuggestionsSchema(Schema):
    """What programs' seasonal percentages should be, and why nothing can be said of others."""

    night = fields.Date(required=True)
    suggestions = fields.List(fields.Nested(SuggestionSchema), required=True)
    messages = fields.List(fields.Nested(SaidSchema), required=True)
    caution = fields.String(required=True, metadata=CAUTION)


class BudgetLineSchema(Schema):
    """A month of a hydrozone, in litres."""

    month = fields.String(required=True, metadata={"description": "YYYY-MM"})
    hydrozone = fields.String(required=True)
    allowed_l = fields.Float(required=True)
    planned_l = fields.Float(required=True)
    used_l = fields.Float(required=True)
    left_l = fields.Float(required=True)


class PriceStepSchema(Schema):
    """A price step's part of a month's water."""

    volume_l = fields.Float(required=True)
    price = fields.String(required=True, metadata={"description": "of a cubic metre, an exact decimal, in `currency`"})
    amount = fields.String(required=True, metadata=MONEY)


class MonthCostSchema(Schema):
    """What a month's water costs by the site's price steps, with the standing charge."""

    month = fields.String(required=True)
    used_l = fields.Float(required=True)
    amount = fields.String(required=True, allow_none=True, metadata={"description": "null while nothing was used"})
    steps = fields.List(fields.Nested(PriceStepSchema), required=True, metadata={"description": "of what was used"})
    planned_l = fields.Float(required=True)
    planned_amount = fields.String(required=True, metadata=MONEY)


class BudgetSchema(Schema):
    """A year's water. What was used is what came; of nights nobody told anything of, what their sheets have."""

    year = fields.Integer(required=True)
    currency = fields.String(required=True, allow_none=True)
    lines = fields.List(fields.Nested(BudgetLineSchema), required=True)
    costs = fields.List(fields.Nested(MonthCostSchema), required=True)
    caution = fields.String(required=True, metadata=CAUTION)
