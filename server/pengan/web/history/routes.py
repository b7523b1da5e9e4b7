"""The history over HTTP."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from flask import request
from flask.views import MethodView

from ..bodies import Blueprint
from ..extensions import now, session
from ..languages import reader_of
from ..people.signing_in import current_actor, current_actor_if_any
from ..sync.schemas import PushAnswerSchema
from ..sync.telling import told
from . import operations
from .schemas import DocumentThenSchema, HistoryQuerySchema, HistorySchema, ThenSchema, UndoSchema

history = Blueprint(
    "history", __name__, url_prefix="/api/sites/<site_id>/history", description="Who changed what, and when"
)


@history.route("")
class History(MethodView):
    """The edits of a site."""

    @history.arguments(HistoryQuerySchema, location="query")
    @history.response(200, HistorySchema)
    def get(self, asked: dict[str, Any], site_id: str) -> dict[str, object]:
        """The edits, the newest first."""
        before, limit = asked.pop("before_revision", None), asked.pop("limit")
        return operations.history(session(), current_actor(), site_id, before, limit, asked)


@history.route("/undo")
class Undo(MethodView):
    """Taking something back."""

    @history.arguments(UndoSchema)
    @history.response(200, PushAnswerSchema)
    def post(self, sent: Mapping[str, Any], site_id: str) -> dict[str, object]:
        """Undo a set or an edit, as a new set. What others changed since becomes a dispute."""
        return told(operations.undo(session(), current_actor(), site_id, sent["which"], now()), reader_of(request))


@history.route("/document")
class DocumentThen(MethodView):
    """The document as it stood."""

    @history.arguments(ThenSchema, location="query")
    @history.response(200, DocumentThenSchema)
    def get(self, asked: Mapping[str, Any], site_id: str) -> dict[str, object]:
        """At a revision, or at an instant."""
        return operations.document_at(session(), current_actor_if_any(), site_id, **asked)
