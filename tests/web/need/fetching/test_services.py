"""Each service's documented answers are read, with their units; what is not as documented is refused as a whole."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from typing import Any

import pytest

from pengan.web.need.fetching.met_norway import MetNorway
from pengan.web.need.fetching.open_meteo import OpenMeteo
from pengan.web.need.fetching.services import SERVICES, Place, Service, rounded
from pengan.web.need.fetching.steps import Malformed
from pengan.web.settings import WEATHER_SERVICES
from web.need.fetching.pretend import a_met_forecast, an_hourly_forecast

FIRST = datetime(2026, 7, 9, 22, tzinfo=UTC)


def test_the_setting_knows_every_service() -> None:
    assert tuple(SERVICES) == WEATHER_SERVICES


def test_a_place_is_told_to_about_a_kilometre() -> None:
    assert rounded(Place(37.078361, -8.327142, 14.4)) == Place(37.08, -8.33, 14)
    assert MetNorway().address(37.08, -8.33, 14).endswith("complete?lat=37.08&lon=-8.33&altitude=14")
    assert "latitude=37.08&longitude=-8.33&hourly=temperature_2m,dew_point_2m" in OpenMeteo().address(
        37.08, -8.33, None
    )
    assert all(make().address(1, 2, None).startswith("https://") for make in SERVICES.values())


def test_met_norways_hours_and_longer_steps() -> None:
    steps = MetNorway().read(a_met_forecast(FIRST, hours=3, longer=2))
    assert [(one.ends - one.starts) // 3600 for one in steps] == [1, 1, 6, 6]
    assert steps[0].at == {"temp_degc": 22, "dew_degc": 11, "humidity_pct": 62, "wind_mps": 4}
    assert steps[0].over == {"rain_mm": 0.1}
    assert steps[2].over == {"rain_mm": 1.2, "high_degc": 25, "low_degc": 9}


def test_units_are_those_that_the_answer_names() -> None:
    """50 °F is 10 °C, 36 km/h is 10 m/s (both exact); a unit that nobody knows is no figure."""
    units = {"air_temperature": "fahrenheit", "wind_speed": "km/h", "relative_humidity": "tenths"}
    at = MetNorway().read(a_met_forecast(FIRST, units=units, air_temperature=50, wind_speed=36))[0].at
    assert at == {"temp_degc": 10, "dew_degc": 11, "wind_mps": 10}


def test_open_meteos_rain_and_sun_are_those_of_the_hour_before() -> None:
    """500 W/m² for an hour is 1.8 MJ/m², 18 km/h is 5 m/s (both exact)."""
    rain = [float(number) for number in range(48)]
    steps = OpenMeteo().read(an_hourly_forecast(FIRST, hours=48, precipitation=rain))
    assert [one.over["rain_mm"] for one in steps[:3]] == [1, 2, 3]
    assert steps[0].at == {"temp_degc": 22, "dew_degc": 12.5, "humidity_pct": 60, "wind_mps": 5}
    six = next(one for one in steps if datetime.fromtimestamp(one.starts, UTC).hour == 6)
    assert six.over["solar_mj"] == pytest.approx(1.8)
    assert len(steps) == 47


def test_what_a_service_leaves_out_is_missing() -> None:
    gaps = [None, *([0.2] * 47)]
    steps = OpenMeteo().read(an_hourly_forecast(FIRST, hours=48, dew_point_2m=gaps))
    assert "dew_degc" not in steps[0].at and "dew_degc" in steps[1].at
    without = json.loads(an_hourly_forecast(FIRST, hours=48))
    del without["hourly"]["shortwave_radiation"]
    assert "solar_mj" not in OpenMeteo().read(json.dumps(without).encode())[0].over


def _altered(body: bytes, *path: str | int, to: Any) -> bytes:
    data = json.loads(body)
    spot = data
    for name in path[:-1]:
        spot = spot[name]
    spot[path[-1]] = to
    return json.dumps(data).encode()


MET, HOURLY = a_met_forecast(FIRST, hours=4), an_hourly_forecast(FIRST, hours=4)
ROWS = ("properties", "timeseries")
BROKEN: list[tuple[Service, bytes]] = [
    *((service, body) for service in (MetNorway(), OpenMeteo()) for body in (
        b"", b"{", b"[]", b"null", b"<html>", b"\xff\xfe", b'{"properties": 3}', b'{"a": NaN}', b"[" * 100_000,
        MET[: len(MET) // 2], b"9" * 5000,
    )),
    (MetNorway(), _altered(MET, "properties", "timeseries", to={})),
    (MetNorway(), _altered(MET, "properties", "meta", to=None)),
    (MetNorway(), _altered(MET, *ROWS, 1, to=7)),
    (MetNorway(), _altered(MET, *ROWS, 1, "time", to="soon")),
    (MetNorway(), _altered(MET, *ROWS, 1, "time", to="2026-07-09T22:00:00")),
    (MetNorway(), _altered(MET, *ROWS, 1, "time", to="2019-07-09T22:00:00Z")),
    (MetNorway(), _altered(MET, *ROWS, 1, "data", to={})),
    (MetNorway(), _altered(MET, *ROWS, 1, "data", "instant", "details", "air_temperature", to="warm")),
    (MetNorway(), _altered(MET, *ROWS, 1, "data", "instant", "details", "air_temperature", to=True)),
    (OpenMeteo(), _altered(HOURLY, "hourly", "time", 1, to=True)),
    (OpenMeteo(), _altered(HOURLY, "hourly", "time", 1, to=10**30)),
    (OpenMeteo(), _altered(HOURLY, "hourly", "time", 1, to="2026-07-09T23:00")),
    (OpenMeteo(), _altered(HOURLY, "hourly", "precipitation", to=[1, 2])),
    (OpenMeteo(), _altered(HOURLY, "hourly_units", to=[])),
    (OpenMeteo(), _altered(HOURLY, "hourly", "wind_speed_10m", to=[1, [], 3, 4])),
]  # fmt: skip


@pytest.mark.parametrize("place", range(len(BROKEN)))
def test_what_is_not_as_documented_is_refused(place: int) -> None:
    service, body = BROKEN[place]
    with pytest.raises(Malformed):
        service.read(body)
