"""A wet check on a phone: without the server, which is really stopped, through a reload, until all of it arrives."""

from __future__ import annotations

import re
import struct
import zlib
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from browser.axe import flaws
from browser.codes import SITE, let_in
from browser.crew import choose, open_at, phone
from browser.kept import keep_all
from browser.standing import Standing

pytestmark = pytest.mark.journey

PATIENCE_MS = 60_000


@pytest.fixture
def crew(server: Standing, browser: Browser) -> Iterator[BrowserContext]:
    """Somebody of the crew, who may change nothing else."""
    with phone(browser, cut_off=True) as context:
        let_in(context, server, "crew", "Bikram Thapa")
        yield context


def in_step(page: Page) -> None:
    """In every language; a room behind another shows the chip only where something is amiss."""
    page.locator(".sync-chip[data-line=in_step]").first.wait_for(state="attached", timeout=PATIENCE_MS)


def ready(context: BrowserContext, server: Standing) -> Page:
    """The whole app and the site are on the phone, and it stands before a walk."""
    page = open_at(context, server, "wet-check?language=en&units=metric&hours=24")
    in_step(page)
    assert keep_all(page)["ready"]
    return page


def begin(page: Page, part: int = 0) -> None:
    """A walk through one part of the grounds."""
    choose(page, "A part of the grounds")
    page.get_by_label("Which one").select_option(index=part)
    page.get_by_role("button", name="Begin the walk").click()
    expect(page.locator(".wet-walk")).to_be_visible()


def a_photo(width: int = 2400, height: int = 1800) -> bytes:
    """A picture larger than it has to be, by ISO/IEC 15948: a slope of greens."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    lines = b"".join(b"\0" + bytes((40, line * 200 // height, 60)) * width for line in range(height))
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + head + chunk(b"IDAT", zlib.compress(lines, 1)) + chunk(b"IEND", b"")


def note(page: Page, what: str, count: int = 1, words: str = "", photo: bytes | None = None) -> None:
    page.get_by_role("button", name=what, exact=True).click()
    for _ in range(count - 1):
        page.get_by_role("button", name="1 more").click()
    if words:
        page.get_by_label("Note").fill(words)
    if photo:
        page.locator(".wet-file").set_input_files({"name": "p.png", "mimeType": "image/png", "buffer": photo})
        expect(page.locator(".wet-photo canvas")).to_be_visible(timeout=PATIENCE_MS)
    page.get_by_role("button", name="Note it down").click()
    expect(page.locator(".wet-seen")).to_contain_text(what)


def told(context: BrowserContext, server: Standing) -> list[dict[str, Any]]:
    answer = context.request.get(f"{server.address}/api/sites/{SITE}/journal?kind=finding")
    assert answer.ok, answer.text()
    found: list[dict[str, Any]] = answer.json()["entries"]
    return found


def repairs(context: BrowserContext, server: Standing) -> list[dict[str, Any]]:
    answer = context.request.get(f"{server.address}/api/sites/{SITE}/document")
    assert answer.ok, answer.text()
    return [one for one in answer.json()["records"] if one["table"] == "repairs"]


def test_a_walk_without_the_server_outlives_a_reload_and_reaches_it_whole(
    crew: BrowserContext, server: Standing
) -> None:
    page = ready(crew, server)
    expect(page.locator(".wet-cautions")).to_contain_text("stay under pressure")
    expect(page.locator(".wet-cautions")).to_contain_text("cabinet")
    server.stop()
    begin(page)
    first = page.locator(".wet-station .tag").inner_text()
    page.get_by_role("button", name="Water is on: start").click()
    expect(page.locator(".wet-left")).to_have_text(re.compile("1:5[0-9]"))
    note(page, "Broken head", 3, "By the oleander", a_photo())
    note(page, "Leak")
    page.reload()
    expect(page.locator(".wet-station .tag")).to_have_text(first)
    expect(page.locator(".wet-seen li")).to_have_count(2)
    expect(page.get_by_role("button", name="Pause")).to_be_visible()
    page.get_by_role("button", name="Pause").click()
    page.get_by_role("button", name="Next station").click()
    expect(page.locator(".wet-left")).to_have_text("2:00")
    page.get_by_role("button", name="Skip").click()
    page.get_by_role("button", name="Back one").click()
    page.get_by_role("button", name="All well, next").click()
    page.get_by_role("button", name="End the walk here").click()
    expect(page.locator(".wet-ended")).to_have_text("2 findings")
    expect(page.locator(".wet-summary")).to_contain_text("2 stations checked")
    assert repairs_shown(page) == 2
    server.start()
    in_step(page)
    assert_arrived(page, crew, server)


def repairs_shown(page: Page) -> int:
    page.get_by_role("button", name="See the repairs").click()
    expect(page.locator(".repairs .row").first).to_be_visible()
    return page.locator(".repairs .row").count()


def assert_arrived(page: Page, crew: BrowserContext, server: Standing) -> None:
    """What was kept is on the server, once: as entries of the journal, and as repairs that name them."""
    for _ in range(60):
        entries = told(crew, server)
        if len(entries) == 2:
            break
        page.wait_for_timeout(500)
    assert sorted((one["finding"], one["count"]) for one in entries) == [("head", 3), ("leak", 1)]
    kept = repairs(crew, server)
    assert {one["finding"] for one in kept} == {one["id"] for one in entries}
    assert [one["notes"] for one in kept if one["found"] == "head"] == ["By the oleander"]
    assert {(one["found_by"], one.get("state")) for one in kept} == {("Bikram Thapa", None)}
    (photo,) = (one["photos"] for one in kept if one["found"] == "head")
    for _ in range(60):
        got = crew.request.get(f"{server.address}/api/sites/{SITE}/photos/{photo}")
        if got.ok:
            break
        page.wait_for_timeout(500)
    # It was made small, and is a JPEG: by its first bytes (ITU-T T.81, annex B.1.1.3).
    assert got.ok and got.body()[:3] == b"\xff\xd8\xff" and len(got.body()) < 900 * 1024
    page.locator(".repairs .row", has_text="Broken head").click()
    expect(page.locator(".wet-photo canvas")).to_be_visible()


def test_a_repair_is_taken_without_the_server_done_with_it_and_opened_again(
    crew: BrowserContext, server: Standing
) -> None:
    page = ready(crew, server)
    begin(page, 1)
    note(page, "Valve")
    page.get_by_role("button", name="End the walk here").click()
    page.get_by_role("button", name="See the repairs").click()
    server.stop()
    page.locator(".repairs .row", has_text="Valve").first.click()
    page.get_by_role("button", name="I take it").click()
    expect(page.locator(".wet-step")).to_have_text("In hand")
    expect(page.get_by_label("Who sees to it")).to_have_value("Bikram Thapa")
    page.get_by_label("Note").fill("New diaphragm")
    page.get_by_role("button", name="Keep the note").click()
    server.start()
    page.get_by_role("button", name="It is done").click()
    expect(page.locator(".wet-step")).to_have_text("Done")
    in_step(page)
    kept = [one for one in repairs(crew, server) if one["found"] == "valve"]
    assert [(one["state"], one["owner"], one["notes"]) for one in kept] == [("done", "Bikram Thapa", "New diaphragm")]
    page.get_by_role("button", name="Open it again").click()
    expect(page.locator(".wet-step")).to_have_text("To do")


@pytest.mark.parametrize("width", [320, 360])
def test_in_arabic_nothing_is_clipped_and_every_button_is_large(browser: Browser, server: Standing, width: int) -> None:
    with phone(browser, width=width) as context:
        let_in(context, server, "crew", "Salma Haddad")
        page = open_at(context, server, "wet-check?language=ar&units=metric")
        in_step(page)
        page.locator(".wet-go").click()
        expect(page.locator("html")).to_have_attribute("dir", "rtl")
        for step in (".wet-kind", ".wet-form .keep-buttons .button"):
            page.locator(step).first.click() if step == ".wet-kind" else None
            assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), step
            small = page.evaluate(SMALL)
            assert small == [], small
        assert flaws(page) == []


SMALL = """() => [...document.querySelectorAll('.wet-body button, .wet-body input, .wet-body textarea')]
  .filter((one) => one.getBoundingClientRect().height < 56).map((one) => one.textContent)"""
