"""A site's forecast, from the service's answer to the site's weather, and whatever can go wrong on the way."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path
from threading import Event, Thread
from typing import Any

import pytest
from sqlalchemy import select

from builders import a_document_data, a_site
from pengan.web.ahead import process
from pengan.web.ahead.models import PlanningJob
from pengan.web.database import Database
from pengan.web.need.fetching import fetch
from pengan.web.need.fetching.asking import Answer
from pengan.web.need.fetching.fetch import Fetched, Fetcher, fetch_due, fetch_next, fetcher_by
from pengan.web.need.fetching.met_norway import MetNorway
from pengan.web.need.fetching.turns import FIRST_PAUSE_S, LEASE_S, LONGEST_S, USUAL_S, pause_s, take_turn, wait_s
from pengan.web.need.models import WeatherFetch, WeatherStation
from pengan.web.people.teams import team_of
from pengan.web.settings import Settings
from pengan.web.sites.operations import put_document
from web.ahead.test_processes import PATIENCE_S, wait_for
from web.need.conftest import a_need_site, serve, soil_water, weather
from web.need.fetching.pretend import Pretend, a_met_forecast, pretending, says
from web.people.crew import SITE, Server

NOW = int(datetime(2026, 7, 10, 19, tzinfo=UTC).timestamp())
"""20:00 in Lisbon, as the server's clock has it."""
FIRST = datetime(2026, 7, 10, 18, tzinfo=UTC)
STATIONS = f"/api/sites/{SITE}/weather-stations"
WHERE = {"latitude_deg": 37.0783, "longitude_deg": -8.3271, "elevation_m": 14}
Row = dict[str, Any]


@pytest.fixture
def service() -> Iterator[Pretend]:
    with pretending() as made:
        made.reply(says(200, a_met_forecast(FIRST)))
        yield made


@pytest.fixture
def garden(tmp_path: Path) -> Server:
    """The lawn by need, with a place, and somebody's word on two days to come."""
    said = [
        weather(date(2026, 7, 11), rain_mm=3),
        weather(date(2026, 7, 12), kind="forecast", source="Inês, from the radio", rain_mm=9),
    ]
    return serve(tmp_path, a_need_site(soil_water(20), *said, **WHERE))


@pytest.fixture
def fetcher(service: Pretend) -> Fetcher:
    return Fetcher(MetNorway(service.address), "Pengan/1 water@example.org", lambda most: most // 2)


def once(server: Server, fetcher: Fetcher, now: int = NOW) -> Fetched | None:
    with server.shared.database.session() as session:
        return fetch_next(session, fetcher, now)


def kept(server: Server) -> WeatherFetch:
    with server.shared.database.session() as session:
        return session.scalars(select(WeatherFetch)).one()


def records(server: Server) -> dict[str, Row]:
    document = server.person("crew").get(f"/api/sites/{SITE}/document").json
    return {one["id"]: one for one in document["records"] if one["table"] == "weather"}


def revision(server: Server) -> int:
    found: int = server.person("crew").get(f"/api/sync/revision?site={SITE}").json["revision"]
    return found


def test_days_ahead_become_forecasts_in_the_services_name(garden: Server, fetcher: Fetcher) -> None:
    """Today has begun already, so it is not told. On the 13th six hours bring 0.1 mm each, and three long steps 1.2."""
    done = once(garden, fetcher)
    assert done is not None and done.changed[0] == "2026-07-13" and len(done.changed) == 5
    assert records(garden)["forecast.2026-07-13"] == {
        "table": "weather", "id": "forecast.2026-07-13", "day": "2026-07-13", "kind": "forecast",
        "source": "MET Norway",
        "high_degc": 25, "low_degc": 0, "dew_degc": 11, "humidity_pct": 62, "wind_mps": 4, "wind_height_m": 10,
        "rain_mm": 4.2,
    }  # fmt: skip
    manager = garden.person("manager")
    told = manager.get(f"/api/sites/{SITE}/history?table=weather").json
    assert {told["people"][edit["person"]] for edit in told["edits"] if edit["person"]} == {"MET Norway"}
    assert [(one["name"], one["heard_at"]) for one in manager.get(STATIONS).json] == [("MET Norway", NOW)]


def test_what_was_observed_or_said_by_somebody_else_stands(garden: Server, fetcher: Fetcher) -> None:
    before = records(garden)
    once(garden, fetcher)
    after = records(garden)
    assert {id: after[id] for id in before} == before
    assert not any(one["day"] in ("2026-07-11", "2026-07-12") for id, one in after.items() if id not in before)


def test_the_service_is_told_who_asks_and_where_about_but_no_nearer(
    garden: Server, service: Pretend, fetcher: Fetcher
) -> None:
    once(garden, fetcher)
    path, headers = service.asked[0]
    assert path == "/forecast?lat=37.08&lon=-8.33&altitude=14"
    assert headers["user-agent"] == "Pengan/1 water@example.org"
    assert "cookie" not in headers and "if-modified-since" not in headers


def test_what_has_not_changed_is_asked_for_word_for_word_and_not_read_again(
    garden: Server, service: Pretend, fetcher: Fetcher
) -> None:
    said = "Fri, 10 Jul 2026 18:12:00 GMT"
    service.reply(says(200, a_met_forecast(FIRST), Last_Modified=said), says(304))
    once(garden, fetcher)
    before = revision(garden)
    later = kept(garden).due
    assert once(garden, fetcher, later) == Fetched(SITE)
    assert service.asked[1][1]["if-modified-since"] == said
    assert (revision(garden), kept(garden).modified, kept(garden).tries) == (before, said, 0)


def test_an_answer_is_good_for_as_long_as_it_says_and_for_hours_at_least(
    garden: Server, service: Pretend, fetcher: Fetcher
) -> None:
    assert once(garden, fetcher) is not None
    assert kept(garden).due == NOW + USUAL_S + fetch.JITTER_S // 2
    assert once(garden, fetcher, NOW + USUAL_S) is None
    assert len(service.asked) == 1


@pytest.mark.parametrize(
    ("headers", "seconds"),
    [
        ({}, USUAL_S),
        ({"date": "Fri, 10 Jul 2026 19:00:00 GMT", "expires": "Fri, 10 Jul 2026 19:20:00 GMT"}, USUAL_S),
        ({"date": "Fri, 10 Jul 2026 19:00:00 GMT", "expires": "Sat, 11 Jul 2026 01:00:00 GMT"}, 6 * 3600),
        ({"date": "Fri, 10 Jul 2026 19:00:00 GMT", "expires": "Fri, 10 Jul 2036 19:00:00 GMT"}, LONGEST_S),
        ({"date": "yesterday", "expires": "-1"}, USUAL_S),
    ],
)
def test_how_long_an_answer_is_good(headers: dict[str, str], seconds: int) -> None:
    assert wait_s(headers) == seconds


@pytest.mark.parametrize(
    ("tries", "headers", "seconds"),
    [
        (0, {}, FIRST_PAUSE_S),
        (1, {}, 2 * FIRST_PAUSE_S),
        (60, {}, LONGEST_S),
        (0, {"retry-after": "120"}, FIRST_PAUSE_S),
        (0, {"retry-after": "7200"}, 7200),
        (0, {"retry-after": "9" * 5000}, LONGEST_S),
        (0, {"retry-after": "²"}, FIRST_PAUSE_S),
        (0, {"retry-after": "Fri, 10 Jul 2026 21:00:00 GMT", "date": "Fri, 10 Jul 2026 19:00:00 GMT"}, 7200),
    ],
)
def test_how_long_a_service_is_left_in_peace(tries: int, headers: dict[str, str], seconds: int) -> None:
    assert pause_s(tries, headers) == seconds


@pytest.mark.parametrize(
    ("reply", "fault", "pause"),
    [
        (says(429, Retry_After="10000"), "HTTP 429", 10_000),
        (says(500), "HTTP 500", FIRST_PAUSE_S),
        (says(503, Retry_After="30"), "HTTP 503", FIRST_PAUSE_S),
        (says(403), "HTTP 403", LONGEST_S),
        (says(302, Location="http://127.0.0.1:9/"), "HTTP 302", FIRST_PAUSE_S),
        (says(200, b"<html>busy</html>"), "no JSON", FIRST_PAUSE_S),
        (says(200, b'{"properties": {}}'), "no meta.units", FIRST_PAUSE_S),
    ],
)
def test_a_fault_changes_nothing_and_is_waited_out(
    garden: Server, service: Pretend, fetcher: Fetcher, reply: Any, fault: str, pause: int
) -> None:
    before = revision(garden)
    service.reply(reply)
    assert once(garden, fetcher) == Fetched(SITE, fault=fault)
    row = kept(garden)
    assert (row.due, row.tries, row.fault) == (NOW + pause + fetch.JITTER_S // 2, 1, fault)
    assert revision(garden) == before


def test_faults_pause_longer_each_time_until_it_goes_well_again(
    garden: Server, service: Pretend, fetcher: Fetcher
) -> None:
    exact = replace(fetcher, chance=lambda _most: 0)
    service.reply(says(503), says(503), says(200, a_met_forecast(FIRST)))
    moments = [NOW]
    for _turn in range(3):
        assert once(garden, exact, moments[-1]) is not None
        moments.append(kept(garden).due)
    assert [later - earlier for earlier, later in zip(moments, moments[1:], strict=False)] == [
        FIRST_PAUSE_S, 2 * FIRST_PAUSE_S, USUAL_S,
    ]  # fmt: skip
    assert (kept(garden).tries, kept(garden).fault) == (0, None)


def test_a_forecast_that_hardly_moves_is_no_edit_and_one_that_moves_is(
    garden: Server, service: Pretend, fetcher: Fetcher
) -> None:
    once(garden, fetcher)
    before = revision(garden)
    service.reply(says(200, a_met_forecast(FIRST, wind_speed=4.4)))
    assert once(garden, fetcher, kept(garden).due) == Fetched(SITE)
    assert revision(garden) == before
    service.reply(says(200, a_met_forecast(FIRST, wind_speed=4.5)))
    moved = once(garden, fetcher, kept(garden).due)
    assert moved is not None and "2026-07-13" in moved.changed
    assert records(garden)["forecast.2026-07-13"]["wind_mps"] == 4.5


def test_figures_that_cannot_be_are_not_taken(garden: Server, service: Pretend, fetcher: Fetcher) -> None:
    service.reply(says(200, a_met_forecast(FIRST, dew_point_temperature=400.0, wind_speed=-3.0)))
    once(garden, fetcher)
    found = records(garden)["forecast.2026-07-13"]
    assert "dew_degc" not in found and "wind_mps" not in found and "wind_height_m" not in found
    assert found["high_degc"] == 25


def test_a_forecast_that_somebody_took_away_stays_away(garden: Server, fetcher: Fetcher) -> None:
    once(garden, fetcher)
    with garden.shared.database.session() as session:
        data = garden.person("crew").get(f"/api/sites/{SITE}/document").json
        data["records"] = [one for one in data["records"] if one["id"] != "forecast.2026-07-13"]
        put_document(session, data)
    once(garden, fetcher, kept(garden).due)
    assert "forecast.2026-07-13" not in records(garden)


def test_managers_end_it_as_any_weather_station_and_let_it_in_again(
    garden: Server, service: Pretend, fetcher: Fetcher
) -> None:
    once(garden, fetcher)
    manager = garden.person("manager")
    manager.delete(f"{STATIONS}/{manager.get(STATIONS).json[0]['id']}")
    assert once(garden, fetcher, kept(garden).due) == Fetched(SITE)
    assert len(service.asked) == 1
    assert manager.post(STATIONS, json={"name": "MET Norway"}).status_code == 201
    once(garden, fetcher, kept(garden).due)
    assert len(service.asked) == 2
    assert len(manager.get(STATIONS).json) == 1


def test_a_name_that_came_with_a_site_from_elsewhere_shuts_nobody_out(
    garden: Server, service: Pretend, fetcher: Fetcher
) -> None:
    with garden.shared.database.session() as session, session.begin():
        moved = WeatherStation(
            team=team_of(session, SITE), id="moved", site=SITE, name="MET Norway", token_hash="0" * 64, made_by="",
            made_at=NOW, ended_at=NOW,
        )  # fmt: skip
        session.add(moved)
    once(garden, fetcher)
    assert len(service.asked) == 1


def test_a_site_without_a_place_is_not_asked_for(tmp_path: Path, service: Pretend, fetcher: Fetcher) -> None:
    server = serve(tmp_path, a_need_site(soil_water(20), latitude_deg=None, longitude_deg=None))
    assert once(server, fetcher) == Fetched(SITE)
    assert service.asked == []


def test_another_service_begins_anew(garden: Server, fetcher: Fetcher, service: Pretend) -> None:
    service.reply(says(200, a_met_forecast(FIRST), Last_Modified="Fri, 10 Jul 2026 18:12:00 GMT"))
    once(garden, fetcher)
    assert once(garden, replace(fetcher, service=MetNorway(service.address, name="Another")), NOW) is not None
    assert "if-modified-since" not in service.asked[1][1]


@pytest.fixture(params=["sqlite", "postgresql"])
def database(request: pytest.FixtureRequest, make_database: Callable[[str], str]) -> Iterator[Database]:
    """Two gardens in a database of either kind."""
    made = Database(make_database(request.param))
    with made.session() as session:
        for site in ("garden", "park"):
            put_document(session, a_document_data(site=a_site(site)))
    yield made
    made.engine.dispose()


def test_each_turn_is_taken_once_and_one_that_nobody_finished_comes_again(database: Database) -> None:
    with database.session() as one, database.session() as other:
        taken = [take_turn(session, "MET Norway", NOW) for session in (one, other, one, other)]
        assert [turn and turn.site for turn in taken] == ["garden", "park", None, None]
        again = take_turn(other, "MET Norway", NOW + LEASE_S)
        assert again is not None and again.site == "garden"


def test_one_site_that_breaks_holds_up_no_other(database: Database, service: Pretend, fetcher: Fetcher) -> None:
    calls = list[str]()

    def breaking(address: str, _headers: dict[str, str]) -> Any:
        calls.append(address)
        raise RuntimeError("a mistake of ours")

    with database.session() as session:
        assert fetch_due(session, replace(fetcher, asking=breaking), NOW, lambda: False) == []
        assert fetch_due(session, fetcher, NOW, lambda: False) == []
    assert len(calls) == 2


def test_whoever_stops_the_process_waits_for_one_question_at_most(database: Database, fetcher: Fetcher) -> None:
    with database.session() as session:
        assert fetch_due(session, fetcher, NOW, lambda: True) == []


def test_without_a_service_in_the_settings_nobody_is_asked() -> None:
    assert fetcher_by(Settings()) is None
    made = fetcher_by(Settings(weather_service="met-norway", weather_contact="water@example.org"))
    assert made is not None and made.service.name == "MET Norway"
    assert made.agent.startswith("Pengan/") and made.agent.endswith(" water@example.org")


def test_nights_are_worked_out_while_a_service_is_silent(
    garden: Server, fetcher: Fetcher, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It answers only once the nights are stored: were they to wait for it, it never would."""
    planned, stop = Event(), Event()

    def waiting(_address: str, _headers: dict[str, str]) -> Answer:
        assert planned.wait(PATIENCE_S)
        return Answer(200, {}, a_met_forecast(FIRST))

    monkeypatch.setattr(process, "fetcher_by", lambda _settings: replace(fetcher, asking=waiting))
    working = Thread(target=process.JobProcess(garden.shared.settings, garden.shared.database, stop).run)
    working.start()
    try:
        wait_for(lambda: _nights_are_stored(garden))
        planned.set()
        wait_for(lambda: "forecast.2026-07-13" in records(garden))
    finally:
        planned.set()
        stop.set()
        working.join(PATIENCE_S)
    assert not working.is_alive()


def _nights_are_stored(server: Server) -> bool:
    with server.shared.database.session() as session:
        job = session.get(PlanningJob, SITE)
        return job is not None and job.planned > 0
