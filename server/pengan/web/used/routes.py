"""What was used: planned, delivered and lost water, against meters, the budget and the year before."""

from __future__ import annotations

from typing import Any

from flask import Response, request
from flask.views import MethodView

from ..answers import json_answer
from ..bodies import Blueprint
from ..extensions import now, session
from ..languages import reader_of
from ..people.signing_in import current_actor_if_any
from .operations import Used, used_for
from .schemas import UsedQuerySchema, UsedSchema
from .shown import book_of, used_shown, used_table

BOOK = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
used = Blueprint("used", __name__, url_prefix="/api/sites/<site_id>/used", description="What was used")


@used.route("")
class UsedView(MethodView):
    """What was used within some nights."""

    @used.arguments(UsedQuerySchema, location="query")
    @used.response(200, UsedSchema)
    def get(self, query: dict[str, Any], site_id: str) -> Response:
        """Planned, delivered and lost water by supply, program, hydrozone or month; meters; and what faults cost.

        Nights that are over alone. Where nothing was told of a night, the plan is assumed to have come.
        """
        return json_answer(used_shown(_used(site_id, query), reader_of(request)))


@used.route("/table.csv")
class UsedTable(MethodView):
    """What was used, as a table."""

    @used.arguments(UsedQuerySchema, location="query")
    @used.response(200, content_type="text/csv")
    def get(self, query: dict[str, Any], site_id: str) -> Response:
        """The same as CSV in litres: a line each, the whole, and the meters."""
        return _file(used_table(_used(site_id, query)), "text/csv")


@used.route("/table.xlsx")
class UsedBook(MethodView):
    """What was used, as a book."""

    @used.arguments(UsedQuerySchema, location="query")
    @used.response(200, content_type=BOOK)
    def get(self, query: dict[str, Any], site_id: str) -> Response:
        """The same as a spreadsheet in the reader's language and units: water, meters and faults on a sheet each."""
        return _file(book_of(_used(site_id, query), reader_of(request)), BOOK)


def _used(site_id: str, query: dict[str, Any]) -> Used:
    span = (query["first"], query["last"])
    return used_for(session(), current_actor_if_any(), site_id, *span, query["by"], now())


def _file(content: str | bytes, kind: str) -> Response:
    response = Response(content, mimetype=kind)
    response.cache_control.no_cache = True
    return response
