"""The rest of a night on a phone: worked out and accepted without a server, taken by it later; Arabic, narrow."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from browser.axe import flaws
from browser.codes import SITE, let_in
from browser.conftest import NOW_S
from browser.crew import in_step, phone
from browser.edits import SOON_MS, line_is_back, open_at
from browser.kept import keep_all
from browser.standing import Standing
from pengan.web.ahead.operations import PLANNER, queue_outdated, work_once
from pengan.web.ahead.planning import Orders
from pengan.web.database import Database
from pengan.web.settings import Settings

pytestmark = pytest.mark.journey

WORKED_OUT_MS = 120_000
"""The planner starts and works out two nights; a machine that runs other tests beside it is slow."""
SHOTS = os.environ.get("CATCH_UP_SHOTS", "")


@pytest.fixture
def ines(browser: Browser, server: Standing) -> Iterator[BrowserContext]:
    plan(server)
    with phone(browser, cut_off=True) as context:
        let_in(context, server, "lead", "Inês Falcão")
        yield context


def plan(server: Standing) -> None:
    """What the job process does beside a server."""
    database = Database(Settings(data=server.folder).database_url)
    with database.session() as session:
        queue_outdated(session, PLANNER)
    done: object = True
    while done:
        with database.session() as session:
            done = work_once(session, "test", NOW_S, Orders(effort=1))
    database.engine.dispose()


def tonight(context: BrowserContext, server: Standing) -> dict[str, Any]:
    """As the server has it."""
    found: dict[str, Any] = context.request.get(f"{server.address}/api/sites/{SITE}/nights/tonight").json()
    return found


def say(page: Page, words: str) -> None:
    page.get_by_role("button", name="Something stops the water").click()
    page.get_by_role("button", name=words, exact=True).click()


def shot(page: Page, name: str) -> None:
    if SHOTS:
        page.locator(".catch-up").screenshot(path=str(Path(SHOTS) / f"{name}.png"))


def test_a_rest_accepted_without_a_server_holds_at_once_and_is_the_servers_later(
    ines: BrowserContext, server: Standing, tmp_path: Path
) -> None:
    """It is sent whichever room is open, and stands in the file of what is unsent until then."""
    page = ines.new_page()
    open_at(page, server, "")
    in_step(page)
    keep_all(page, planner=True)
    before = tonight(ines, server)
    server.stop()
    say(page, "No power there")
    expect(page.get_by_text("No power at the whole site since 23:30.")).to_be_visible()
    page.get_by_role("button", name="Expected over in 1 h").click()
    make_up = page.locator(".catch-up-way", has_text="Make up for it")
    expect(make_up).to_be_visible(timeout=WORKED_OUT_MS)
    expect(page.locator(".catch-up-way", has_text="Keep to the clock")).to_contain_text("is lost")
    expect(page.locator(".catch-up .effect-picture svg")).to_be_visible()
    expect(page.locator(".catch-up-caution")).to_contain_text("Caution")
    assert flaws(page) == []
    shot(page, "offer-phone")
    page.get_by_role("button", name="Accept: make up for it").click()
    kept = page.locator(".catch-up-kept")
    expect(kept).to_contain_text("Accepted at 23:30: Make up for it. Unsent; it is safe on this phone.")
    expect(make_up).to_be_hidden(timeout=WORKED_OUT_MS)
    shot(page, "accepted-phone")
    page.reload()
    expect(kept).to_be_visible()
    expect(page.get_by_text("Worked out as if it were over at")).to_be_visible(timeout=SOON_MS)
    expect(page.locator(".catch-up-state")).to_have_text("", timeout=WORKED_OUT_MS)
    expect(page.locator(".catch-up-way")).to_have_count(0)
    worked_out = "At 23:30 the rest of this night was worked out anew"
    expect(page.locator(".notices")).to_contain_text(worked_out)
    room(page, "Changes")
    expect(page.locator("[data-list=unsent-besides]")).to_contain_text("Make up for it")
    assert [one["way"] for one in saved(page, tmp_path)["rests"]] == ["recover"]
    server.start()
    line_is_back(page)
    expect(page.get_by_text("Everything has been sent.")).to_be_visible(timeout=SOON_MS)
    room(page, "Tonight")
    expect(kept).to_be_hidden()
    plan(server)
    after = tonight(ines, server)
    assert after["runs"] != before["runs"]
    back = NOW_S + 3600
    assert min(run["start"] for run in after["runs"] if run["start"] >= NOW_S) >= back
    assert after["runs"] == runs_on(page, after["night"])


def room(page: Page, name: str) -> None:
    page.get_by_role("navigation", name="Rooms").get_by_role("button", name=name).click()


def saved(page: Page, folder: Path) -> dict[str, Any]:
    """The file of all that is unsent."""
    with page.expect_download() as file:
        page.get_by_role("button", name="Save as a file").click()
    file.value.save_as(folder / "unsent.json")
    found: dict[str, Any] = json.loads((folder / "unsent.json").read_text(encoding="utf-8"))
    return found


def runs_on(page: Page, night: str) -> list[dict[str, Any]]:
    """The night as this phone keeps it."""
    found: list[dict[str, Any]] = page.evaluate(
        """(night) => new Promise((done, failed) => {
          const opening = indexedDB.open("pengan");
          opening.onerror = () => failed(opening.error);
          opening.onsuccess = () => {
            const all = opening.result.transaction("nights").objectStore("nights").getAll();
            all.onsuccess = () => done(all.result.find((one) => one.night === night).sheet.runs);
          };
        })""",
        night,
    )
    return found


def test_crew_sees_what_goes_on_and_accepts_nothing(browser: Browser, server: Standing) -> None:
    with phone(browser, cut_off=True) as context:
        let_in(context, server, "crew", "Bikram Thapa")
        page = context.new_page()
        open_at(page, server, "")
        in_step(page)
        expect(page.get_by_role("button", name="Something stops the water")).to_have_count(0)


@pytest.mark.parametrize("language", ["ar", "en"])
def test_both_rests_fit_a_narrow_screen(browser: Browser, server: Standing, language: str) -> None:
    with phone(browser, width=320, height=640, cut_off=True) as context:
        let_in(context, server, "lead", "Inês Falcão")
        page = context.new_page()
        page.goto(f"{server.address}/?language={language}")
        section = page.locator(".catch-up")
        page.locator(".catch-up-say > button").click()
        assert flaws(page) == []
        page.locator(".catch-up-what button").first.click()
        section.locator(".catch-up-going .button").nth(2).click(timeout=SOON_MS)
        expect(section.locator(".catch-up-way").first).to_be_visible(timeout=WORKED_OUT_MS)
        assert page.evaluate("document.documentElement.scrollWidth") <= 320
        assert flaws(page) == []
        shot(page, f"offer-320-{language}")
