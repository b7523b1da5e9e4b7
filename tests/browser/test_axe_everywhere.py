"""axe finds nothing on any screen, left to right or right to left, for somebody who may change everything."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page

from browser.axe import flaws
from browser.codes import code_for
from browser.every_screen import Site, come_in, every_screen, set_run_time, settle, visit
from browser.screens import NO_PLANNER
from browser.standing import Standing

pytestmark = pytest.mark.journey


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Standing]:
    standing = Standing(tmp_path_factory.mktemp("axe"))
    standing.start()
    yield standing
    standing.stop()


@pytest.fixture(scope="module")
def phone(browser: Browser, server: Standing) -> Iterator[tuple[Page, Site]]:
    """A manager's phone, on which a dispute waits."""
    context = browser.new_context(viewport={"width": 360, "height": 740}, locale="en-GB", reduced_motion="reduce")
    site = Site(context.request, server.address)
    other = browser.new_context()
    for one, name in ((other, "Bikram Thapa"), (context, "Inês Falcão")):
        come_in(one, server.address, code_for(server, "manager"), name)
    outcomes = [set_run_time(one, server.address, site, run_s) for one, run_s in ((other, 2160), (context, 3000))]
    assert outcomes == ["taken", "disputed"]
    other.close()
    page = context.new_page()
    page.set_default_timeout(15_000)
    page.add_init_script(NO_PLANNER)
    yield page, site
    context.close()


@pytest.mark.parametrize("language", ["en", "es", "pt", "de", "ar"])
def test_axe_finds_nothing_on_any_screen(server: Standing, phone: tuple[Page, Site], language: str) -> None:
    """Colours are the same in every language: their contrast, which takes longest, is measured once."""
    without = [] if language == "en" else ["color-contrast"]
    page, site = phone
    page.goto(f"{server.address}/?language={language}&hours=24&units=metric")
    settle(page)
    found: dict[str, list[str]] = {}
    for screen in every_screen(site):
        visit(page, screen)
        found[screen.name] = flaws(page, without)
        if screen.last:
            screen.last(page)
    assert len(found) > 70
    assert {name: told for name, told in found.items() if told} == {}
