"""The built page: its files as they are, and `index.html` at every other address, which the page reads itself."""

from __future__ import annotations

from flask import Blueprint, Response, make_response, send_from_directory
from werkzeug.security import safe_join

from pengan.engine.message import saying

from .extensions import shared
from .problems import Problem, nothing_here

page = Blueprint("page", __name__)

page_not_built = saying(
    "web.page_not_built", "The page has not been built. Run npm ci and npm run build in the folder pwa, then try again."
)
A_YEAR_S = 365 * 24 * 3600
WORKER = "service-worker.js"
WORKER_OFF = "service-worker-off.js"
"""Browsers ask for the worker at every visit. This one clears up after it and goes: the off switch."""


@page.get("/")
@page.get("/<path:path>")
def file_or_page(path: str = "") -> Response:
    """A file of the page, or the page."""
    folder = shared().settings.app.absolute()
    if path.startswith("api/"):
        raise Problem(404, nothing_here())
    if path == WORKER and not shared().settings.offline_app:
        path = WORKER_OFF
    found = safe_join(str(folder), path) if path else None
    if found and (folder / path).is_file():
        return _file(str(folder), path)
    if path.startswith("assets/"):
        raise Problem(404, nothing_here())
    if not (folder / "index.html").is_file():
        raise Problem(503, page_not_built())
    return _file(str(folder), "index.html")


def _file(folder: str, path: str) -> Response:
    """Names under `assets/` change with their content, so they may be kept; all else is asked for again each time."""
    response = make_response(send_from_directory(folder, path))
    if path.startswith("assets/"):
        response.cache_control.max_age = A_YEAR_S
        response.cache_control.immutable = True
    else:
        response.cache_control.no_cache = True
    return response
