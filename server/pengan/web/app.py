"""The server, put together. Nothing happens at import: `create_app` does it all, from the settings it is given."""

from __future__ import annotations

import json
import logging
import time
from typing import cast

from flask import Flask
from werkzeug.middleware.proxy_fix import ProxyFix

from pengan.engine.document.read import read_document
from pengan.engine.document.schema import document_schema
from pengan.engine.journal.schema import entries_schema
from pengan.engine.plan.sheet_json import sheet_schema

from .ahead.operations import queue_taken
from .ahead.routes import ahead
from .ahead.schemas import NIGHTS_AHEAD
from .alarms.routes import alarms
from .bodies import bound_bodies
from .catch_up.routes import catch_up
from .crossing import turn_crossings_away
from .database import Database
from .extensions import ProblemApi, Shared, share
from .headers import send_headers
from .history.routes import history
from .journal.made_up import add_made_up_field
from .journal.routes import journal, reporters, reports
from .need.routes import need
from .need.weather_routes import weather, weather_stations
from .nights.routes import nights
from .own_secret import own_secret
from .page import page
from .people.routes import PEOPLE
from .people.teams import adopt_all
from .photos.routes import photos
from .problems import answer_problems
from .push.routes import push
from .reference.routes import reference
from .settings import Settings
from .sites.operations import list_sites, put_document
from .sites.routes import sites
from .sync.routes import sync
from .sync.taken import on_taken
from .system.compression import compress_answers
from .system.requests import note_requests
from .system.routes import system
from .system.watching import watch
from .used.routes import used

OPEN_API = {
    "API_TITLE": "Pengan",
    "API_VERSION": "1",
    "OPENAPI_VERSION": "3.1.0",
    "OPENAPI_URL_PREFIX": "/api",
    "OPENAPI_JSON_PATH": "openapi.json",
}
FEATURES = (
    system, sites, nights, ahead, catch_up, need, weather_stations, weather, journal, reports, reporters, alarms, push,
    used, photos, sync, history, *PEOPLE,
)  # fmt: skip
"""In the order in which the API's description has them."""
logger = logging.getLogger(__name__)


def create_app(settings: Settings) -> Flask:
    """A server ready to answer. Makes missing tables, and loads the first document where there is no site yet."""
    app = Flask(__name__, static_folder=None)
    app.config.from_mapping(OPEN_API)
    database = Database(settings.database_url)
    database.upgrade()
    share(app, Shared(settings, database, own_secret(settings.secret_path)))
    on_taken(queue_taken)
    _load_first_document(settings, database)
    _add_features(app)
    _believe_proxies(app, settings.proxies)
    return app


def _believe_proxies(app: Flask, count: int) -> None:
    if count:
        app.wsgi_app = ProxyFix(  # type: ignore[method-assign]
            app.wsgi_app, x_for=count, x_proto=count, x_host=count, x_port=count
        )


def _add_features(app: Flask) -> None:
    _add_api(app)
    for apart in (watch, reference, page):
        app.register_blueprint(apart)
    note_requests(app)
    compress_answers(app)
    answer_problems(app)
    turn_crossings_away(app)
    bound_bodies(app)
    send_headers(app)


def _add_api(app: Flask) -> None:
    """What the API's own description tells of."""
    api = ProblemApi(app)
    api.spec.components.schema("Document", document_schema())
    api.spec.components.schema("NightSheet", sheet_schema())
    api.spec.components.schema("NightsAhead", NIGHTS_AHEAD)
    api.spec.components.schema("JournalEntries", entries_schema())
    for feature in FEATURES:
        api.register_blueprint(feature)


def _load_first_document(settings: Settings, database: Database) -> None:
    """A server without a site shows the demo site, which anybody may read; every site gets a team.

    Raises `DocumentFaults` where the first document is not a good one.
    """
    first = _first_document(settings)
    demo = read_document(first).site.id if first is not None and settings.shows_demo else None
    with database.session() as session:
        is_new = first is not None and not list_sites(session)
        if is_new:
            put_document(session, first)
        adopt_all(session, demo)
        if is_new and demo is not None:
            add_made_up_field(session, demo, int(settings.now.timestamp() if settings.now else time.time()))


def _first_document(settings: Settings) -> object | None:
    if not settings.first_document.is_file():
        logger.warning("no document at %s", settings.first_document)
        return None
    return cast(object, json.loads(settings.first_document.read_text(encoding="utf-8")))
