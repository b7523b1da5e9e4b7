"""The water need of a site: what each planting needs on a night, and every number behind it."""

from __future__ import annotations

from datetime import date
from typing import Any

from flask import Response, request
from flask.views import MethodView

from ..answers import json_answer
from ..bodies import Blueprint
from ..extensions import now, session
from ..languages import reader_of
from ..people.signing_in import current_actor_if_any
from ..problems import Problem, no_such_night
from .operations import (
    Site,
    YearBudget,
    budget_for,
    night_need,
    no_such_year,
    season_of,
    site_on,
    suggestions_for,
    work_of,
)
from .schemas import BudgetSchema, NightNeedSchema, SeasonQuerySchema, SeasonSchema, SuggestionsSchema, WorkSchema
from .shown import (
    Writer,
    budget_shown,
    budget_table,
    night_shown,
    season_shown,
    season_table,
    suggestions_shown,
    work_shown,
    work_table,
)

TONIGHT = "tonight"
need = Blueprint("need", __name__, url_prefix="/api/sites/<site_id>/need", description="Water need")


@need.route("/<night>")
class NightNeed(MethodView):
    """One night's need."""

    @need.response(200, NightNeedSchema)
    def get(self, site_id: str, night: str) -> Response:
        """What each hydrozone needs on a night (`tonight`, or its date), and what that makes for its stations."""
        site = _site(site_id, _date(night))
        return json_answer(night_shown(site, night_need(site), _writer(site)))


@need.route("/<night>/turns/<turn_id>")
class TurnWorkView(MethodView):
    """The work behind a turn."""

    @need.response(200, WorkSchema)
    def get(self, site_id: str, night: str, turn_id: str) -> Response:
        """Every number from weather to minutes: its name, unit, inputs, source, rung and row."""
        site = _site(site_id, _date(night))
        return json_answer(work_shown(work_of(site, turn_id), _writer(site)))


@need.route("/<night>/turns/<turn_id>/table.csv")
class TurnWorkTable(MethodView):
    """The work behind a turn, as a table."""

    @need.response(200, content_type="text/csv")
    def get(self, site_id: str, night: str, turn_id: str) -> Response:
        """The same as CSV, a figure a line."""
        site = _site(site_id, _date(night))
        return _table(work_table(work_of(site, turn_id), _writer(site)))


@need.route("/hydrozones/<hydrozone_id>/season")
class SeasonView(MethodView):
    """A hydrozone's days."""

    @need.arguments(SeasonQuerySchema, location="query")
    @need.response(200, SeasonSchema)
    def get(self, query: dict[str, Any], site_id: str, hydrozone_id: str) -> Response:
        """Soil water, rain, watering and stress day by day, from what was last known of the soil up to `until`."""
        site = _site(site_id, query["until"])
        return json_answer(season_shown(season_of(site, hydrozone_id), _writer(site)))


@need.route("/hydrozones/<hydrozone_id>/season.csv")
class SeasonTable(MethodView):
    """A hydrozone's days, as a table."""

    @need.arguments(SeasonQuerySchema, location="query")
    @need.response(200, content_type="text/csv")
    def get(self, query: dict[str, Any], site_id: str, hydrozone_id: str) -> Response:
        """The same as CSV, a day a line."""
        return _table(season_table(season_of(_site(site_id, query["until"]), hydrozone_id)))


@need.route("/suggestions")
class Suggestions(MethodView):
    """Seasonal percentages."""

    @need.response(200, SuggestionsSchema)
    def get(self, site_id: str) -> Response:
        """What the percentages of programs set by hand should be tonight, by the week before and the year's peak."""
        site = _site(site_id, None)
        return json_answer(suggestions_shown(site, suggestions_for(site), _writer(site)))


@need.route("/budget/<year>")
class Budget(MethodView):
    """A year's water."""

    @need.response(200, BudgetSchema)
    def get(self, site_id: str, year: str) -> Response:
        """Allowed, planned and used by month and hydrozone, and what each month cost."""
        return json_answer(budget_shown(_budget(site_id, year), _writer(None)))


@need.route("/budget/<year>/table.csv")
class BudgetTable(MethodView):
    """A year's water, as a table."""

    @need.response(200, content_type="text/csv")
    def get(self, site_id: str, year: str) -> Response:
        """The same as CSV, a line a month and hydrozone, and one for each month's cost."""
        return _table(budget_table(_budget(site_id, year)))


def _budget(site_id: str, year: str) -> YearBudget:
    if not (year.isascii() and year.isdecimal() and len(year) == 4):
        raise Problem(404, no_such_year(given=year[:20], first="1970", last="2200"))
    return budget_for(session(), current_actor_if_any(), site_id, int(year), now())


def _site(site_id: str, night: date | None) -> Site:
    return site_on(session(), current_actor_if_any(), site_id, night, now())


def _writer(site: Site | None) -> Writer:
    return Writer(reader_of(request), site)


def _date(night: str) -> date | None:
    if night == TONIGHT:
        return None
    try:
        return date.fromisoformat(night)
    except ValueError:
        raise Problem(404, no_such_night(given=night)) from None


def _table(text: str) -> Response:
    response = Response(text, mimetype="text/csv")
    response.cache_control.no_cache = True
    return response
