"""Language, units, clock, week, digits and light change everything at once, without a reload, without a line too."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from browser.crew import choose, come_in, in_step, open_at, phone
from browser.kept import keep_all
from browser.standing import Standing
from pengan.words.reader import Reader

pytestmark = pytest.mark.journey

ARABIC_INDIC = re.compile(r"[٠-٩]")


@pytest.fixture
def reader(browser: Browser, server: Standing) -> Iterator[BrowserContext]:
    with phone(browser) as context:
        in_step(come_in(context, server, "crew", "Salma Haddad"))
        yield context


def room(page: Page, name: str) -> None:
    page.get_by_role("navigation", name="Rooms").get_by_role("button", name=name).click()


def settings(reader: BrowserContext, server: Standing) -> Page:
    """The settings, on a page that had Tonight before and is never loaded again."""
    page = open_at(reader, server, "")
    page.wait_for_selector(".drawing .block")
    room(page, "More")
    page.get_by_role("navigation", name="Pages").get_by_role("button", name="Settings").click()
    page.evaluate("window.stayed = true")
    return page


def test_a_language_replaces_another_everywhere_and_stays(reader: BrowserContext, server: Standing) -> None:
    page = settings(reader, server)
    choose(page, "Español", "Language")
    expect(page.locator("html")).to_have_attribute("lang", "es")
    spanish = Reader(language="es")
    assert spanish.gettext("Settings") != "Settings"
    expect(page.locator("h1")).to_have_text(spanish.gettext("Settings"))
    assert page.evaluate("window.stayed") is True
    page.reload()
    expect(page.locator("html")).to_have_attribute("lang", "es")


def test_everything_changes_at_once_with_the_server_stopped(reader: BrowserContext, server: Standing) -> None:
    page = settings(reader, server)
    keep_all(page)
    server.stop()
    choose(page, "US customary", "Units")
    sample = page.locator(".sample-amounts")
    expect(sample).to_contain_text("63.4 gpm")
    expect(sample).to_contain_text("75.2 °F")
    page.get_by_text("A unit of one's own for some quantities").click()
    page.get_by_label("Flow").select_option("lps")
    expect(sample).to_contain_text("4 L/s")
    choose(page, "12 hours", "Clock")
    expect(page.locator(".sample-clock")).to_have_text(re.compile("11:42 ?pm", re.IGNORECASE))
    choose(page, "Saturday", "First day of the week")
    expect(page.locator(".sample-week li").first).to_have_text("Sat")
    choose(page, "Arabic-Indic", "Digits")
    expect(page.locator(".sample-clock")).to_contain_text("١١:٤٢")
    choose(page, "Full sun", "Light")
    expect(page.locator("html")).to_have_attribute("data-light", "sun")
    before = page.evaluate("parseFloat(getComputedStyle(document.documentElement).fontSize)")
    choose(page, "Largest", "Size of text")
    assert page.evaluate("parseFloat(getComputedStyle(document.documentElement).fontSize)") == pytest.approx(
        before * 1.5
    )
    room(page, "Tonight")
    page.wait_for_selector(".drawing .block")
    text = page.locator("main").inner_text()
    assert ARABIC_INDIC.search(text) and "L/s" in text
    assert not re.search(r"L/min|\d ?m³", text)
    room(page, "More")
    page.get_by_role("navigation", name="Pages").get_by_role("button", name="Settings").click()
    choose(page, "Deutsch", "Language")
    expect(page.locator("html")).to_have_attribute("lang", "de")
    expect(page.locator("h1")).to_have_text(Reader(language="de").gettext("Settings"))
    assert page.evaluate("window.stayed") is True


def test_what_was_chosen_without_a_line_reaches_the_profile_and_the_next_device(
    browser: Browser, reader: BrowserContext, server: Standing
) -> None:
    page = settings(reader, server)
    keep_all(page)
    server.stop()
    choose(page, "Persian", "Digits")
    choose(page, "Sunday", "First day of the week")
    server.start()
    page.evaluate("dispatchEvent(new Event('online'))")
    profile = f"{server.address}/api/session"
    for _time in range(100):
        said = reader.request.get(profile).json()["profile"]
        if said["digits"] == "arabext":
            break
        page.wait_for_timeout(100)
    assert (said["digits"], said["first_day"]) == ("arabext", "sun")
    code = reader.request.post(f"{server.address}/api/devices/code", data={}).json()["code"]
    with phone(browser) as next_one:
        body = {"code": code, "name": "x", "language": "en", "device_name": "Next"}
        assert next_one.request.post(f"{server.address}/api/invitations/join", data=body).status == 201
        there = open_at(next_one, server, "more/settings")
        expect(there.locator(".sample-clock")).to_contain_text("۲۳:۴۲")
        expect(there.locator(".sample-week li").first).to_have_text("Sun")


def test_light_follows_the_device_until_somebody_chooses(browser: Browser, server: Standing) -> None:
    with phone(browser) as context:
        page = open_at(context, server, "more/settings")
        page.emulate_media(color_scheme="dark")
        expect(page.locator("html")).to_have_attribute("data-light", "night")
        choose(page, "Day", "Light")
        expect(page.locator("html")).to_have_attribute("data-light", "day")


def test_a_name_is_changed_with_the_servers_leave(reader: BrowserContext, server: Standing) -> None:
    page = settings(reader, server)
    page.get_by_label("Your name").fill("Salma Haddad Reis")
    page.get_by_role("button", name="Keep this name").click()
    expect(page.get_by_role("button", name="Keep this name")).to_have_count(0)
    room(page, "More")
    expect(page.locator(".who-name")).to_have_text("Salma Haddad Reis")
