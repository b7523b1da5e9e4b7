"""Weather in over HTTP: tokens, days, hours that become days, corrections, faults."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from math import pi, sin
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient
from sqlalchemy import func, select
from werkzeug.test import TestResponse

from pengan.engine.need.ladder import hourly_day
from pengan.engine.need.penman import FAO56, Field
from pengan.engine.need.weather import HourWeather
from pengan.web.need.models import WeatherHour
from pengan.web.sync.models import Edit
from web.need.conftest import NIGHT, a_need_site, at, serve, soil_water, weather
from web.people.crew import BESIDE, SITE, Server

STATIONS = f"/api/sites/{SITE}/weather-stations"
READINGS = "/api/weather/readings"
Row = dict[str, Any]
FIRST_HOUR = datetime(2026, 7, 8, 23, tzinfo=UTC)
"""Midnight of the 9th in Lisbon, an hour ahead of UTC in summer."""


@pytest.fixture
def manager(lawn: Server) -> FlaskClient:
    return lawn.person("manager")


@pytest.fixture
def token(manager: FlaskClient) -> str:
    made = manager.post(STATIONS, json={"name": "Mast by the pond"})
    assert made.status_code == 201, made.text
    found: str = made.json["token"]
    return found


def send(server: Server, token: str, **body: Any) -> TestResponse:
    return server.browser().post(READINGS, json=body, headers={"Authorization": f"Bearer {token}"})


def records(client: FlaskClient, day: str = "2026-07-09") -> list[Row]:
    document = client.get(f"/api/sites/{SITE}/document").json
    return [one for one in document["records"] if one["table"] == "weather" and one["day"] == day]


def hours(count: int = 24, **fields: Any) -> list[Row]:
    """A sunny day by the hour."""
    return [
        {
            "starts": (FIRST_HOUR + timedelta(hours=number)).isoformat(), "mean_degc": 18 + min(number, 24 - number),
            "humidity_pct": 70 - number % 12, "wind_mps": 2.0,
            "solar_mj": round(max(0.0, 2.5 * sin(pi * (number - 7) / 13)), 2),
            "rain_mm": 0.1, **fields,
        }
        for number in range(count)
    ]  # fmt: skip


def test_a_managers_token_lets_a_station_report_until_it_is_ended(
    lawn: Server, manager: FlaskClient, token: str
) -> None:
    listed = manager.get(STATIONS).json
    assert [(one["name"], one["heard_at"]) for one in listed] == [("Mast by the pond", None)]
    assert token not in manager.get(STATIONS).text
    assert send(lawn, token, days=[{"day": "2026-07-09", "rain_mm": 2}]).json["days"] == 1
    assert manager.get(STATIONS).json[0]["heard_at"] == lawn.now
    assert manager.delete(f"{STATIONS}/{listed[0]['id']}").status_code == 204
    assert manager.get(STATIONS).json == []
    assert send(lawn, token, days=[{"day": "2026-07-09", "rain_mm": 3}]).status_code == 401
    assert records(manager)[0]["rain_mm"] == 2


@pytest.mark.parametrize("given", ["", "Bearer", "Bearer x.y.z", "Basic eHl6", "Bearer nobody"])
def test_without_a_token_nothing_is_taken(lawn: Server, given: str) -> None:
    answer = lawn.browser().post(READINGS, json={"days": []}, headers={"Authorization": given})
    assert (answer.status_code, answer.json["code"]) == (401, "weather.not_a_station")


def test_another_stations_secret_opens_nothing(lawn: Server, token: str) -> None:
    team, device, _secret = token.split(".")
    assert send(lawn, f"{team}.{device}.guessed", days=[]).status_code == 401


def test_a_day_is_an_edit_in_the_stations_name_with_its_units_named(
    lawn: Server, manager: FlaskClient, token: str
) -> None:
    """86 °F is 30 °C, 18 km/h is 5 m/s, half an inch 12.7 mm, 250 W/m² over a day 21.6 MJ/m² (all exact)."""
    units = {"high_degc": "f", "wind_mps": "kmh", "rain_mm": "in", "solar_mj": "wm2"}
    day = {"day": "2026-07-10", "high_degc": 86, "wind_mps": 18, "rain_mm": 0.5, "solar_mj": 250, "low_degc": 15}
    assert send(lawn, token, units=units, days=[day]).json["changed"] == ["2026-07-10"]
    found = records(manager, "2026-07-10")[0]
    assert {name: found[name] for name in day} == {
        "day": "2026-07-10", "high_degc": 30, "wind_mps": 5, "rain_mm": 12.7, "solar_mj": 21.6, "low_degc": 15,
    }  # fmt: skip
    assert found["source"] == "Mast by the pond"
    line = manager.get(f"/api/sites/{SITE}/history?table=weather").json
    edit = line["edits"][0]
    assert line["people"][edit["person"]] == "Mast by the pond"
    assert edit["outcome"] == "taken"


def test_what_comes_twice_changes_nothing_and_what_is_corrected_replaces_it(
    lawn: Server, manager: FlaskClient, token: str
) -> None:
    """The week before has a record for the 9th already, with 2.5 mm of evapotranspiration, which stays."""
    row = {"day": "2026-07-09", "rain_mm": 4, "high_degc": 29}
    assert send(lawn, token, days=[row]).json["changed"] == ["2026-07-09"]
    assert send(lawn, token, days=[row]).json["changed"] == []
    assert send(lawn, token, days=[{**row, "rain_mm": 6, "high_degc": None}]).json["changed"] == ["2026-07-09"]
    found = records(manager)
    assert [(one["rain_mm"], one.get("high_degc"), one["et_mm"]) for one in found] == [(6, None, 2.5)]
    rains = [
        (edit["before"], edit["now"])
        for edit in manager.get(f"/api/sites/{SITE}/history?record={found[0]['id']}").json["edits"]
        if edit["field"] == "rain_mm" and edit["person"]
    ]
    assert rains == [(4, 6), (0, 4)]


def test_a_late_rain_makes_tonight_shorter_at_once(tmp_path: Path) -> None:
    """The soil was measured on the 8th; 6 mm that fell on the 9th are told on the evening of the 10th."""
    start = NIGHT - timedelta(days=2)
    zone = {"soil": "clay", "roots_m": 1.0, "species_factor": 0.8, "watering": "deficit"}
    days = [weather(start + timedelta(days=number), et_mm=5, rain_mm=0) for number in range(3)]
    server = serve(tmp_path, a_need_site(soil_water(28, start), *days, zone=zone))
    manager = server.person("manager")
    token = manager.post(STATIONS, json={"name": "Mast"}).json["token"]

    def lacking() -> float:
        found: float = manager.get(f"/api/sites/{SITE}/need/tonight").json["hydrozones"][0]["depletion_mm"]
        return found

    before = lacking()
    send(server, token, days=[{"day": "2026-07-09", "rain_mm": 6}])
    assert lacking() == pytest.approx(before - 6)


def test_hours_become_a_day_when_all_have_come_in_whatever_order(
    lawn: Server, manager: FlaskClient, token: str
) -> None:
    """The evapotranspiration is the engine's own sum by the hour for the same hours."""
    given = hours()
    assert send(lawn, token, hours=given[12:]).json == {"days": 0, "hours": 12, "changed": [], "faults": []}
    assert send(lawn, token, hours=given[:11] + given[5:7]).json["changed"] == []
    assert send(lawn, token, hours=[given[11]]).json["changed"] == ["2026-07-09"]
    found = records(manager)[0]
    assert (found["high_degc"], found["low_degc"], found["rain_mm"]) == (30, 18, 2.4)
    assert found["solar_mj"] == pytest.approx(sum(row["solar_mj"] for row in given))
    assert (found["dampest_pct"], found["driest_pct"]) == (70, 59)
    site = manager.get(f"/api/sites/{SITE}/document").json["records"][0]
    field = Field(site["latitude_deg"], site.get("elevation_m", 0), site.get("longitude_deg", 0))
    worked = hourly_day(
        FAO56,
        field,
        [
            HourWeather(
                day=NIGHT - timedelta(days=1), utc_middle_h=number - 0.5, mean_c=row["mean_degc"],
                humidity_pct=row["humidity_pct"], wind_mps=2.0, solar_mj=row["solar_mj"],
            )
            for number, row in enumerate(given)
        ],
    )  # fmt: skip
    assert found["et_mm"] == pytest.approx(sum(hour.et_mm for hour in worked), abs=1e-3)


def test_a_corrected_hour_changes_its_day_and_an_unusable_one_takes_the_sum_by_the_hour_away(
    lawn: Server, manager: FlaskClient, token: str
) -> None:
    """Humidity of 130 percent can be kept and not used; so the day has no evapotranspiration of its own any more."""
    given = hours()
    send(lawn, token, hours=given)
    assert send(lawn, token, hours=[{**given[3], "rain_mm": 5.1}]).json["changed"] == ["2026-07-09"]
    assert records(manager)[0]["rain_mm"] == pytest.approx(7.4)
    assert records(manager)[0]["et_mm"] > 3
    send(lawn, token, hours=[{**given[3], "humidity_pct": 130}])
    assert "et_mm" not in records(manager)[0]


def test_a_field_that_one_hour_leaves_out_is_left_out_of_the_day(
    lawn: Server, manager: FlaskClient, token: str
) -> None:
    given = hours()
    del given[4]["rain_mm"]
    send(lawn, token, hours=given)
    del given[5]["humidity_pct"]
    send(lawn, token, hours=given)
    assert records(manager)[0]["rain_mm"] == 0, "what the record had before stays"
    assert records(manager)[0]["high_degc"] == 30


def test_the_day_on_which_the_clock_goes_back_has_twenty_five_hours(lawn: Server, token: str) -> None:
    """Lisbon, 25 October 2026 (EU Directive 2000/84/EC)."""
    at(lawn, "2026-10-26T12:00:00+00:00")
    first = datetime(2026, 10, 24, 23, tzinfo=UTC)
    rows = [{"starts": (first + timedelta(hours=number)).isoformat(), "mean_degc": 15} for number in range(25)]
    assert send(lawn, token, hours=rows[:24]).json["changed"] == []
    assert send(lawn, token, hours=rows[24:]).json["changed"] == ["2026-10-25"]


def test_every_fault_names_its_row_and_field_and_the_sound_rows_are_taken(
    lawn: Server, manager: FlaskClient, token: str
) -> None:
    days = [
        {"day": "2026-07-09", "rain_mm": 3},
        {"day": "2026-07-11", "rain_mm": 3},
        {"day": "10.7.2026", "high_degc": 99, "rain": 1},
        {"rain_mm": 1},
    ]
    rows = [
        {"starts": "2026-07-09T13:00:00"},
        {"starts": "2026-07-09T13:20:00+01:00"},
        {"starts": "2026-07-10T22:00:00+01:00"},
        {"starts": "2026-01-01T00:00:00+00:00", "mean_degc": "warm"},
    ]
    answer = send(lawn, token, days=days, hours=rows)
    assert answer.status_code == 200
    assert {(fault["field"], fault["code"]) for fault in answer.json["faults"]} == {
        ("days.1.day", "weather.not_yet"),
        ("days.2.day", "fault.not_date"),
        ("days.2.high_degc", "fault.outside_bare"),
        ("days.2.rain", "fault.unknown_field"),
        ("days.3.day", "fault.missing"),
        ("hours.0.starts", "weather.no_moment"),
        ("hours.1.starts", "weather.not_on_the_hour"),
        ("hours.2.starts", "weather.not_yet"),
        ("hours.3.starts", "weather.too_old"),
        ("hours.3.mean_degc", "fault.not_number"),
    }
    high = next(fault for fault in answer.json["faults"] if fault["field"] == "days.2.high_degc")
    assert (high["params"]["least"], high["params"]["most"]) == (-90, 70)
    assert records(manager)[0]["rain_mm"] == 3
    with lawn.shared.database.session() as session:
        assert session.scalar(select(func.count()).select_from(WeatherHour)) == 0


def test_where_nothing_is_sound_nothing_is_taken_and_the_answer_is_422(
    lawn: Server, manager: FlaskClient, token: str
) -> None:
    answer = send(lawn, token, units={"wind_mps": "knots"}, days=[{"day": "2026-07-09", "wind_mps": 5}])
    assert (answer.status_code, answer.json["fields"][0]["field"]) == (422, "units.wind_mps")
    assert "kmh" in answer.json["fields"][0]["params"]["choices"]
    many = [{"day": "2026-07-09"}] * 401
    assert send(lawn, token, days=many).status_code == 422
    with lawn.shared.database.session() as session:
        assert not session.scalars(select(Edit).where(Edit.record_table == "weather", Edit.person != "")).all()


def test_a_swapped_minimum_and_maximum_are_kept_and_flagged_when_they_are_read(
    lawn: Server, manager: FlaskClient, token: str
) -> None:
    send(lawn, token, days=[{"day": "2026-07-10", "high_degc": 12, "low_degc": 30}])
    assert (records(manager, "2026-07-10")[0]["high_degc"], records(manager, "2026-07-10")[0]["low_degc"]) == (12, 30)
    day = manager.get(f"/api/sites/{SITE}/need/hydrozones/h1/season").json["days"][-1]
    assert (day["rung"], [flag["code"] for flag in day["flags"]]) == ("normal", ["weather.swapped"])


def test_a_station_is_told_of_at_its_own_site_alone(lawn: Server, manager: FlaskClient) -> None:
    assert manager.get(f"/api/sites/{BESIDE}/weather-stations").status_code == 404
    made = manager.post(STATIONS, json={"name": ""})
    assert (made.status_code, made.json["fields"][0]["field"]) == (422, "name")
