"""Shows the API's description to people."""

from __future__ import annotations

from pathlib import Path
from typing import cast

from flask import Blueprint, Response, current_app, make_response, render_template, request, send_from_directory
from flask_smorest import Api

from pengan.words import _, reading

from ..languages import reader_of
from .operations import shapes, subjects

reference = Blueprint("reference", __name__, url_prefix="/api", template_folder="templates")


@reference.get("/reference")
def show() -> Response:
    """Every call and every shape, on one page without scripts."""
    api = cast(Api, current_app.extensions["flask-smorest"]["apis"][""]["ext_obj"])
    spec = api.spec.to_dict()
    reader = reader_of(request)
    with reading(reader):
        page = render_template(
            "reference.html",
            words=_words(),
            language=reader.language,
            direction=reader.direction,
            subjects=subjects(spec),
            shapes=shapes(spec),
        )
    return make_response(page)


def _words() -> dict[str, str]:
    return {
        "title": _("The API of this server"),
        "about": _("Every call it answers, made from its own OpenAPI description. Tools read that as it is:"),
        "takes": _("Takes"),
        "answers": _("Answers"),
        "shapes": _("Shapes"),
    }


@reference.get("/reference.css")
def style() -> Response:
    """How the page looks."""
    return send_from_directory(Path(__file__).parent / "templates", "reference.css")
