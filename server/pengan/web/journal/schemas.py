"""The shapes of the journal: what is told, what became of it, what is read back, and who reports."""

from __future__ import annotations

from marshmallow import Schema, fields
from marshmallow.validate import Length, OneOf, Range

from pengan.engine.journal.entry import Explained, Found, Kind
from pengan.engine.journal.fields import MOST_ENTRIES

from ..ahead.schemas import INSTANT, MessageSchema
from ..need.schemas import SaidSchema
from ..people.schemas import Line
from .finding import MOST_ON_A_PAGE

LATEST = 2**53


def _instant(about: str) -> fields.Integer:
    return fields.Integer(validate=Range(0, LATEST), metadata={"description": f"{about}; {INSTANT['description']}"})


class TellingSchema(Schema):
    """Entries for the journal."""

    person = fields.String(
        validate=Length(max=64),
        metadata={"description": "Whose entries these are. Sent as somebody else, all are turned away with 401."},
    )
    entries = fields.List(
        fields.Raw(allow_none=True),
        required=True,
        validate=Length(max=MOST_ENTRIES),
        metadata={"description": "each in the shape of `JournalEntry`; what is wrong with one concerns it alone"},
    )


class EntryFaultSchema(MessageSchema):
    """What is wrong with an entry."""

    field = fields.String(required=True, allow_none=True)
    detail = fields.String(required=True, metadata={"description": "the message in the reader's language"})


class EntryAnswerSchema(Schema):
    """What became of one entry."""

    id = fields.String(required=True, allow_none=True)
    outcome = fields.String(
        required=True,
        validate=OneOf(("taken", "known", "aside")),
        metadata={
            "description": "`known`: it was told before, which is harmless; `aside`: kept apart, with its faults"
        },
    )
    faults = fields.List(fields.Nested(EntryFaultSchema), required=True)


class ToldSchema(Schema):
    """What became of each entry, in the order in which they were sent."""

    answers = fields.List(fields.Nested(EntryAnswerSchema), required=True)


class JournalQuerySchema(Schema):
    """Which entries, and in which order."""

    since = fields.Integer(
        validate=Range(0, LATEST),
        metadata={"description": "in the order of arrival, those after this number: for whoever keeps a copy"},
    )
    kind = fields.List(fields.String(validate=OneOf([kind.value for kind in Kind])), load_default=list)
    station = fields.String(validate=Length(max=64))
    supply = fields.String(validate=Length(max=64))
    controller = fields.String(validate=Length(max=64))
    alarm = fields.String(validate=Length(max=64))
    by = fields.String(validate=Length(max=80), metadata={"description": "`person:<id>`, `reporter:<id>` or `server`"})
    text = fields.String(
        load_default="", validate=Length(max=200), metadata={"description": "in the text, in whatever case"}
    )
    starts = _instant("what happened from this instant on")
    ends = _instant("what happened before this instant")


class JournalPageSchema(JournalQuerySchema):
    """Which page of which entries."""

    order = fields.String(
        load_default="newest",
        validate=OneOf(("newest", "oldest")),
        metadata={"description": "which come first, by when they happened"},
    )
    page = fields.String(validate=Length(max=40), metadata={"description": "`next` of the page before"})
    limit = fields.Integer(load_default=200, validate=Range(1, MOST_ON_A_PAGE))


class FoundEntrySchema(Schema):
    """An entry of the journal. Fields that its kind does not have are left out."""

    number = fields.Integer(required=True, metadata={"description": "its place in the order of arrival"})
    arrived_at = fields.Integer(required=True, metadata=INSTANT)
    id = fields.String(required=True)
    at = fields.Integer(required=True, metadata={"description": f"when it happened; {INSTANT['description']}"})
    kind = fields.String(required=True, validate=OneOf([kind.value for kind in Kind]))
    by = fields.String(required=True, metadata={"description": "`person:<id>`, `reporter:<id>` or `server`"})
    station = fields.String()
    supply = fields.String()
    controller = fields.String()
    flow_lpm = fields.Float()
    count_l = fields.Float()
    alarm = fields.String()
    finding = fields.String(validate=OneOf([found.value for found in Found]))
    count = fields.Integer()
    explained = fields.String(validate=OneOf([explained.value for explained in Explained]))
    text = fields.String()
    said = fields.Nested(
        SaidSchema,
        metadata={"description": "what the server itself says here; `text` has it in the source's language"},
    )


class JournalSchema(Schema):
    """A page of the journal."""

    entries = fields.List(fields.Nested(FoundEntrySchema), required=True)
    names = fields.Dict(
        keys=fields.String(), values=fields.String(), required=True, metadata={"description": "who told it, by `by`"}
    )
    next = fields.String(
        required=True,
        allow_none=True,
        metadata={"description": "`page` of the next page, or its `since` where `since` was asked for; null: no more"},
    )
    newest = fields.Integer(required=True, metadata={"description": "the newest number: the next `since`"})


class BringQuerySchema(Schema):
    """How a CSV file is read, where its headings and units are not ours."""

    column = fields.List(
        fields.String(validate=Length(max=200)),
        load_default=list,
        metadata={"description": "the heading of a field's column, as `at=Time`"},
    )
    unit = fields.List(
        fields.String(validate=Length(max=200)),
        load_default=list,
        metadata={"description": "the unit of a field's figures, as `count_l=m3`"},
    )
    always = fields.List(
        fields.String(validate=Length(max=2200)),
        load_default=list,
        metadata={"description": "what is so in every line that does not say it, as `kind=count`"},
    )


class FaultyLineSchema(Schema):
    """A line that was kept aside."""

    line = fields.Integer(required=True, metadata={"description": "its number in the file"})
    faults = fields.List(fields.Nested(EntryFaultSchema), required=True)


class BroughtSchema(Schema):
    """What became of a file's lines."""

    taken = fields.Integer(required=True)
    known = fields.Integer(required=True, metadata={"description": "told before, which is harmless"})
    aside = fields.Integer(required=True, metadata={"description": "kept apart, with their faults"})
    lines = fields.List(
        fields.Nested(FaultyLineSchema), required=True, metadata={"description": "the first of those kept aside"}
    )
    left_out = fields.List(
        fields.String(), required=True, metadata={"description": "the headings of columns that are not read"}
    )


class AsideQuerySchema(Schema):
    """Which page of what was kept aside."""

    before = fields.Integer(validate=Range(0, LATEST), metadata={"description": "`next` of the page before"})
    limit = fields.Integer(load_default=100, validate=Range(1, 200))


class AsideSchema(Schema):
    """Something that came and is no entry."""

    number = fields.Integer(required=True)
    by = fields.String(required=True)
    faults = fields.List(fields.Nested(EntryFaultSchema), required=True)
    given = fields.String(required=True, metadata={"description": "as it came, cut where it is long"})
    times = fields.Integer(required=True, metadata={"description": "how often the same came"})
    first_at = fields.Integer(required=True, metadata=INSTANT)
    last_at = fields.Integer(required=True, metadata=INSTANT)


class AsidePageSchema(Schema):
    """A page of what was kept aside, the newest first."""

    aside = fields.List(fields.Nested(AsideSchema), required=True)
    names = fields.Dict(keys=fields.String(), values=fields.String(), required=True)
    next = fields.Integer(required=True, allow_none=True)


class NewReporterSchema(Schema):
    """A reporter to come."""

    name = Line(longest=80, required=True, metadata={"description": "what people call it; the journal names it so"})


class MadeReporterSchema(Schema):
    """A new reporter. Its token is told this once."""

    id = fields.String(required=True, metadata={"description": "it stands in its MQTT topic"})
    name = fields.String(required=True)
    token = fields.String(required=True, metadata={"description": "for `Authorization: Bearer`, and in MQTT messages"})


class ReporterSchema(Schema):
    """A reporter that may report."""

    id = fields.String(required=True)
    name = fields.String(required=True)
    made_at = fields.Integer(required=True, metadata=INSTANT)
    heard_at = fields.Integer(required=True, allow_none=True, metadata=INSTANT)
    taken = fields.Integer(required=True, metadata={"description": "entries taken of it"})
    aside = fields.Integer(required=True, metadata={"description": "what was kept aside of it"})
