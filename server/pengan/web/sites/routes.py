"""Sites and their documents."""

from __future__ import annotations

from flask import Response
from flask.views import MethodView
from flask_smorest import Blueprint

from pengan.engine.document.write import write_document

from ..answers import json_answer
from ..extensions import session
from .operations import SiteLine, document_of, list_sites
from .schemas import SiteSchema

sites = Blueprint("sites", __name__, url_prefix="/api/sites", description="Sites and their documents")


@sites.route("")
class Sites(MethodView):
    """All sites."""

    @sites.response(200, SiteSchema(many=True))
    def get(self) -> list[SiteLine]:
        """List the sites, by name."""
        return list_sites(session())


@sites.route("/<site_id>/document")
class SiteDocumentView(MethodView):
    """One site's document."""

    @sites.response(200, {"$ref": "#/components/schemas/Document"})
    def get(self, site_id: str) -> Response:
        """The whole document, the same shape as the file a person exports. The ETag is its revision."""
        found = document_of(session(), site_id)
        return json_answer(write_document(found.document), tag=f"{found.site}-{found.revision}")
