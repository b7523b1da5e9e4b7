"""The shapes of hello, push and pull.

What an edit says is judged later, edit by edit, so that a bad one is refused alone. Here stands only what has to hold
for a call to be understood at all.
"""

from __future__ import annotations

from marshmallow import Schema, fields, validate

from ..ahead.schemas import NoticeSchema
from ..alarms.schemas import AlarmSchema
from ..people.schemas import SessionSchema

PROTOCOL = 1
MOST_EDITS = 100
MOST_BYTES = 64 * 1024
PAGE, LARGEST_PAGE = 500, 1000
KINDS = ("set", "add", "remove", "restore", "settle")
OUTCOMES = ("taken", "agreed", "disputed", "removed", "refused", "held", "parked")
ID = r"[A-Za-z0-9._-]{1,64}\Z"
INSTANT = {"description": "whole seconds since 1970-01-01T00:00Z"}
LARGEST = 2**31 - 1


def _id(about: str, *, required: bool = True) -> fields.String:
    return fields.String(
        required=required, allow_none=not required, validate=validate.Regexp(ID), metadata={"description": about}
    )


def _text(about: str, most: int = 64) -> fields.String:
    return fields.String(allow_none=True, validate=validate.Length(max=most), metadata={"description": about})


def _whole(about: str, *, required: bool = False) -> fields.Integer:
    return fields.Integer(
        required=required,
        allow_none=not required,
        strict=True,
        validate=validate.Range(0, LARGEST),
        metadata={"description": about},
    )


class HelloSchema(Schema):
    """A phone says who it is and where it stands."""

    protocol = _whole("The protocol it speaks.", required=True)
    app_version = _text("The version of its app.")
    device = _text("Its device id.")
    person = _text("Whose outbox and copy it holds.")
    site = _id("The site it asks about; left out: it knows of none yet.", required=False)
    scope = _text("The scope its copy was made under.")
    cursor = _whole("Up to where it has the site's changes; null: it has no copy.")


class HelloAnswerSchema(Schema):
    """How to go on."""

    outcome = fields.String(required=True, validate=validate.OneOf(("ok", "update_needed", "start_over", "signed_out")))
    protocol = fields.Integer(required=True)
    format = fields.Integer(required=True, metadata={"description": "the document format of this server"})
    now = fields.Integer(required=True, metadata=INSTANT)
    scope = fields.String(required=True, allow_none=True, metadata={"description": "to be sent along with each pull"})
    revision = fields.Integer(required=True, allow_none=True, metadata={"description": "the newest cursor there is"})
    role = fields.String(required=True, allow_none=True)
    signed_in = fields.Nested(
        SessionSchema, required=True, allow_none=True, metadata={"description": "who is signed in on this device"}
    )


class EditSchema(Schema):
    """One field, field group or record, changed by one person.

    `seen` is the version the person saw, or the id of their own earlier edit of the same field; for a removal an
    object of such by field, in which what stands at version 1 may be left out. `now` is the absolute value: of a
    field plain or null, of a field group an object of its fields, of an added record an object of all its fields.
    """

    id = _id("Made at random by the phone.")
    kind = fields.String(required=True, validate=validate.OneOf(KINDS))
    table = _text("The record's table.")
    record = _text("The record's id.")
    field = _text("The field or field group; `removed` where a removal is settled; null with add, remove, restore.")
    seen = fields.Raw(allow_none=True)
    was = fields.Raw(allow_none=True)
    now = fields.Raw(allow_none=True)
    format = _whole("The document format the edit is written in.", required=True)
    phone_time = _text("The phone's clock, as it likes to write it. Shown, never used.", 40)
    settles = _id("With settle: the id of the edit that waits.", required=False)


class EditSetSchema(Schema):
    """Edits of one site that stand or fall together."""

    id = _id("Made at random by the phone.")
    site = _id("The site.")
    cursor = _whole("How much of the site the phone knew when the set was made; for `beside`.")
    edits = fields.List(fields.Nested(EditSchema), required=True, validate=validate.Length(1, MOST_EDITS))


class PushSchema(Schema):
    """What a phone's outbox sends: at most 100 edits, at most 64 KB."""

    device = _text("The device's id, as the server gave it.")
    person = _text("Whose outbox this is. Sent as somebody else, it is turned away whole with 401.")
    sets = fields.List(fields.Nested(EditSetSchema), required=True, validate=validate.Length(1, MOST_EDITS))


class AnswerFaultSchema(Schema):
    """A limit that an edit broke."""

    table = fields.String(allow_none=True)
    record = fields.String(allow_none=True)
    field = fields.String(allow_none=True)
    code = fields.String(required=True)
    params = fields.Dict(required=True)
    detail = fields.String(metadata={"description": "the same in the reader's language"})


class AnswerSchema(Schema):
    """What became of one edit. Which further fields there are depends on the outcome.

    taken and agreed: version, revision. disputed: theirs, version, by, when. removed: by, when. refused: code, params,
    faults. held: why. parked: format, the newest this server knows. `with` names the edits of the same set because of
    which this one, sound by itself, was not taken.
    """

    id = fields.String(required=True)
    set = fields.String(required=True)
    outcome = fields.String(required=True, validate=validate.OneOf(OUTCOMES))
    version = fields.Integer(allow_none=True)
    revision = fields.Integer(allow_none=True)
    theirs = fields.Raw(allow_none=True)
    by = fields.String(allow_none=True, metadata={"description": "the person's id; empty: the server itself"})
    by_name = fields.String(allow_none=True)
    when = fields.Integer(allow_none=True, metadata=INSTANT)
    code = fields.String()
    params = fields.Dict()
    detail = fields.String(metadata={"description": "why it was refused, in the reader's language"})
    faults = fields.List(fields.Nested(AnswerFaultSchema))
    why = fields.String()
    format = fields.Integer()
    with_ = fields.List(fields.String(), data_key="with", attribute="with")
    beside = fields.List(
        fields.Dict(), metadata={"description": "other fields of the record that somebody else changed since"}
    )


class PushAnswerSchema(Schema):
    """An answer for each edit, in the order in which they came."""

    protocol = fields.Integer(required=True)
    answers = fields.List(fields.Nested(AnswerSchema), required=True)
    unanswered = fields.List(
        fields.String(),
        required=True,
        metadata={"description": "ids of sets at which the server failed: they are to be kept and sent again"},
    )


class PullSchema(Schema):
    """A phone asks for what has changed."""

    site = _id("The site.")
    cursor = _whole("Up to where the phone has the site's changes; null: it has no copy.")
    person = _text("Whose copy this is. Asked for as somebody else, it is turned away with 401.")
    scope = _text("The scope its copy was made under.")
    after = _text("`next` of the page before.", 200)
    sheets = _whole("Up to where the phone has the site's night sheets: `next` of the sheets it got last.")
    alarms = _whole(
        "Up to where the phone has the site's alarms: `next` of those it got last. Absent: it asks elsewhere."
    )
    limit = fields.Integer(
        allow_none=True,
        load_default=None,
        validate=validate.Range(1, LARGEST_PAGE),
        metadata={"description": f"how many records at most; {PAGE} unless told otherwise"},
    )


class PulledRecordSchema(Schema):
    """A record as it stands, and the versions of its fields; those at 1 are left out."""

    record = fields.Dict(required=True)
    versions = fields.Dict(keys=fields.String(), values=fields.Integer(), required=True)
    order = fields.Integer(required=True, metadata={"description": "its place in the document"})


class RemovalSchema(Schema):
    """A record that is no longer there."""

    table = fields.String(required=True)
    id = fields.String(required=True)
    version = fields.Integer(required=True, metadata={"description": "of the record's `removed`"})
    by = fields.String(allow_none=True)
    when = fields.Integer(allow_none=True, metadata=INSTANT)


class WaitingSchema(Schema):
    """An edit that is not in force, and whether somebody has decided about it."""

    tray = fields.String(required=True, validate=validate.OneOf(OUTCOMES[2:]))
    open = fields.Boolean(required=True)
    edit = fields.Dict(required=True)
    answer = fields.Nested(AnswerSchema, required=True)
    closed_how = fields.String(allow_none=True)
    closed_by = fields.String(allow_none=True)
    closed_at = fields.Integer(allow_none=True, metadata=INSTANT)
    effect = fields.Dict(allow_none=True)


class PulledAlarmsSchema(Schema):
    """The alarms that changed since the phone got the last; on a fresh copy those that are open or of latest nights."""

    next = fields.Integer(required=True, metadata={"description": "`alarms` of the next call"})
    more = fields.Boolean(required=True, metadata={"description": "whether there are more already"})
    alarms = fields.List(fields.Nested(AlarmSchema), required=True)
    names = fields.Dict(
        keys=fields.String(), values=fields.String(), required=True, metadata={"description": "people's, by id"}
    )


class PullAnswerSchema(Schema):
    """A page of changes. Only when `next` is null has the phone everything up to `cursor`, and may keep it.

    `fresh`: the pages together are the whole site; whatever the phone had of it is replaced. `first`: the pages begin
    here; those that may have come before, under another scope, are dropped.
    """

    protocol = fields.Integer(required=True)
    site = fields.String(required=True)
    fresh = fields.Boolean(required=True)
    first = fields.Boolean(required=True)
    cursor = fields.Integer(required=True)
    scope = fields.String(required=True)
    next = fields.String(required=True, allow_none=True)
    revision = fields.Integer(required=True, metadata={"description": "the document's last change"})
    format = fields.Integer(required=True)
    role = fields.String(required=True, allow_none=True)
    records = fields.List(fields.Nested(PulledRecordSchema), required=True)
    removals = fields.List(fields.Nested(RemovalSchema), required=True)
    waiting = fields.List(fields.Nested(WaitingSchema), required=True)
    people = fields.Dict(required=True, metadata={"description": "names of the people that the page speaks of, by id"})
    sheets = fields.Dict(
        required=True,
        allow_none=True,
        metadata={"description": "the nights ahead that the phone has not got; null but on the last page"},
    )
    notices = fields.List(fields.Nested(NoticeSchema), required=True)
    alarms = fields.Nested(
        PulledAlarmsSchema,
        required=True,
        allow_none=True,
        metadata={
            "description": "null but on the last page, where no alarm has changed since, and where none was asked for"
        },
    )


class SiteQuerySchema(Schema):
    """Which site."""

    site = _id("The site.")


class RevisionSchema(Schema):
    """Whether there is something to pull."""

    site = fields.String(required=True)
    revision = fields.Integer(required=True)
    alarms = fields.Integer(required=True, metadata={"description": "the count of the changes of its alarms"})


class DecisionSchema(Schema):
    """A person decides about an edit that waits, and with it about its set."""

    decision = fields.String(required=True, validate=validate.OneOf(("accept", "decline", "discard")))
