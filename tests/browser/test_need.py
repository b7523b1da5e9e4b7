"""The water need in the app: from a run to its work, a hydrozone's season, tonight's list; also without the server."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from browser.codes import SITE, let_in
from browser.crew import choose, in_step, phone
from browser.every_screen import Site, arrive, run_by_need
from browser.kept import keep_all
from browser.standing import Standing

ZONE = "pots"
START_MS = 60_000
"""A machine that runs other tests beside this one takes its time over a planner's start."""
SETTINGS = "hours=24&units=metric"


@pytest.fixture(scope="module")
def by_need(standing: Standing, browser: Browser) -> dict[str, Any]:
    """The turn that waters the planters runs by need from now on; so do two more, of a planting that is on a slope."""
    standing.start()
    with phone(browser) as context:
        let_in(context, standing, "manager", "Inês Falcão")
        site = Site(context.request, standing.address)
        turn = site.waters(ZONE)
        run_by_need(context, standing.address, [turn, site.waters("lawn")])
    return turn


@pytest.fixture
def crew(server: Standing, by_need: dict[str, Any], browser: Browser) -> Iterator[BrowserContext]:
    assert by_need
    with phone(browser, cut_off=True) as context:
        let_in(context, server, "crew", "Bikram Thapa")
        yield context


def opened(context: BrowserContext, server: Standing, path: str = "", language: str = "en") -> Page:
    page = context.new_page()
    page.goto(f"{server.address}/{path}?{SETTINGS}&language={language}")
    page.wait_for_selector(".room-head")
    return page


def answer(context: BrowserContext, server: Standing, path: str) -> Any:
    told = context.request.get(f"{server.address}/api/sites/{SITE}/need/{path}?language=en")
    assert told.ok, told.text()
    return told.json()


def test_a_run_leads_to_its_work_and_the_work_to_every_figure(
    crew: BrowserContext, server: Standing, by_need: dict[str, Any]
) -> None:
    told = answer(crew, server, f"tonight/turns/{by_need['id']}")
    page = opened(crew, server)
    in_step(page)
    page.wait_for_selector(".drawing .block")
    choose_run(page, by_need["id"])
    page.locator(".why-acts").get_by_role("button", name="Show the work").click()
    expect(page.locator(".chain-step")).to_have_count(5)
    assert page.url.split("?")[0].endswith(f"/need/turn/{by_need['id']}/2026-10-24")
    shown = page.locator("[data-figure]").evaluate_all("all => all.map((one) => one.dataset.figure)")
    assert sorted(shown) == sorted(figure["key"] for figure in told["figures"])
    page.locator("[data-step=minutes] summary").click()
    expect(page.locator("[data-figure=run] .figure-value")).to_be_visible()
    expect(page.locator("[data-figure=run] .figure-about")).to_contain_text("From: Water to give and Depth an hour")
    expect(page.get_by_text("These figures are planning aids")).to_be_visible()


@pytest.mark.journey
def test_the_work_the_season_and_the_night_can_be_saved_as_tables(
    crew: BrowserContext, server: Standing, by_need: dict[str, Any]
) -> None:
    for path, head in ((f"turn/{by_need['id']}", "key,name,value"), (f"hydrozone/{ZONE}", "day,demand_mm,rain_mm")):
        page = opened(crew, server, f"need/{path}")
        with page.expect_download() as download:
            page.get_by_text("Save as CSV").click()
        assert download.value.path().read_text("utf-8").startswith(head)
        page.close()


@pytest.mark.journey
def test_tonights_need_is_sorted_by_urgency_and_leads_to_seasons(crew: BrowserContext, server: Standing) -> None:
    zones = {zone["hydrozone"]: zone for zone in answer(crew, server, "tonight")["hydrozones"]}
    page = opened(crew, server, "need/tonight")
    expect(page.locator("[data-zone]")).to_have_count(len(zones))
    shown = page.locator("[data-zone]").evaluate_all("all => all.map((one) => one.dataset.zone)")
    assert [zones[zone]["tonight_mm"] > 0 for zone in shown] == sorted(
        (zone["tonight_mm"] > 0 for zone in zones.values()), reverse=True
    )
    expect(page.locator("[data-rung=full]")).to_contain_text("from temperatures, humidity, sun and wind")
    page.locator(f"[data-zone={ZONE}]").click()
    expect(page.locator(".season-name")).to_have_text("Pots and planters")
    expect(page.locator(".season-picture svg")).to_be_visible()
    page.locator(".as-table summary").click()
    expect(page.locator("[data-day]")).to_have_count(24)
    page.get_by_role("button", name="14 days").click()
    expect(page.locator("[data-day]")).to_have_count(14)


@pytest.mark.journey
def test_everything_is_worked_out_on_the_phone_while_the_server_is_gone(
    crew: BrowserContext, server: Standing, by_need: dict[str, Any]
) -> None:
    """The phone has asked the server for none of it before. Both come to the same minutes."""
    told = answer(crew, server, f"tonight/turns/{by_need['id']}")
    run = next(figure["value"] for figure in told["figures"] if figure["key"] == "run")
    page = opened(crew, server, "stations")
    in_step(page)
    assert keep_all(page, planner=True)["ready"]
    server.stop()
    page.goto(f"{server.address}/need/turn/{by_need['id']}?{SETTINGS}")
    expect(page.locator(".need-standing")).to_have_text("Worked out on this phone.", timeout=START_MS)
    expect(page.locator(".outcome-run")).to_have_text(words_for(run))
    arrive(page, "need/tonight")
    expect(page.locator("[data-zone]")).to_have_count(11, timeout=START_MS)
    arrive(page, f"need/hydrozone/{ZONE}")
    expect(page.locator(".season-picture svg")).to_be_visible(timeout=START_MS)
    expect(page.locator(".need-standing")).to_contain_text("Nights past count as watered as their need was")
    with page.expect_download() as download:
        page.get_by_text("Save as CSV").click()
    assert download.value.path().read_text("utf-8").count("\n") == 25


@pytest.mark.journey
def test_the_last_answer_stays_where_a_phone_has_no_planner(
    crew: BrowserContext, server: Standing, by_need: dict[str, Any]
) -> None:
    crew.add_init_script("Object.defineProperty(Navigator.prototype, 'deviceMemory', { get: () => 1 })")
    page = opened(crew, server, f"need/turn/{by_need['id']}")
    expect(page.locator(".chain-step")).to_have_count(5)
    assert keep_all(page)["ready"]
    server.stop()
    page.reload()
    expect(page.locator(".need-standing")).to_have_text(re.compile(r"[Aa]s of \d\d:\d\d\."))
    expect(page.locator(".chain-step")).to_have_count(5)
    arrive(page, f"need/hydrozone/{ZONE}")
    expect(page.locator(".need-standing")).to_have_text("This needs signal. It was never fetched on this phone.")


@pytest.mark.journey
def test_a_person_has_a_turn_worked_out_by_need_and_takes_it_back(
    server: Standing, by_need: dict[str, Any], browser: Browser
) -> None:
    with phone(browser) as context:
        let_in(context, server, "lead", "Mei-Ling Duarte")
        site = Site(context.request, server.address)
        turn = site.waters("citrus")
        page = opened(context, server, f"stations/{turn['station']}/turn/{turn['id']}")
        page.get_by_role("button", name="Have it worked out by need").click()
        choose(page, "Worked out by need")
        page.get_by_role("button", name="Run it by need").click()
        expect(page.locator(".chain-step")).to_have_count(5)
        expect(page.locator(".tray")).to_contain_text("runs by need from now on")
        page.get_by_role("button", name="Undo").click()
        expect(page.get_by_text("There is no work to show.")).to_be_visible()


@pytest.mark.journey
def test_in_arabic_time_runs_from_right_to_left(crew: BrowserContext, server: Standing) -> None:
    page = opened(crew, server, f"need/hydrozone/{ZONE}", language="ar")
    chosen = page.locator(".season-chosen")
    expect(chosen).to_be_attached()
    box, picture = chosen.bounding_box(), page.locator(".season-picture").bounding_box()
    assert box and picture and box["x"] < picture["x"] + 40, "the newest day stands at the left"
    assert page.locator("html").get_attribute("dir") == "rtl"
    ticks = page.locator(".season-words g text").all_text_contents()
    assert ticks and all(not re.search("[A-Za-z]", tick) for tick in ticks)
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def choose_run(page: Page, turn: str) -> None:
    """By keys: two minutes of water are a thin block to hit."""
    page.locator(".drawing .block").first.focus()
    page.keyboard.press("Home")
    meant = page.locator(f".block[data-run^='{turn}.'][aria-selected=true]")
    for _ in range(400):
        if meant.count():
            return
        page.keyboard.press("ArrowRight")
    raise AssertionError(f"no run of {turn} in the picture")


def words_for(seconds: float) -> str:
    """As the page writes a length of time in English."""
    whole = round(seconds)
    parts = ((whole // 3600, "h"), (whole // 60 % 60, "min"), (whole % 60, "s"))
    return " ".join(f"{count} {unit}" for count, unit in parts if count)
