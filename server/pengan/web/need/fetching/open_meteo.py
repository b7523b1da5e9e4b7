"""Open-Meteo's forecast for any place on earth, hour by hour, with the sun's radiation.

Shape and units: https://open-meteo.com/en/docs. Terms: https://open-meteo.com/en/terms (the free address is for
non-commercial use; CC BY 4.0 with the source named). Times are asked for in UTC; rain and radiation are those of the
hour before the time they stand beside, radiation as a mean in W/m².
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from urllib.parse import urlencode

from .reading import figure, items, json_in, known, part
from .steps import HOUR_S, Malformed, Step, in_order

ADDRESS = "https://api.open-meteo.com/v1/forecast"
DAYS = 8
AT: Mapping[str, str] = MappingProxyType(
    {
        "temp_degc": "temperature_2m",
        "dew_degc": "dew_point_2m",
        "humidity_pct": "relative_humidity_2m",
        "wind_mps": "wind_speed_10m",
    }
)
BEFORE: Mapping[str, str] = MappingProxyType({"rain_mm": "precipitation", "solar_mj": "shortwave_radiation"})
LATEST = 253402300799
"""The end of the year 9999."""


@dataclass(frozen=True, slots=True)
class OpenMeteo:
    """The forecast by the hour. `root` is another address for tests."""

    root: str = ADDRESS
    name: str = "Open-Meteo"
    wind_height_m: float = 10

    def address(self, latitude_deg: float, longitude_deg: float, elevation_m: float | None) -> str:
        """The question for a place, a day more at either end than the site's own days need."""
        wanted = {
            "latitude": latitude_deg, "longitude": longitude_deg,
            **({} if elevation_m is None else {"elevation": int(elevation_m)}),
            "hourly": ",".join((*AT.values(), *BEFORE.values())), "timeformat": "unixtime", "timezone": "GMT",
            "past_days": 1, "forecast_days": DAYS + 1,
        }  # fmt: skip
        return f"{self.root}?{urlencode(wanted, safe=',')}"

    def read(self, body: bytes) -> tuple[Step, ...]:
        """The steps in an answer; the last instant begins none. Raises `Malformed`."""
        told = json_in(body)
        hourly, units = part(told, "hourly"), part(told, "hourly_units")
        starts = [_instant(one) for one in items(hourly, "time")]
        columns = {name: _column(hourly, name, len(starts)) for name in (*AT.values(), *BEFORE.values())}
        steps = []
        for place, (first, last) in enumerate(zip(starts, starts[1:], strict=False)):
            at = {field: figure(columns[name][place], field, units.get(name)) for field, name in AT.items()}
            over = {field: figure(columns[name][place + 1], field, units.get(name)) for field, name in BEFORE.items()}
            steps.append(Step(first, last, known(at), known(over) if last - first == HOUR_S else {}))
        return in_order(steps)


def _column(hourly: Mapping[str, object], name: str, count: int) -> list[object]:
    if name not in hourly:
        return [None for _number in range(count)]
    column = items(hourly, name)
    if len(column) != count:
        raise Malformed(f"{name} is of another length")
    return column


def _instant(given: object) -> int:
    if isinstance(given, bool) or not isinstance(given, int) or not 0 < given <= LATEST:
        raise Malformed("no instant")
    return given
