"""The journal over HTTP: people tell and read it, reporters tell it with their token, managers say who reports."""

from __future__ import annotations

from typing import Any

from flask import Response, request, stream_with_context
from flask.views import MethodView

from pengan.engine.journal.fields import MOST_BYTES
from pengan.words.reader import Reader

from ..bodies import Blueprint
from ..extensions import now, session
from ..languages import reader_of
from ..people.signing_in import current_actor
from ..sync.schemas import PROTOCOL
from .aside import aside_at
from .bringing import MOST_BYTES as LARGEST_FILE
from .bringing import bring_for, mapped_of
from .finding import Asked, by_arrival, by_time
from .reporters import MadeReporter, ReporterLine, end_reporter, make_reporter, reporter_of, reporters_at
from .schemas import (
    AsidePageSchema,
    AsideQuerySchema,
    BringQuerySchema,
    BroughtSchema,
    JournalPageSchema,
    JournalQuerySchema,
    JournalSchema,
    MadeReporterSchema,
    NewReporterSchema,
    ReporterSchema,
    TellingSchema,
    ToldSchema,
)
from .shown import answers_shown, aside_shown, brought_shown, page_shown
from .storing import folded
from .tables import journal_table
from .taking import report, tell
from .wording import codes_with

Body = dict[str, Any]
PLACES = ("station", "supply", "controller", "alarm", "by")

journal = Blueprint(
    "journal", __name__, url_prefix="/api/sites/<site_id>/journal", description="What happened at a site"
)
reports = Blueprint("reports", __name__, url_prefix="/api/journal", description="Entries as reporters send them")
reporters = Blueprint(
    "reporters", __name__, url_prefix="/api/sites/<site_id>/reporters", description="Who reports to a site's journal"
)


@journal.after_request
def _with_protocol(response: Response) -> Response:
    """By this header a phone knows that the answer is the server's, and not a hotel's page for signing in."""
    response.headers["Pengan-Protocol"] = str(PROTOCOL)
    return response


@journal.route("")
class Journal(MethodView):
    """The journal of a site."""

    max_body = MOST_BYTES

    @journal.arguments(JournalPageSchema, location="query")
    @journal.response(200, JournalSchema)
    def get(self, query: Body, site_id: str) -> Body:
        """A page of what happened: by when it happened, or with `since` in the order of arrival."""
        actor, reader = current_actor(), reader_of(request)
        asked, limit = _asked(query, reader), query["limit"]
        if "since" in query:
            page = by_arrival(session(), actor, site_id, asked, query["since"], limit)
        else:
            oldest_first = query["order"] == "oldest"
            page = by_time(session(), actor, site_id, asked, query.get("page"), limit, oldest_first)
        return page_shown(page, reader)

    @journal.arguments(TellingSchema)
    @journal.response(200, ToldSchema)
    def post(self, body: Body, site_id: str) -> Body:
        """Tell what happened. Sent twice is taken once, late ones find their place, faulty ones are kept aside."""
        actor = current_actor()
        told = tell(session(), actor, site_id, body["entries"], now(), body.get("person", actor.person))
        return answers_shown(told, reader_of(request))


@journal.route("/table.csv")
class JournalTable(MethodView):
    """What happened at a site, as a table."""

    max_body = LARGEST_FILE
    body_types = ("text/csv",)

    @journal.arguments(JournalQuerySchema, location="query")
    @journal.response(200, content_type="text/csv")
    def get(self, query: Body, site_id: str) -> Response:
        """All that is asked for, the oldest first, as CSV in base units, on the site's clock. What the server says is
        in the reader's language and units."""
        actor, reader = current_actor(), reader_of(request)
        parts = journal_table(session(), actor, site_id, _asked(query, reader), reader)
        answer = Response(stream_with_context(parts), mimetype="text/csv")
        answer.headers["Content-Disposition"] = "attachment; filename=journal.csv"
        return answer

    @journal.doc(
        requestBody={"required": True, "content": {"text/csv": {"schema": {"type": "string", "format": "binary"}}}}
    )
    @journal.arguments(BringQuerySchema, location="query")
    @journal.response(200, BroughtSchema)
    def post(self, query: Body, site_id: str) -> Body:
        """Bring in a CSV file, for leads and managers: a heading a field, as `table.csv` gives it out. Brought twice is
        taken once; faulty lines are kept aside. What is no such table is refused whole."""
        mapped = mapped_of(query["column"], query["unit"], query["always"])
        brought = bring_for(session(), current_actor(), site_id, request.get_data(), mapped, now())
        return brought_shown(brought, reader_of(request))


@journal.route("/aside")
class AsideView(MethodView):
    """What was kept aside."""

    @journal.arguments(AsideQuerySchema, location="query")
    @journal.response(200, AsidePageSchema)
    def get(self, query: Body, site_id: str) -> Body:
        """What came and is no entry, the newest first, with what is wrong with it."""
        lines, names = aside_at(session(), current_actor(), site_id, query.get("before"), query["limit"])
        more = len(lines) == query["limit"]
        shown = [aside_shown(line, reader_of(request)) for line in lines]
        return {"aside": shown, "names": names, "next": lines[-1].number if more else None}


@reports.route("/entries")
class Entries(MethodView):
    """Entries of one reporter."""

    max_body = MOST_BYTES
    takes_bytes = True

    @reports.doc(
        requestBody={
            "required": True,
            "content": {"application/json": {"schema": {"$ref": "#/components/schemas/JournalEntries"}}},
        }
    )
    @reports.response(200, ToldSchema)
    def post(self) -> Body:
        """What a controller, a meter or a gateway tells, with `Authorization: Bearer` and its token.

        Sent twice is taken once. What cannot be read is answered with 400 and kept aside.
        """
        reporter = reporter_of(session(), request.headers.get("Authorization", ""))
        return answers_shown(report(session(), reporter, request.get_data(), now()), reader_of(request))


@reporters.route("")
class Reporters(MethodView):
    """The reporters of a site."""

    @reporters.response(200, ReporterSchema(many=True))
    def get(self, site_id: str) -> list[ReporterLine]:
        """The reporters that may report, when each was last heard, and what became of what it told. For managers."""
        return reporters_at(session(), current_actor(), site_id)

    @reporters.arguments(NewReporterSchema)
    @reporters.response(201, MadeReporterSchema)
    def post(self, body: Body, site_id: str) -> MadeReporter:
        """Let one more report. Its token is told this once."""
        return make_reporter(session(), current_actor(), site_id, body["name"], now())


@reporters.route("/<reporter_id>")
class OneReporter(MethodView):
    """One reporter."""

    @reporters.response(204)
    def delete(self, site_id: str, reporter_id: str) -> None:
        """Let it report no more. What it told stays."""
        end_reporter(session(), current_actor(), site_id, reporter_id, now())


def _asked(query: Body, reader: Reader) -> Asked:
    places = {name: query[name] for name in PLACES if name in query}
    said = codes_with(folded(query["text"]), reader)
    return Asked(query["kind"], places, query["text"], query.get("starts"), query.get("ends"), said)
