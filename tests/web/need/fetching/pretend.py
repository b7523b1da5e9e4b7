"""A weather service on this machine: answers in the documented shapes, replies as a test scripts them.

Shapes: https://api.met.no/doc/ForecastJSON (Locationforecast 2.0, `complete`) and https://open-meteo.com/en/docs
(hourly, `timeformat=unixtime`). The figures are made up.
"""

from __future__ import annotations

import json
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

Reply = Callable[[BaseHTTPRequestHandler], None]
MET_UNITS = {
    "air_pressure_at_sea_level": "hPa", "air_temperature": "celsius", "air_temperature_max": "celsius",
    "air_temperature_min": "celsius", "cloud_area_fraction": "%", "dew_point_temperature": "celsius",
    "precipitation_amount": "mm", "relative_humidity": "%", "wind_from_direction": "degrees", "wind_speed": "m/s",
}  # fmt: skip


@dataclass
class Pretend:
    """What was asked, and what is to be replied: one after the other, the last for ever."""

    address: str
    replies: list[Reply] = field(default_factory=list)
    asked: list[tuple[str, dict[str, str]]] = field(default_factory=list)

    def reply(self, *replies: Reply) -> None:
        """From now on."""
        self.replies[:] = replies


@contextmanager
def pretending() -> Iterator[Pretend]:
    """The service, until the test is over."""

    class Answering(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            made.asked.append((self.path, {name.lower(): value for name, value in self.headers.items()}))
            reply = made.replies.pop(0) if len(made.replies) > 1 else made.replies[0]
            reply(self)

        def log_message(self, *_words: object) -> None:
            """Quiet."""

    server = ThreadingHTTPServer(("127.0.0.1", 0), Answering)
    server.daemon_threads = True
    made = Pretend(f"http://127.0.0.1:{server.server_port}/forecast")
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield made
    finally:
        server.shutdown()
        server.server_close()


def says(status: int, body: bytes = b"", **headers: str) -> Reply:
    """A plain reply. Header names are written with underscores."""

    def reply(asked: BaseHTTPRequestHandler) -> None:
        asked.send_response_only(status)
        given = {name.replace("_", "-"): value for name, value in headers.items()}
        for name, value in {"Date": "Fri, 10 Jul 2026 19:00:00 GMT", "Content-Length": str(len(body)), **given}.items():
            asked.send_header(name, value)
        asked.end_headers()
        asked.wfile.write(body)

    return reply


def a_met_forecast(
    first: datetime, hours: int = 60, longer: int = 30, units: dict[str, str] | None = None, **details: Any
) -> bytes:
    """Hours from `first` on, then steps of six hours. At every hour it is as many degrees as the clock in UTC says."""
    times = [first + timedelta(hours=number) for number in range(hours)]
    times += [times[-1] + timedelta(hours=6 * number) for number in range(1, longer + 1)]
    rows = []
    for number, moment in enumerate(times):
        at = {
            "air_pressure_at_sea_level": 1016.2, "air_temperature": float(moment.hour), "cloud_area_fraction": 40.0,
            "dew_point_temperature": 11.0, "relative_humidity": 62.0, "wind_from_direction": 10.0, "wind_speed": 4.0,
        } | details  # fmt: skip
        data: dict[str, Any] = {"instant": {"details": at}}
        if number < hours - 1:
            data["next_1_hours"] = {"summary": {"symbol_code": "cloudy"}, "details": {"precipitation_amount": 0.1}}
        data["next_6_hours"] = {
            "summary": {"symbol_code": "rain"},
            "details": {
                "air_temperature_max": 25.0, "air_temperature_min": 9.0, "precipitation_amount": 1.2,
            },
        }  # fmt: skip
        rows.append({"time": moment.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ"), "data": data})
    meta = {"updated_at": "2026-07-10T18:12:00Z", "units": MET_UNITS | (units or {})}
    place = {"type": "Point", "coordinates": [-8.33, 37.08, 14]}
    return json.dumps(
        {"type": "Feature", "geometry": place, "properties": {"meta": meta, "timeseries": rows}}
    ).encode()  # fmt: skip


def an_hourly_forecast(first: datetime, hours: int = 24 * 10, **hourly: Any) -> bytes:
    """Hours from `first` on, a column a field. Wind is in km/h, radiation in W/m² of the hour before."""
    starts = [int((first + timedelta(hours=number)).timestamp()) for number in range(hours)]
    of_day = [(first + timedelta(hours=number)).astimezone(UTC).hour for number in range(hours)]
    columns: dict[str, Any] = {
        "time": starts,
        "temperature_2m": [float(hour) for hour in of_day],
        "relative_humidity_2m": [60] * hours,
        "dew_point_2m": [12.5] * hours,
        "wind_speed_10m": [18.0] * hours,
        "precipitation": [0.2] * hours,
        "shortwave_radiation": [500.0 if 7 <= hour <= 18 else 0.0 for hour in of_day],
    } | hourly
    units = {
        "time": "unixtime", "temperature_2m": "°C", "relative_humidity_2m": "%", "dew_point_2m": "°C",
        "wind_speed_10m": "km/h", "precipitation": "mm", "shortwave_radiation": "W/m²",
    }  # fmt: skip
    place = {"latitude": 37.0625, "longitude": -8.3125, "elevation": 14.0, "utc_offset_seconds": 0, "timezone": "GMT"}
    return json.dumps(place | {"hourly_units": units, "hourly": columns}).encode()
