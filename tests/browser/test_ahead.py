"""Two weeks ahead on a phone and at a desk: what the server planned, program by program, and why."""

from __future__ import annotations

import json
import time
import urllib.request
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from browser.planning import planning_ahead
from browser.standing import Standing

pytestmark = pytest.mark.journey

SITE = "quinta-das-mares"
LISBON = ZoneInfo("Europe/Lisbon")
SETTINGS = "hours=24&units=metric&language=en"


def json_of(server: Standing, path: str) -> Any:
    with urllib.request.urlopen(f"{server.address}/api/sites/{SITE}/{path}", timeout=30) as answer:
        return json.load(answer)


def planned(server: Standing) -> list[dict[str, Any]]:
    """The sheets of all fourteen nights, as soon as they are there."""
    until = time.monotonic() + 180
    while time.monotonic() < until:
        sheets: list[dict[str, Any]] = json_of(server, "nights")["sheets"]
        if len(sheets) == 14:
            return sheets
        time.sleep(0.5)
    raise AssertionError("the nights ahead were not worked out within three minutes")


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Standing]:
    standing = Standing(tmp_path_factory.mktemp("ahead"))
    standing.start()
    yield standing
    standing.stop()


@pytest.fixture(scope="module")
def sheets(server: Standing) -> list[dict[str, Any]]:
    with planning_ahead(server):
        return planned(server)


@pytest.fixture(scope="module")
def context(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport={"width": 360, "height": 740}, locale="en-GB")
    context.set_default_timeout(20_000)
    yield context
    context.close()


@pytest.fixture
def page(context: BrowserContext, server: Standing, sheets: list[dict[str, Any]]) -> Iterator[Page]:
    page = context.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.goto(f"{server.address}/ahead?{SETTINGS}")
    expect(page.locator(".ahead-night:not(.ahead-unknown)")).to_have_count(14)
    yield page
    page.close()
    assert faults == []


def wall(instant: int) -> str:
    return datetime.fromtimestamp(instant, UTC).astimezone(LISBON).strftime("%H:%M")


def test_every_line_says_what_the_servers_sheet_says(page: Page, sheets: list[dict[str, Any]]) -> None:
    assert [sheet["night"] for sheet in sheets] == page.locator(".ahead-night").evaluate_all(
        "(nights) => nights.map((night) => night.dataset.night)"
    )
    for sheet in sheets:
        line = page.locator(f"[data-night='{sheet['night']}']")
        expect(line.locator(".ahead-finish")).to_contain_text(wall(sheet["finish"]))
        expect(line.locator(".ahead-bare")).to_have_text(str(round(sheet["volume_l"] / 1000)))
        assert line.locator(".ahead-short").count() == (1 if sheet["shortfalls"] else 0)


def test_the_table_has_the_same_facts(page: Page, sheets: list[dict[str, Any]]) -> None:
    page.get_by_text("The nights as a table").click()
    for sheet in sheets:
        cells = page.locator(f"[data-table-night='{sheet['night']}'] td").all_inner_texts()
        assert cells[:3] == [
            wall(min(run["start"] for run in sheet["runs"])),
            wall(sheet["finish"]),
            str(len(sheet["runs"])),
        ]


def test_the_night_in_which_the_clock_goes_back_is_marked(page: Page, sheets: list[dict[str, Any]]) -> None:
    tonight = page.locator(f"[data-night='{sheets[0]['night']}']")
    expect(tonight).to_contain_text("The clock goes back.")
    expect(page.locator(".silhouette-seam")).to_have_count(1)


def test_a_silhouette_is_as_large_as_the_nights_water(page: Page, sheets: list[dict[str, Any]]) -> None:
    """Whatever is shaded is volume: two nights compare as their silhouettes do."""
    areas: dict[str, float] = page.evaluate(AREAS)
    scale = sum(areas.values()) / sum(sheet["volume_l"] for sheet in sheets)
    for sheet in sheets:
        # Outlines are written to a tenth of a pixel.
        assert areas[sheet["night"]] == pytest.approx(sheet["volume_l"] * scale, rel=0.02), sheet["night"]


AREAS = """() => Object.fromEntries([...document.querySelectorAll('.ahead-night')].map((night) => {
  let area = 0;
  for (const band of night.querySelectorAll('.silhouette .band')) {
    const corners = band.getAttribute('d').slice(1, -1).split('L').map((corner) => corner.split(' ').map(Number));
    if (corners.length < 3) continue;
    const twice = corners.reduce((sum, [x, y], index) => {
      const [nextX, nextY] = corners[(index + 1) % corners.length];
      return sum + x * nextY - nextX * y;
    }, 0);
    area += Math.abs(twice) / 2;
  }
  return [night.dataset.night, area];
}))"""


def test_a_tap_says_why_and_leads_to_the_nights_picture(page: Page, sheets: list[dict[str, Any]]) -> None:
    date = sheets[2]["night"]
    line = page.locator(f"[data-night='{date}']")
    line.locator("button.ahead-row").click()
    why = line.locator(".night-why")
    expect(why).to_contain_text("By supply")
    expect(why).to_contain_text("Drought order")
    why.get_by_role("button", name="Show that night").click()
    expect(page.locator(".drawing .block").first).to_be_visible()
    assert page.url.split("?")[0].endswith(date)


def test_programs_by_nights_say_when_each_begins(page: Page, sheets: list[dict[str, Any]]) -> None:
    page.get_by_role("button", name="Programs").click()
    for sheet in sheets[:3]:
        for program in ("p-a", "p-b", "p-c"):
            field = page.locator(f"[data-program='{program}'][data-date='{sheet['night']}']")
            starts = [run["start"] for run in sheet["runs"] if run["program"] == program]
            if starts:
                expect(field.locator(".grid-time")).to_contain_text(wall(min(starts)))
            else:
                expect(field.locator(".grid-time")).to_have_count(0)


def test_a_field_says_each_run_and_why_it_is_there(page: Page, sheets: list[dict[str, Any]]) -> None:
    page.get_by_role("button", name="Programs").click()
    program = sheets[0]["runs"][0]["program"]
    page.locator(f"[data-program='{program}'][data-date='{sheets[0]['night']}']").click()
    runs = sorted(run["start"] for run in sheets[0]["runs"] if run["program"] == program)
    shown = page.locator(".cell-why .cell-time").all_inner_texts()
    assert [time.rstrip("¹²") for time in shown[: len(runs)]] == [wall(start) for start in runs]
    assert all(page.locator(".cell-run .cell-reason").all_inner_texts())
    page.get_by_role("button", name="Close").click()
    expect(page.locator(".cell-why")).to_have_count(0)


def test_arrow_keys_lead_through_the_grid(page: Page, sheets: list[dict[str, Any]]) -> None:
    page.get_by_role("button", name="Programs").click()
    page.locator(".grid-field[tabindex='0']").focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowDown")
    spot = page.evaluate("() => [document.activeElement.dataset.line, document.activeElement.dataset.column]")
    assert spot == ["1", "1"]
    page.keyboard.press("Enter")
    expect(page.locator(".cell-why")).to_be_visible()


def test_one_programs_nights_are_a_tap_away(page: Page, sheets: list[dict[str, Any]]) -> None:
    page.get_by_role("button", name="Programs").click()
    page.get_by_role("button", name="Training pitch", exact=True).click()
    for sheet in sheets[:4]:
        ends = [run["end"] for run in sheet["runs"] if run["program"] == "p-c"]
        line = page.locator(f"[data-night='{sheet['night']}'] .ahead-finish")
        expect(line).to_contain_text(wall(max(ends)) if ends else "–")


def test_a_desk_shows_nights_and_programs_side_by_side(page: Page) -> None:
    page.set_viewport_size({"width": 1440, "height": 1000})
    nights, grid = page.locator(".ahead-nights").bounding_box(), page.locator(".program-grid").bounding_box()
    assert nights and grid and nights["x"] + nights["width"] <= grid["x"] + 1
    assert grid["y"] < 300


def test_time_runs_the_readers_way(page: Page, server: Standing, sheets: list[dict[str, Any]]) -> None:
    page.goto(f"{server.address}/ahead?hours=24&units=metric&language=ar-XB")
    line = page.locator(f"[data-night='{sheets[1]['night']}']")
    expect(line.locator(".band").first).to_be_visible()
    day, finish = line.locator(".ahead-date").bounding_box(), line.locator(".ahead-finish").bounding_box()
    assert day and finish and day["x"] > finish["x"]


def test_the_nights_are_there_without_the_server(page: Page, server: Standing, sheets: list[dict[str, Any]]) -> None:
    server.stop()
    try:
        page.goto(f"{server.address}/ahead?{SETTINGS}")
        expect(page.locator(".ahead-night:not(.ahead-unknown)")).to_have_count(14)
        expect(page.locator(".ahead-bare").first).to_have_text(str(round(sheets[0]["volume_l"] / 1000)))
    finally:
        server.start()
