"""Audits and weather by hand, outdoors: with the server really stopped, sent once it is back; weather stations."""

from __future__ import annotations

import json
import re
import urllib.error
import urllib.request
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.edits import SOON_MS, arrives, go_to, keep, line_is_back, records
from browser.joining import phone_at
from browser.kept import keep_all
from browser.standing import Standing

pytestmark = pytest.mark.journey

PLANNED_MS = 90_000
"""The planner starts in the background; readings do not wait for it."""


@pytest.fixture
def phone(browser: Browser, server: Standing) -> Iterator[Page]:
    """A manager's phone with the whole app and its planner; the server runs."""
    with phone_at(browser, server, "need", "manager", "Tiago Nóvoa") as page:
        expect(page.locator(".need-entry").first).to_be_visible(timeout=SOON_MS)
        yield page


READINGS = ("8", "9", "10", "11", "12", "10")
"""Millimetres in a quarter of an hour. The lowest one and a half of six cans: (8 + 9 / 2) / 1.5 over a mean of 10."""


def test_an_audit_is_done_without_the_server_and_sent_once_it_is_there(phone: Page, server: Standing) -> None:
    page = phone
    keep_all(page, planner=True)
    go_to(page, "stations/s102")
    page.get_by_role("button", name="Audit with cans").click()
    expect(page.get_by_text("mind wet ground: it is slippery")).to_be_visible()
    server.stop()
    page.get_by_label("Name").fill("Old oak in October")
    page.get_by_label("Water ran for").fill("15")
    page.get_by_role("radio", name="Depths").check()
    page.get_by_label("Cans in a row").fill("3")
    page.get_by_label("Rows").fill("2")
    page.get_by_role("button", name="Set out 6 cans").click()
    page.get_by_role("button", name="Row 1, can 1: not read").click()
    for reading in READINGS[:4]:
        page.locator(".reading .stepper-now").fill(reading)
        page.keyboard.press("Enter")
    expect(page.get_by_text("2 cans are still to be read.")).to_be_visible()
    page.reload()
    expect(page.get_by_role("button", name="Row 2, can 3: 11 mm")).to_be_visible()
    page.get_by_role("button", name="Row 2, can 2: not read").click()
    page.locator(".reading .stepper-now").fill(READINGS[4])
    page.get_by_role("button", name="Next: Row 2, can 1").click()
    page.locator(".reading .stepper-now").fill("8")
    page.get_by_role("button", name="2 mm more").click()
    facts = page.locator(".audit-facts")
    expect(facts).to_contain_text("83 %", timeout=PLANNED_MS)
    for figure in ("90 %", "10 mm", "40 mm an hour", "× 1.11"):
        expect(facts).to_contain_text(figure)
    keep(page)
    expect(page.get_by_text("Added Old oak in October.")).to_be_visible()
    expect(page.locator(".state-line")).to_have_text(re.compile("^Saved on this phone"))
    server.start()
    line_is_back(page)
    audit = arrives(page, server, "audits", name="Old oak in October")
    assert (audit["station"], audit["run_s"]) == ("s102", 900)
    cans = records(server, "cans", audit=audit["id"])
    read = {(one["column"], one["row"]): one["catch"] for one in cans}
    assert read == {(0, 0): 8, (1, 0): 9, (2, 0): 10, (2, 1): 11, (1, 1): 12, (0, 1): 10}


def test_a_can_is_moved_taken_away_and_added_by_tap_and_the_station_beside_it_gets_the_same(
    phone: Page, server: Standing
) -> None:
    page = phone
    go_to(page, "need/audits/new/s103")
    page.get_by_label("Name").fill("Two together")
    page.get_by_label("Water ran for").fill("10")
    page.get_by_role("radio", name="Depths").check()
    page.get_by_role("button", name="Choose a station").click()
    page.get_by_label("Search: Stations that ran with it").fill("104")
    page.locator(".chooser-option").first.click()
    page.get_by_label("Cans in a row").fill("2")
    page.get_by_label("Rows").fill("2")
    page.get_by_role("button", name="Set out 4 cans").click()
    page.get_by_role("button", name="Row 1, can 1: not read").click()
    page.get_by_role("button", name="Room for one more in a row").click()
    page.get_by_role("button", name="Move this can").click()
    page.get_by_role("button", name="Row 1, place 3: no can stands here").click()
    page.locator(".reading .stepper-now").fill("5")
    page.get_by_role("button", name="Row 2, can 1: not read").click()
    page.get_by_role("button", name="Take this can away").click()
    page.get_by_role("button", name="Row 2, place 3: no can stands here").click()
    page.locator(".reading .stepper-now").fill("7")
    keep(page)
    expect(page.get_by_text("Added Two together.")).to_be_visible()
    for station in ("s103", "s104"):
        audit = arrives(page, server, "audits", name="Two together", station=station)
        cans = records(server, "cans", audit=audit["id"])
        read = {(one["column"], one["row"]): one.get("catch") for one in cans}
        assert read == {(2, 0): 5, (1, 0): None, (1, 1): None, (2, 1): 7}
    page.get_by_role("button", name="Remove this audit and its cans").click()
    expect(page.get_by_text("Removed Two together.")).to_be_visible()


def test_in_arabic_the_ground_stays_a_map_and_nothing_runs_over(phone: Page, server: Standing) -> None:
    page = phone
    page.goto(f"{server.address}/need/audits/audit-801?hours=24&units=metric&language=ar")
    expect(page.locator("html")).to_have_attribute("dir", "rtl")
    expect(page.locator(".audit-fact-large")).to_be_visible(timeout=PLANNED_MS)
    cans = page.locator(".can-grid .can")
    expect(cans).to_have_count(24)
    first, second = cans.nth(0).bounding_box(), cans.nth(1).bounding_box()
    assert first and second and first["x"] < second["x"]
    figures = page.locator(".wet-figure").all_text_contents()
    assert figures[:3] == ["52", "47", "44"]
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_a_days_weather_is_typed_without_the_server_and_swapped_readings_are_flagged_not_repaired(
    phone: Page, server: Standing
) -> None:
    page = phone
    keep_all(page, planner=True)
    go_to(page, "need/weather")
    expect(page.locator(".weather-row .row-length").first).to_be_visible(timeout=PLANNED_MS)
    server.stop()
    page.get_by_role("button", name=re.compile("^Change today")).click()
    page.get_by_label("Lowest temperature").fill("24")
    page.get_by_label("Highest temperature").fill("13.5")
    page.get_by_label("Rain").fill("2.5")
    flag = page.locator("[data-flag='weather.swapped']")
    expect(flag).to_contain_text("Not used.", timeout=PLANNED_MS)
    expect(flag).to_contain_text("Were they swapped?")
    keep(page)
    expect(page.get_by_role("heading", name="Weather")).to_be_visible()
    expect(page.locator("[data-flag='weather.swapped']").first).to_be_visible(timeout=PLANNED_MS)
    server.start()
    line_is_back(page)
    found = arrives(page, server, "weather", day="2026-10-24", rain_mm=2.5)
    assert (found["low_degc"], found["high_degc"]) == (24, 13.5)


def test_a_weather_station_is_let_in_sends_and_is_ended(phone: Page, server: Standing) -> None:
    page = phone
    go_to(page, "need/weather-stations")
    page.get_by_label("Name of a new weather station").fill("Mast by the lagoon")
    page.get_by_role("button", name="Let it send readings").click()
    token = page.locator(".sent-token").inner_text().strip()
    example = json.loads(page.locator(".sent-how pre").last.inner_text())
    assert send(server, token, example)["days"] == 1
    page.get_by_role("button", name="Done").click()
    assert token not in page.content()
    page.reload()
    row = page.locator(".more-row", has_text="Mast by the lagoon")
    expect(row).to_contain_text("Last heard")
    assert token not in page.content()
    row.get_by_role("button", name="End Mast by the lagoon").click()
    expect(row).to_have_count(0, timeout=SOON_MS)
    with pytest.raises(urllib.error.HTTPError) as refused:
        send(server, token, example)
    assert refused.value.code == 401


def send(server: Standing, token: str, body: object) -> dict[str, Any]:
    """Readings, as the page says a station sends them."""
    request = urllib.request.Request(
        f"{server.address}/api/weather/readings",
        json.dumps(body).encode(),
        {"Authorization": f"Bearer {token}", "Content-Type": "application/json"},
    )
    with urllib.request.urlopen(request, timeout=20) as answer:
        found: dict[str, Any] = json.load(answer)
    return found
