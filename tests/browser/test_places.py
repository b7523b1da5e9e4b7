"""Stations put where somebody stands: asked for on a tap, without signal, refused where the phone knows it badly."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from browser.axe import flaws
from browser.codes import SITE, let_in
from browser.conftest import TOO_LITTLE_MEMORY
from browser.crew import open_at, phone
from browser.kept import keep_all
from browser.standing import Standing
from browser.test_wet_check import in_step

pytestmark = pytest.mark.journey

WORDS = "language=en&units=metric&hours=24"
STATION = "s404"
NORTH, EAST = 37.07885, -8.3244
"""Some ten metres from where the demo site has that station."""


@pytest.fixture
def crew(server: Standing, browser: Browser) -> Iterator[BrowserContext]:
    server.start()
    with phone(browser, cut_off=True) as context:
        context.add_init_script(TOO_LITTLE_MEMORY)
        context.add_init_script(COUNT_ASKED)
        let_in(context, server, "crew", "Bikram Thapa")
        yield context


def stand(context: BrowserContext, accuracy: float) -> None:
    context.set_geolocation({"latitude": NORTH, "longitude": EAST, "accuracy": accuracy})


def put_here(page: Page) -> None:
    page.get_by_role("button", name="Put this station here").click()


def place_on_server(context: BrowserContext, server: Standing) -> tuple[float, float]:
    answer = context.request.get(f"{server.address}/api/sites/{SITE}/document")
    (station,) = (one for one in answer.json()["records"] if one["id"] == STATION)
    return station["latitude_deg"], station["longitude_deg"]


def test_a_station_is_put_where_the_crew_stands_without_signal(crew: BrowserContext, server: Standing) -> None:
    crew.grant_permissions(["geolocation"])
    stand(crew, 6)
    page = open_at(crew, server, f"stations/{STATION}?{WORDS}")
    in_step(page)
    assert keep_all(page)["ready"]
    before = place_on_server(crew, server)
    assert page.evaluate("asked") == 0, "nobody has asked where the phone is"
    server.stop()
    put_here(page)
    expect(page.locator(".tray")).to_contain_text("Known to 6 m.")
    expect(page.locator(".station-facts")).to_contain_text("8.3244° west")
    server.start()
    in_step(page)
    assert place_on_server(crew, server) == (NORTH, EAST) != before
    page.get_by_role("button", name="Undo").click()
    in_step(page)
    expect(page.locator(".station-facts")).not_to_contain_text("8.3244° west")


def test_it_is_refused_where_the_phone_knows_its_place_badly_and_where_it_may_not_know(
    crew: BrowserContext, server: Standing
) -> None:
    page = open_at(crew, server, f"stations/{STATION}?language=en&units=us&hours=24")
    in_step(page)
    put_here(page)
    expect(page.locator(".put-here-fault")).to_contain_text("Allow it for this page")
    crew.grant_permissions(["geolocation"])
    stand(crew, 64)
    put_here(page)
    expect(page.locator(".put-here-fault")).to_contain_text("to 210 ft only, and 98 ft is the most", timeout=30_000)
    assert flaws(page) == []


def test_a_walk_begins_where_its_reader_stands_once_they_say_so(crew: BrowserContext, server: Standing) -> None:
    crew.grant_permissions(["geolocation"])
    stand(crew, 20)
    page = open_at(crew, server, f"wet-check?{WORDS}")
    in_step(page)
    expect(page.locator(".wet-count")).to_contain_text("140 stations along a short path of")
    assert page.evaluate("asked") == 0
    page.get_by_role("button", name="Begin where I am").click()
    expect(page.locator(".wet-from")).to_contain_text("The walk begins where you are.")
    page.get_by_role("button", name="Begin the walk").click()
    expect(page.locator(".wet-station .tag")).to_contain_text("404")
    page.get_by_role("button", name="Water is on: start").click()
    expect(page.locator(".wet-close")).to_contain_text("close it before you go on")
    page.goto(f"{server.address}/more?{WORDS}")
    expect(page.get_by_text("A wet check is under way: 1 of 140")).to_be_visible()


COUNT_ASKED = """globalThis.asked = 0;
for (const name of ["watchPosition", "getCurrentPosition"]) {
  const ask = Geolocation.prototype[name];
  Geolocation.prototype[name] = function (...words) { asked += 1; return ask.apply(this, words); };
}"""
