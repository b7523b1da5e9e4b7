"""Sites and their documents."""

from __future__ import annotations

from flask import Response
from flask.views import MethodView

from pengan.engine.document.write import write_document

from ..answers import json_answer
from ..bodies import Blueprint
from ..extensions import session
from ..people.signing_in import current_actor_if_any
from .operations import SiteLine, document_for, sites_for
from .schemas import SiteSchema

sites = Blueprint("sites", __name__, url_prefix="/api/sites", description="Sites and their documents")


@sites.route("")
class Sites(MethodView):
    """All sites."""

    @sites.response(200, SiteSchema(many=True))
    def get(self) -> list[SiteLine]:
        """List the sites one may read, by name."""
        return sites_for(session(), current_actor_if_any())


@sites.route("/<site_id>/document")
class SiteDocumentView(MethodView):
    """One site's document."""

    @sites.response(200, {"$ref": "#/components/schemas/Document"})
    def get(self, site_id: str) -> Response:
        """The whole document, the same shape as the file a person exports. The ETag is its revision."""
        found = document_for(session(), current_actor_if_any(), site_id)
        return json_answer(write_document(found.document), tag=f"{found.site}-{found.revision}")
