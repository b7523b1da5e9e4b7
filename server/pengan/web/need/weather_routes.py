"""Weather stations of a site, and the address to which they send their readings."""

from __future__ import annotations

from typing import Any

from flask import request
from flask.views import MethodView

from pengan.words.say import say

from ..bodies import Blueprint
from ..extensions import now, session
from ..languages import reader_of
from ..people.signing_in import current_actor
from .reporting import take_readings
from .stations import MadeStation, StationLine, end_station, make_station, reporter, stations_at
from .weather_schemas import (
    MadeWeatherStationSchema,
    NewWeatherStationSchema,
    ReadingsSchema,
    ReadingsTakenSchema,
    WeatherStationSchema,
)

Body = dict[str, Any]
LARGEST = 512 * 1024
"""Bytes: a thousand hours with every field."""

weather_stations = Blueprint(
    "weather_stations", __name__, url_prefix="/api/sites/<site_id>/weather-stations", description="Weather stations"
)
weather = Blueprint("weather", __name__, url_prefix="/api/weather", description="Weather as stations send it")


@weather_stations.route("")
class WeatherStations(MethodView):
    """The weather stations of a site."""

    @weather_stations.response(200, WeatherStationSchema(many=True))
    def get(self, site_id: str) -> list[StationLine]:
        """The stations that may report, and when each was last heard. For managers."""
        return stations_at(session(), current_actor(), site_id)

    @weather_stations.arguments(NewWeatherStationSchema)
    @weather_stations.response(201, MadeWeatherStationSchema)
    def post(self, body: Body, site_id: str) -> MadeStation:
        """Let one more station report. Its token is told this once."""
        return make_station(session(), current_actor(), site_id, body["name"], now())


@weather_stations.route("/<weather_station_id>")
class OneWeatherStation(MethodView):
    """One weather station."""

    @weather_stations.response(204)
    def delete(self, site_id: str, weather_station_id: str) -> None:
        """Let it report no more. What it sent stays."""
        end_station(session(), current_actor(), site_id, weather_station_id, now())


@weather.route("/readings")
class Readings(MethodView):
    """Readings of one weather station."""

    max_body = LARGEST

    @weather.arguments(ReadingsSchema)
    @weather.response(200, ReadingsTakenSchema)
    def post(self, body: Body) -> Body:
        """Days and hours that were observed, late and corrected ones too, with `Authorization: Bearer` and the token.

        Sound rows are taken and the faults of the others told. Sent twice is taken once.
        """
        sender = reporter(session(), request.headers.get("Authorization", ""))
        taken = take_readings(session(), sender, body["units"], body["days"], body["hours"], now())
        reader = reader_of(request)
        faults = [
            {"field": fault.field, **fault.message.as_json(), "detail": say(fault.message, reader)}
            for fault in taken.faults
        ]
        return {"days": taken.days, "hours": taken.hours, "changed": list(taken.changed), "faults": faults}
