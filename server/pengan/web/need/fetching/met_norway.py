"""The Norwegian Meteorological Institute's forecast for any place on earth: Locationforecast 2.0, `complete`.

Shape and units: https://api.met.no/doc/ForecastJSON. Terms: https://api.met.no/doc/TermsOfService (a User-Agent with a
contact, Expires and If-Modified-Since honoured, few decimals, CC BY 4.0 with the source named). Times are UTC; steps
are hours at first and six hours later on. It tells no radiation: that is filled from the temperatures.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from urllib.parse import urlencode

from .reading import figure, instant, items, json_in, known, part
from .steps import HOUR_S, Step, in_order

ADDRESS = "https://api.met.no/weatherapi/locationforecast/2.0/complete"
AT: Mapping[str, str] = MappingProxyType(
    {
        "temp_degc": "air_temperature",
        "dew_degc": "dew_point_temperature",
        "humidity_pct": "relative_humidity",
        "wind_mps": "wind_speed",
    }
)
OVER: Mapping[str, str] = MappingProxyType(
    {"rain_mm": "precipitation_amount", "high_degc": "air_temperature_max", "low_degc": "air_temperature_min"}
)
SPANS = {HOUR_S: "next_1_hours", 6 * HOUR_S: "next_6_hours"}


@dataclass(frozen=True, slots=True)
class MetNorway:
    """Locationforecast 2.0. `root` is another address for tests."""

    root: str = ADDRESS
    name: str = "MET Norway"
    wind_height_m: float = 10

    def address(self, latitude_deg: float, longitude_deg: float, elevation_m: float | None) -> str:
        """The question for a place. Heights are whole metres."""
        height = {} if elevation_m is None else {"altitude": int(elevation_m)}
        return f"{self.root}?{urlencode({'lat': latitude_deg, 'lon': longitude_deg, **height})}"

    def read(self, body: bytes) -> tuple[Step, ...]:
        """The steps in an answer; the last instant begins none. Raises `Malformed`."""
        told = part(json_in(body), "properties")
        units = part(told, "meta", "units")
        rows = [part(row) for row in items(told, "timeseries")]
        starts = [instant(row.get("time")) for row in rows]
        spans = zip(rows, starts, starts[1:], strict=False)
        return in_order([_step(part(row, "data"), units, first, last) for row, first, last in spans])


def _step(data: Mapping[str, object], units: Mapping[str, object], starts: int, ends: int) -> Step:
    at = part(data, "instant", "details")
    span = SPANS.get(ends - starts, "")
    over = part(data, span, "details") if span in data else {}
    return Step(starts, ends, _figures(at, units, AT), _figures(over, units, OVER))


def _figures(details: Mapping[str, object], units: Mapping[str, object], names: Mapping[str, str]) -> dict[str, float]:
    return known({field: figure(details.get(name), field, units.get(name)) for field, name in names.items()})
