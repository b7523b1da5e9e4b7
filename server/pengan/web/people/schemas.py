"""The shapes of people, devices and invitations."""

from __future__ import annotations

from marshmallow import Schema, fields
from marshmallow.validate import Length, OneOf, Regexp

from pengan.words.reader import DIGITS, FIRST_DAYS, HOUR_CYCLES

from .passwords import MOST
from .rights import ROLES

INSTANT = {"description": "whole seconds since 1970-01-01T00:00Z"}
SITE = {"description": "the site's id"}
READABLE = Regexp(r"[^\x00-\x1f\x7f-\x9f]*[^\s\x00-\x1f\x7f-\x9f][^\x00-\x1f\x7f-\x9f]*\Z")
"""One line with something to read in it."""


class Line(fields.String):
    """A name: one line, not empty."""

    def __init__(self, longest: int = 200, **words: object) -> None:
        super().__init__(validate=[Length(min=1, max=longest), READABLE], **words)  # type: ignore[arg-type]


class Id(fields.String):
    """The id of something."""

    def __init__(self, **words: object) -> None:
        super().__init__(validate=Length(min=1, max=64), **words)  # type: ignore[arg-type]


class ProfileSchema(Schema):
    """How somebody is called and wants to be spoken to."""

    name = Line(required=True)
    language = fields.String(
        required=True, validate=Length(min=1, max=35), metadata={"description": "a language tag, as `es` or `pt-BR`"}
    )
    units = fields.String(
        load_default=None,
        allow_none=True,
        validate=Length(max=200),
        metadata={"description": "a unit set and single units over it, as `us` or `metric,flow=lps`"},
    )
    hour_cycle = fields.String(load_default=None, allow_none=True, validate=OneOf(HOUR_CYCLES))
    first_day = fields.String(
        load_default=None,
        allow_none=True,
        validate=OneOf(FIRST_DAYS),
        metadata={"description": "the day with which a week begins; null: as the language has it"},
    )
    digits = fields.String(
        load_default=None,
        allow_none=True,
        validate=OneOf(DIGITS),
        metadata={"description": "the signs of numbers, a numbering system of CLDR; null: 0 to 9"},
    )


class SiteRoleSchema(Schema):
    """A site and one's role there."""

    site = fields.String(required=True, metadata=SITE)
    role = fields.String(required=True, validate=OneOf(ROLES))
    scope = fields.Integer(required=True, metadata={"description": "rises whenever the role changes"})


class SessionSchema(Schema):
    """Who is signed in, on which device."""

    person = fields.String(required=True)
    device = fields.String(required=True)
    team = fields.String(required=True)
    profile = fields.Nested(ProfileSchema, required=True)
    sign_in_name = fields.String(required=True, allow_none=True)
    sites = fields.List(fields.Nested(SiteRoleSchema), required=True)


class SignInSchema(Schema):
    """A name and a password."""

    name = fields.String(required=True, validate=Length(min=1, max=80))
    password = fields.String(required=True, validate=Length(min=1, max=MOST))
    device_name = Line(required=True, metadata={"description": "what its owner calls this device"})


class PasswordSchema(Schema):
    """A new name and password to sign in with."""

    name = Line(longest=80, required=True)
    password = fields.String(required=True, validate=Length(min=1, max=MOST))
    present_password = fields.String(
        load_default=None, allow_none=True, validate=Length(max=MOST), metadata={"description": "the one until now"}
    )


class DeviceSchema(Schema):
    """A device that is let in."""

    id = fields.String(required=True)
    name = fields.String(required=True)
    enrolled_at = fields.Integer(required=True, metadata=INSTANT)
    seen_at = fields.Integer(required=True, metadata=INSTANT)
    this_one = fields.Boolean(required=True, metadata={"description": "whether it is the one that asks"})


class SiteQuerySchema(Schema):
    """Which site."""

    site = Id(required=True, metadata=SITE)


class PersonSchema(Schema):
    """A person at a site."""

    id = fields.String(required=True)
    name = fields.String(required=True)
    role = fields.String(required=True, validate=OneOf(ROLES))


class RoleSchema(Schema):
    """A role at a site; null takes it away."""

    site = Id(required=True, metadata=SITE)
    role = fields.String(required=True, allow_none=True, validate=OneOf(ROLES))


class InviteSchema(Schema):
    """Whom to ask to which site."""

    site = Id(required=True, metadata=SITE)
    role = fields.String(required=True, validate=OneOf(ROLES))
    name = Line(load_default=None, allow_none=True, metadata={"description": "whom it is meant for"})


class InvitedSchema(Schema):
    """A new invitation. Code, address and picture are told this once."""

    id = fields.String(required=True)
    code = fields.String(required=True)
    expires_at = fields.Integer(required=True, metadata=INSTANT)
    address = fields.String(required=True, metadata={"description": "opens the page with the code filled in"})
    qr = fields.String(required=True, metadata={"description": "the address as a QR code, an SVG element"})


class InvitationSchema(Schema):
    """An open invitation."""

    id = fields.String(required=True)
    role = fields.String(required=True, validate=OneOf(ROLES))
    name = fields.String(required=True, allow_none=True)
    made_at = fields.Integer(required=True, metadata=INSTANT)
    expires_at = fields.Integer(required=True, metadata=INSTANT)


class JoinSchema(ProfileSchema):
    """A code, and who comes in by it. The profile counts for somebody new alone."""

    code = fields.String(required=True, validate=Length(min=1, max=40))
    device_name = Line(required=True)
