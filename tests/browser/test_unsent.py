"""What waits on a phone is told whole to whoever signs out: a note, a finding and its photo, until all is sent."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from browser.axe import flaws
from browser.codes import SITE, let_in
from browser.conftest import TOO_LITTLE_MEMORY
from browser.crew import open_at, phone
from browser.kept import keep_all
from browser.standing import Standing
from browser.test_wet_check import a_photo, begin, in_step, note

pytestmark = pytest.mark.journey

PATIENCE_MS = 60_000
NOTE = "The sluice sticks, oil it"
WORDS = "language=en&units=metric&hours=24"


@pytest.fixture
def crew(server: Standing, browser: Browser) -> Iterator[BrowserContext]:
    with phone(browser, cut_off=True) as context:
        context.add_init_script(TOO_LITTLE_MEMORY)
        let_in(context, server, "crew", "Bikram Thapa")
        yield context


def entries(context: BrowserContext, server: Standing, kind: str) -> list[dict[str, Any]]:
    answer = context.request.get(f"{server.address}/api/sites/{SITE}/journal?kind={kind}")
    assert answer.ok, answer.text()
    found: list[dict[str, Any]] = answer.json()["entries"]
    return found


def repairs(context: BrowserContext, server: Standing) -> list[dict[str, Any]]:
    answer = context.request.get(f"{server.address}/api/sites/{SITE}/document")
    assert answer.ok, answer.text()
    return [one for one in answer.json()["records"] if one["table"] == "repairs"]


def until(page: Page, holds: Callable[[], bool]) -> None:
    for _ in range(120):
        if holds():
            return
        page.wait_for_timeout(500)
    raise AssertionError("it did not come to hold within a minute")


def tell_without_signal(page: Page) -> None:
    """A finding with a photo, which is an edit, an entry and a photo; and a note."""
    begin(page)
    note(page, "Leak", photo=a_photo(800, 600))
    page.get_by_role("navigation", name="Rooms").get_by_role("button", name="More").click()
    page.get_by_role("button", name="Journal").click()
    page.get_by_role("button", name="Write a note").click()
    page.get_by_label("A note for the journal").fill(NOTE)
    page.get_by_role("button", name="Write it down").click()
    expect(page.get_by_text("Saved on this phone. It is sent")).to_be_visible()


def test_who_signs_out_without_signal_is_told_what_is_unsent_and_all_of_it_is_sent_once(
    crew: BrowserContext, server: Standing
) -> None:
    page = open_at(crew, server, f"wet-check?{WORDS}")
    in_step(page)
    assert keep_all(page)["ready"]
    server.stop()
    tell_without_signal(page)
    expect(page.locator(".sync-chip").first).to_contain_text("4 unsent", timeout=PATIENCE_MS)
    page.goto(f"{server.address}/more/sign-out?{WORDS}")
    told = page.locator(".more-alert").first
    whole = "1 unsent edit, 2 unsent entries of the journal and 1 unsent photo stay on this phone"
    expect(told).to_contain_text(whole, timeout=PATIENCE_MS)
    page.get_by_role("button", name="Sign out Bikram Thapa").click()
    expect(page.get_by_text("This needs signal.")).to_be_visible()
    expect(told).to_contain_text(whole)

    page.get_by_role("button", name="See what is unsent").click()
    waiting = page.locator("[data-list=unsent-besides] > li")
    expect(waiting).to_have_count(3)
    expect(waiting.filter(has_text=NOTE)).to_contain_text("It waits for signal.")
    expect(waiting.filter(has_text="Photo of a finding at")).to_have_count(1)
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    assert flaws(page) == []

    server.start()
    page.get_by_role("button", name="Send now").click()
    expect(page.get_by_text("Everything has been sent.")).to_be_visible(timeout=PATIENCE_MS)
    assert [one["text"] for one in entries(crew, server, "note")] == [NOTE]
    assert [one["finding"] for one in entries(crew, server, "finding")] == ["leak"]
    (repair,) = repairs(crew, server)
    assert crew.request.get(f"{server.address}/api/sites/{SITE}/photos/{repair['photos']}").ok
    page.goto(f"{server.address}/more/sign-out?{WORDS}")
    expect(page.get_by_text("Nothing is unsent on this phone.")).to_be_visible()


def test_what_is_unsent_outlives_signing_out(crew: BrowserContext, server: Standing) -> None:
    """The server turns the journal's calls away for a while, and takes the signing out."""
    page = open_at(crew, server, f"more/journal?{WORDS}")
    in_step(page)
    page.route(f"**/api/sites/{SITE}/journal", lambda route: route.fulfill(status=503))
    page.get_by_role("button", name="Write a note").click()
    page.get_by_label("A note for the journal").fill("Gate key hangs at the kiosk")
    page.get_by_role("button", name="Write it down").click()
    expect(page.get_by_text("Saved on this phone. It is sent")).to_be_visible()
    page.goto(f"{server.address}/more/sign-out?{WORDS}")
    expect(page.locator(".more-alert")).to_contain_text("1 unsent entry of the journal stays on this phone")
    page.get_by_role("button", name="Sign out Bikram Thapa").click()
    expect(page.get_by_text("Nobody is signed in on this phone")).to_be_visible()
    assert page.evaluate(KEPT) == [["Gate key hangs at the kiosk", False]]
    assert page.evaluate(COPIES) >= 1, "the site's copy of who still has something to send stays, out of sight"


KEPT = """() => new Promise((resolve) => {
  indexedDB.open("pengan").onsuccess = ({ target }) => {
    const rows = target.result.transaction("told").objectStore("told").getAll();
    rows.onsuccess = () => resolve(rows.result.map((row) => [row.entry.text, row.taken]));
  };
})"""
COPIES = """() => new Promise((resolve) => {
  indexedDB.open("pengan").onsuccess = ({ target }) => {
    const rows = target.result.transaction("heads").objectStore("heads").getAllKeys();
    rows.onsuccess = () => resolve(rows.result.filter(([owner]) => owner).length);
  };
})"""
