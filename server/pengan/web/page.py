"""The built page: its files as they are, and `index.html` at every other address, which the page reads itself."""

from __future__ import annotations

from mimetypes import guess_type
from pathlib import Path

from flask import Blueprint, Response, make_response, request, send_from_directory
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
NAMED_BY_CONTENT = ("assets/", "planner/")
PLANNER_LIST = "planner/planner.json"
PRESSED = {"br": ".br", "gzip": ".gz"}
"""Content codings in which the build leaves large files beside the plain ones, the smallest first."""


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
    if path.startswith(NAMED_BY_CONTENT):
        raise Problem(404, nothing_here())
    if not (folder / "index.html").is_file():
        raise Problem(503, page_not_built())
    return _file(str(folder), "index.html")


def _file(folder: str, path: str) -> Response:
    """Names that change with their content may be kept; all else is asked for again each time."""
    response = _pressed(folder, path) or make_response(send_from_directory(folder, path))
    if path.startswith(NAMED_BY_CONTENT) and path != PLANNER_LIST:
        response.cache_control.max_age = A_YEAR_S
        response.cache_control.immutable = True
    else:
        response.cache_control.no_cache = True
    return response


def _pressed(folder: str, path: str) -> Response | None:
    """The file as the build compressed it, in the smallest coding that is welcome; None where it left it as it is."""
    codings = [coding for coding, ending in PRESSED.items() if Path(folder, path + ending).is_file()]
    welcome = next((coding for coding in codings if request.accept_encodings[coding] > 0), None)
    if welcome is None:
        return _plain_of_pressed(folder, path) if codings else None
    kind = guess_type(path)[0] or "application/octet-stream"
    response = make_response(send_from_directory(folder, path + PRESSED[welcome], mimetype=kind))
    response.headers["Content-Encoding"] = welcome
    response.vary.add("Accept-Encoding")
    return response


def _plain_of_pressed(folder: str, path: str) -> Response:
    """For whoever takes no coding: caches on the way tell the forms apart."""
    response = make_response(send_from_directory(folder, path))
    response.vary.add("Accept-Encoding")
    return response
