"""A newer version, and the off switch: with the server really started anew over the newer files."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from browser.kept import cache_names, keep_all, newer_waits, until
from browser.standing import APP, Standing, newer_app

pytestmark = pytest.mark.journey

NEWER = "html[data-newer]"


@pytest.fixture(autouse=True)
def patient() -> Iterator[None]:
    """A machine that runs all tests at once may take its time over a start of the app."""
    expect.set_options(timeout=20_000)
    yield
    expect.set_options(timeout=5_000)


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Standing]:
    standing = Standing(tmp_path_factory.mktemp("standing"))
    standing.start()
    yield standing
    standing.stop()


@pytest.fixture
def phone(browser: Browser, server: Standing) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport={"width": 360, "height": 740}, locale="en-GB")
    context.set_default_timeout(30_000)
    server.release(APP)
    yield context
    context.close()


def opened(phone: BrowserContext, server: Standing) -> Page:
    page = phone.new_page()
    page.goto(f"{server.address}/?hours=24")
    page.wait_for_selector(".drawing .block")
    return page


def release(server: Standing, folder: Path) -> None:
    """The server hands out newer files, and no older ones."""
    server.release(newer_app(server.app.resolve(), folder / f"app-{len(list(folder.iterdir()))}"))


def test_a_newer_version_waits_says_so_and_takes_over_in_all_tabs_on_a_tap(
    phone: BrowserContext, server: Standing, tmp_path: Path
) -> None:
    tabs = [opened(phone, server), opened(phone, server)]
    keep_all(tabs[0])
    release(server, tmp_path)
    newer_waits(tabs[0])
    for tab in tabs:
        expect(tab.locator(".banner", has_text="A new version is ready.")).to_be_visible()
        expect(tab.locator(NEWER)).to_have_count(0)
    tabs[1].get_by_role("button", name="Use it now").click()
    for tab in tabs:
        expect(tab.locator(NEWER)).to_have_count(1)
        expect(tab.locator(".banner", has_text="A new version is ready.")).to_have_count(0)


def test_an_open_page_goes_on_after_the_newer_version_took_over(
    phone: BrowserContext, server: Standing, tmp_path: Path
) -> None:
    """Its rooms are fetched when they are first entered: the server has them no more, this phone does."""
    phone.add_init_script(NEVER_OPENS_ANEW)
    page = opened(phone, server)
    keep_all(page)
    release(server, tmp_path)
    newer_waits(page)
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.get_by_role("button", name="Use it now").click()
    until(page, "caches.keys().then((names) => names.filter((name) => name.includes('shell')).length === 2)")
    until(page, "navigator.serviceWorker.getRegistration().then(({ waiting }) => waiting === null)")
    for room in ("Ahead", "Stations", "Changes", "More"):
        page.get_by_role("navigation", name="Rooms").get_by_role("button", name=room).click()
        expect(page.locator(".room main")).to_be_visible()
    assert faults == []
    expect(page.locator(NEWER)).to_have_count(0)


def test_files_of_the_version_before_the_last_go(phone: BrowserContext, server: Standing, tmp_path: Path) -> None:
    page = opened(phone, server)
    keep_all(page)
    shells = []
    for _ in range(3):
        shells.append([name for name in cache_names(page) if "shell" in name])
        release(server, tmp_path)
        newer_waits(page)
        with page.expect_event("load"):
            page.get_by_role("button", name="Use it now").click()
        page.wait_for_selector(f"{NEWER} .drawing .block", state="attached")
        until(page, "navigator.serviceWorker.controller.state === 'activated'")
    assert [len(names) for names in shells] == [1, 2, 2]
    assert shells[0][0] not in shells[2]


def test_the_off_switch_clears_the_caches_and_nothing_that_people_wrote(
    phone: BrowserContext, server: Standing, tmp_path: Path
) -> None:
    page = opened(phone, server)
    keep_all(page)
    page.evaluate(WRITE_SOMETHING)
    server.offline_app = "0"
    server.again()
    page.goto(server.address)
    until(page, "caches.keys().then((names) => names.length === 0)")
    until(page, "navigator.serviceWorker.getRegistrations().then((all) => all.length === 0)")
    page.wait_for_selector(".drawing .block")
    assert "somebody-wrote" in page.evaluate("async () => (await indexedDB.databases()).map((one) => one.name)")
    page.reload()
    page.wait_for_selector(".drawing .block")
    assert cache_names(page) == []


def test_switched_on_again_the_app_is_kept_again(phone: BrowserContext, server: Standing, tmp_path: Path) -> None:
    server.offline_app = "0"
    server.again()
    page = opened(phone, server)
    server.offline_app = "1"
    server.again()
    page.goto(server.address)
    assert keep_all(page)["ready"]


NEVER_OPENS_ANEW = """
const hears = navigator.serviceWorker.addEventListener.bind(navigator.serviceWorker);
navigator.serviceWorker.addEventListener = (name, ...rest) => name === "controllerchange" || hears(name, ...rest);
"""
"""As a page that the system has put to sleep while another tab let the newer version in."""
WRITE_SOMETHING = """() => new Promise((done) => {
  const opening = indexedDB.open("somebody-wrote");
  opening.onsuccess = () => { opening.result.close(); done(); };
})"""
