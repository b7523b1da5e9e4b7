"""The server, put together. Nothing happens at import: `create_app` does it all, from the settings it is given."""

from __future__ import annotations

import json
import logging

from flask import Flask

from pengan.engine.document.schema import document_schema
from pengan.engine.plan.sheet_json import sheet_schema

from .database import Database
from .extensions import ProblemApi, Shared, share
from .headers import send_headers
from .nights.routes import nights
from .page import page
from .problems import answer_problems
from .settings import Settings
from .sites.operations import list_sites, put_document
from .sites.routes import sites
from .system.routes import system

OPEN_API = {
    "API_TITLE": "Pengan",
    "API_VERSION": "1",
    "OPENAPI_VERSION": "3.1.0",
    "OPENAPI_URL_PREFIX": "/api",
    "OPENAPI_JSON_PATH": "openapi.json",
}
logger = logging.getLogger(__name__)


def create_app(settings: Settings) -> Flask:
    """A server ready to answer. Makes missing tables, and loads the first document where there is no site yet."""
    app = Flask(__name__, static_folder=None)
    app.config.from_mapping(OPEN_API)
    database = Database(settings.database_url)
    database.make_tables()
    share(app, Shared(settings, database))
    _load_first_document(settings, database)
    _add_features(app)
    return app


def _add_features(app: Flask) -> None:
    api = ProblemApi(app)
    api.spec.components.schema("Document", document_schema())
    api.spec.components.schema("NightSheet", sheet_schema())
    for feature in (system, sites, nights):
        api.register_blueprint(feature)
    app.register_blueprint(page)
    answer_problems(app)
    send_headers(app)


def _load_first_document(settings: Settings, database: Database) -> None:
    """A server without a site shows the demo site. Raises `DocumentFaults` where that document is not a good one."""
    if not settings.first_document.is_file():
        logger.warning("no document at %s", settings.first_document)
        return
    with database.session() as session:
        if not list_sites(session):
            put_document(session, json.loads(settings.first_document.read_text(encoding="utf-8")))
