"""The planner in Chromium: the same bytes as here, under the page's policy; back after a fall; offline; absent."""

from __future__ import annotations

import json
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from browser.conftest import POLICY_WATCH, Served
from browser.kept import keep_all
from browser.standing import Standing
from golden.built import IN_BROWSER, browser_asks, differing, lines_of, worker_address

ABOUT = "/more/about"
READY = "The planner is on this phone"
ABSENT = "This browser cannot run the planner"
START_MS = 60_000
"""A machine that runs other tests beside this one has been seen to take half of it."""


@pytest.fixture
def phone(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport={"width": 360, "height": 740}, locale="en-GB", service_workers="block")
    context.add_init_script(POLICY_WATCH)
    yield context
    context.close()


def complaints_of(page: Page) -> list[str]:
    """Fills with what the browser has to complain about."""
    complaints: list[str] = []
    page.on("console", lambda said: complaints.append(said.text) if said.type in ("error", "warning") else None)
    page.on("pageerror", lambda error: complaints.append(str(error)))
    return complaints


def ready(page: Page) -> None:
    expect(page.get_by_text(READY)).to_be_visible(timeout=START_MS)


def test_chromium_gives_the_same_bytes(phone: BrowserContext, served: Served) -> None:
    asks = browser_asks()
    page = phone.new_page()
    complaints = complaints_of(page)
    page.goto(f"{served.address}/api/clock")
    script = f"([worker, asks]) => {{ {IN_BROWSER.read_text('utf-8')}; return planInWorker(worker, asks); }}"
    answers = page.evaluate(script, [worker_address(), [ask.words for ask in asks]])
    assert differing(lines_of(answers), asks) == []
    assert json.loads(answers[-1]["faults"])[0]["code"].startswith("fault.")
    assert complaints == []


@pytest.mark.journey
@pytest.mark.parametrize("fall", ["setTimeout(() => { throw new Error('a crash'); })", "close()"])
def test_a_planner_that_falls_comes_back(phone: BrowserContext, served: Served, fall: str) -> None:
    page = phone.new_page()
    with page.expect_event("worker") as first:
        page.goto(f"{served.address}{ABOUT}")
    ready(page)
    with page.expect_event("worker") as second:
        first.value.evaluate(fall)
    expect(page.get_by_text(READY)).to_be_hidden()
    ready(page)
    assert page.workers == [second.value]


@pytest.mark.journey
def test_a_browser_without_webassembly_does_without(phone: BrowserContext, served: Served) -> None:
    phone.add_init_script("delete window.WebAssembly")
    page = phone.new_page()
    faults: list[str] = []
    asked: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on("request", lambda request: asked.append(request.url))
    page.goto(f"{served.address}{ABOUT}")
    expect(page.get_by_text(ABSENT)).to_be_visible()
    assert faults == [] and page.workers == []
    assert not [url for url in asked if "/planner/" in url]


@pytest.mark.journey
def test_the_planner_starts_without_the_server(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> None:
    server = Standing(tmp_path_factory.mktemp("planner"))
    context = browser.new_context(viewport={"width": 360, "height": 740}, locale="en-GB")
    try:
        server.start()
        page = context.new_page()
        page.goto(f"{server.address}{ABOUT}")
        keep_all(page, planner=True)
        server.stop()
        page.close()
        page = context.new_page()
        page.goto(f"{server.address}{ABOUT}")
        ready(page)
    finally:
        context.close()
        server.stop()
