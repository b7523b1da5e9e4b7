"""Photos over HTTP: sent by the phone that took them, and shown to everybody who works at the site."""

from __future__ import annotations

from typing import Any

from flask import Response, request
from flask.views import MethodView
from marshmallow import Schema, fields, validate

from ..bodies import Blueprint
from ..extensions import now, session
from ..people.signing_in import current_actor
from ..sync.schemas import PROTOCOL
from .looking import KINDS, MOST_BYTES
from .operations import Sent, keep_photo, photo_at

Body = dict[str, Any]

photos = Blueprint("photos", __name__, url_prefix="/api/sites/<site_id>/photos", description="Photos of a site")


class PhotoOfSchema(Schema):
    """Whose photo it is: nobody else's phone sends it."""

    person = fields.String(validate=validate.Length(max=64))


class PhotoKeptSchema(Schema):
    """What became of a photo."""

    id = fields.String(required=True)
    outcome = fields.String(required=True, validate=validate.OneOf(("taken", "known")))


@photos.after_request
def _with_protocol(response: Response) -> Response:
    """By this header a phone knows that the answer is the server's."""
    response.headers["Pengan-Protocol"] = str(PROTOCOL)
    return response


@photos.route("/<photo_id>")
class OnePhoto(MethodView):
    """One photo."""

    max_body = MOST_BYTES
    body_types = KINDS

    @photos.arguments(PhotoOfSchema, location="query")
    @photos.response(200, PhotoKeptSchema)
    def put(self, query: Body, site_id: str, photo_id: str) -> Body:
        """Keep a photo (JPEG, PNG or WebP, up to 1 MB). Sent twice is kept once; half a photo is turned away.

        With `Content-Digest` (RFC 9530, `sha-256`) what arrives is held against what was sent.
        """
        actor = current_actor()
        sent = Sent(photo_id, request.mimetype, request.get_data(), request.headers.get("Content-Digest"))
        outcome = keep_photo(session(), actor, site_id, sent, now(), query.get("person", actor.person))
        return {"id": photo_id, "outcome": outcome}

    @photos.response(200, content_type="image/jpeg")
    def get(self, site_id: str, photo_id: str) -> Response:
        """The photo itself, in the type in which it came. It never changes."""
        found = photo_at(session(), current_actor(), site_id, photo_id)
        response = Response(found.content, mimetype=found.kind)
        response.set_etag(found.sum.hex())
        response.cache_control.no_cache = True
        response.make_conditional(request)
        return response
